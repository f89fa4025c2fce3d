#include "verify/shown.hpp"

#include <algorithm>
#include <set>

#include "verify/properties.hpp"

namespace rushlight {
namespace {

LookedAt all_of(std::size_t number, const char* thing) { return LookedAt{number, thing}; }

std::string in_words(const LookedAt& looked) {
  return std::to_string(looked.number) + " " + looked.thing + (looked.number == 1 ? "" : "s");
}

template <class List, class Number>
std::size_t sum_of(const List& list, const Number& number) {
  std::size_t sum = 0;
  for (const auto& each : list) sum += number(each);
  return sum;
}

std::vector<LookedAt> looked_at_for(Property property, const Checking& checking) {
  const Protocol& protocol = checking.protocol;
  const auto rules_of = [](const Step& step) { return step.rules.size(); };
  switch (property) {
    case Property::numbers_fit:
      return {all_of(protocol.thresholds.size(), "number")};
    case Property::texts_complete:
      return {all_of(protocol.languages.size(), "language")};
    case Property::sources_named:
      return {all_of(protocol.sources.size(), "source")};
    case Property::outcomes_covered:
      return {all_of(protocol.actions.size(), "action")};
    case Property::answers_covered:
      return {all_of(protocol.steps.size(), "step"),
              all_of(sum_of(checking.tables, [](const Tables& tables) { return tables.tables.size(); }), "table")};
    case Property::no_dead_rule:
      return {all_of(sum_of(protocol.steps, rules_of), "rule")};
    case Property::doses_covered:
      return {all_of(protocol.doses.size(), "dose"),
              all_of(sum_of(protocol.doses, [](const Dose& dose) { return dose.rows.size(); }), "row")};
    case Property::steps_connected:
      return {all_of(protocol.steps.size(), "step")};
    case Property::loops_bounded:
      return {all_of(sum_of(protocol.steps, [](const Step& step) { return step.wait ? 1U : 0U; }), "wait"),
              all_of(protocol.counters.size(), "counter")};
    case Property::dangers_watched:
      return {all_of(protocol.watch.size(), "watch rule")};
    case Property::readable:
    case Property::words_known:
    case Property::names_stand_for_one_thing:
    case Property::rules_read_what_is_asked:
    case Property::giving_apart:
    case Property::own_laws_kept:
    case Property::examples_come_out:
    case Property::usable:
      break;
  }
  return {};
}

std::size_t numbers_whose_source(const Protocol& protocol, bool Source::*says) {
  return sum_of(protocol.thresholds,
                [&](const Threshold& threshold) { return protocol[threshold.source].*says ? 1U : 0U; });
}

void add_not_shown(const Protocol& protocol, std::vector<Shown>& shown) {
  std::set<std::string> others;
  for (const Step& step : protocol.steps) {
    for (const Rule& rule : step.rules) {
      if (!rule.visits.empty()) others.insert(rule.visits);
      if (!rule.hands_over_to.empty()) others.insert(rule.hands_over_to);
    }
  }
  for (const std::string& other : others)
    shown.push_back(NotShown{"what `" + other + "` does on a visit from here", "each file is looked at alone"});
  const std::size_t all = protocol.thresholds.size();
  const std::size_t practice = numbers_whose_source(protocol, &Source::common_practice);
  const std::size_t memory = numbers_whose_source(protocol, &Source::from_memory);
  std::string why;
  if (practice > 0)
    why = std::to_string(practice) + " of " + std::to_string(all) + " have common practice as their source";
  if (memory > 0)
    why += (why.empty() ? std::to_string(memory) + " of " + std::to_string(all) : ", " + std::to_string(memory)) +
           (memory == 1 ? " is" : " are") + " written from memory";
  shown.push_back(NotShown{"whether the numbers are right for a child", why});
  if (protocol.languages.size() > 1) shown.push_back(NotShown{"whether the languages say the same", ""});
}

struct InOneLine {
  std::string operator()(const Holds& holds) const {
    std::string text = sentence(holds.property);
    for (std::size_t i = 0; i < holds.in.size(); ++i) text += (i == 0 ? " (" : ", ") + in_words(holds.in[i]);
    return holds.in.empty() ? text : text + ")";
  }
  std::string operator()(const ComesInTime& comes) const {
    return "a child with " + comes.child + " all night comes to `" + std::string(name_of(comes.come_to)) + "` after " +
           hours_and_minutes(comes.at_once) + " at most when every question is answered at once, and after " +
           hours_and_minutes(comes.late) + " when answers come as late as the protocol lets them";
  }
  std::string operator()(const ExamplesCome& come) const {
    return in_words(come.examples) + " of `" + come.protocol + "` come out as they say (" + in_words(come.expectations) + ")";
  }
  std::string operator()(const NotShown& not_shown) const {
    return not_shown.why.empty() ? not_shown.what : not_shown.what + ": " + not_shown.why;
  }
};

}  // namespace

std::string hours_and_minutes(Duration duration) {
  const auto minutes = std::chrono::duration_cast<std::chrono::minutes>(duration).count();
  if (duration % std::chrono::minutes{1} != Duration{0}) return text_from_duration(duration);
  if (minutes < 60) return std::to_string(minutes) + " min";
  return std::to_string(minutes / 60) + " h" + (minutes % 60 == 0 ? "" : " " + std::to_string(minutes % 60) + " min");
}

std::string sentence(const Shown& shown) { return std::visit(InOneLine{}, shown); }

std::vector<Shown> shown_by(const Checking& checking) {
  std::vector<Shown> shown;
  for (const Property property : properties_of_protocols()) {
    // Looked at with the whole set.
    if (property == Property::own_laws_kept || property == Property::examples_come_out) continue;
    shown.push_back(Holds{property, looked_at_for(property, checking)});
  }
  add_not_shown(checking.protocol, shown);
  return shown;
}

}  // namespace rushlight
