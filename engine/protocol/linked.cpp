#include "protocol/linked.hpp"

#include <algorithm>

#include "protocol/moving.hpp"
#include "protocol/words.hpp"

namespace rushlight {
namespace {

const Protocol* named(const std::vector<const Protocol*>& set, std::string_view name) {
  const auto found = std::find_if(set.begin(), set.end(), [&](const Protocol* each) { return each->name == name; });
  return found == set.end() ? nullptr : *found;
}

std::vector<std::string> names_of(const std::vector<const Protocol*>& set) {
  std::vector<std::string> names;
  for (const Protocol* protocol : set) names.push_back(protocol->name);
  return names;
}

bool same_question(const Fact& one, const Fact& other) {
  return one.kind == other.kind && one.options.size() == other.options.size() &&
         std::equal(one.options.begin(), one.options.end(), other.options.begin(),
                    [](const Option& a, const Option& b) { return a.name == b.name; });
}

class Linking {
 public:
  Linking(const std::vector<const Protocol*>& set, const Protocol& first) : set_(set) {
    whole_ = Protocol{};
    take_in(first);
    for (std::size_t next = 0; next < taken_.size(); ++next) follow(*taken_[next]);
    // Nothing leads to the others, but what they ask can be told all the same: a fever in the middle of ketones is kept.
    // One that is no part of the same set of names stays out.
    for (const Protocol* other : set_) {
      const bool is_new = std::find(taken_.begin(), taken_.end(), other) == taken_.end();
      if (is_new && fits_beside(*other)) take_in(*other);
    }
    if (has_error(findings_)) return;
    whole_.set = first.set, whole_.name = first.name, whole_.version = first.version;
    whole_.languages = first.languages;
    whole_.title = first.title;
    whole_.where = first.where;
    whole_.start = first.start;  // the first one's steps lie where they lay
    whole_.weight_fresh = first.weight_fresh;
    whole_.opening = whole_.parts.front().opening;
    name_first_steps();
  }

  Read<Protocol> result() {
    sort_findings(findings_);
    if (has_error(findings_)) return {std::nullopt, std::move(findings_)};
    return {std::move(whole_), std::move(findings_)};
  }

 private:
  void follow(const Protocol& protocol) {
    for (const Step& step : protocol.steps) {
      for (const Rule& rule : step.rules) {
        for (const std::string* name : {&rule.visits, &rule.hands_over_to}) {
          if (!name->empty()) follow(*name, rule.where);
        }
      }
    }
  }

  void follow(const std::string& name, const Where& where) {
    const Protocol* next = named(set_, name);
    if (next == nullptr) {
      findings_.push_back(Finding{Severity::error, where, UnknownId{name, "protocol of the set", names_of(set_)}, {}});
      return;
    }
    const bool already = std::find(taken_.begin(), taken_.end(), next) != taken_.end();
    if (!already) take_in(*next);
  }

  void take_in(const Protocol& part) {
    taken_.push_back(&part);
    const auto count = [](const auto& things) { return static_cast<std::uint16_t>(things.size()); };
    Offsets offsets;
    offsets.sources = count(whole_.sources);
    offsets.thresholds = count(whole_.thresholds);
    offsets.doses = count(whole_.doses);
    offsets.watches = count(whole_.watch);
    offsets.actions = count(whole_.actions);
    offsets.steps = count(whole_.steps);
    offsets.counters = behind<CounterId>(part.counters.size(), whole_.counters.size());
    offsets.marks = behind<MarkId>(part.marks.size(), whole_.marks.size());
    offsets.deeds = behind<ActionId>(part.actions.size(), whole_.actions.size());
    for (const Fact& fact : part.facts) offsets.facts.push_back(shared_fact(fact));
    for (const Timer& timer : part.timers) offsets.timers.push_back(shared_timer(timer));
    refuse_shared_actions(part);
    refuse_other_languages(part);
    const Moving move(offsets);
    for (FactId& fact : new_facts_) {
      move(whole_.facts[fact.index].question);
      move_help(whole_.facts[fact.index], move);
    }
    new_facts_.clear();
    for (const Text& caution : part.cautions) {
      if (taken_.size() == 1) whole_.cautions.push_back(caution);
    }
    whole_.sources.insert(whole_.sources.end(), part.sources.begin(), part.sources.end());
    append(whole_.thresholds, part.thresholds, move);
    append(whole_.foods, taken_.size() == 1 || whole_.foods.empty() ? part.foods : std::vector<Food>{}, move);
    append(whole_.doses, part.doses, move);
    append(whole_.counters, part.counters, move);
    append(whole_.marks, part.marks, move);
    append(whole_.watch, part.watch, move);
    append(whole_.actions, part.actions, move);
    append(whole_.steps, part.steps, move);
    append(whole_.parts, part.parts, move);
    add_signs(part, move);
  }

  /// No fact and no action of it has a name that stands for something else here, and it speaks every language.
  bool fits_beside(const Protocol& part) const {
    const auto same_or_new = [&](const Fact& fact) {
      const std::optional<FactId> known = whole_.fact_named(fact.name);
      return !known || same_question(whole_[*known], fact);
    };
    const auto is_known = [&](const Action& action) { return whole_.action_named(action.name).has_value(); };
    const auto is_spoken = [&](Language language) {
      return std::find(part.languages.begin(), part.languages.end(), language) != part.languages.end();
    };
    return std::all_of(part.facts.begin(), part.facts.end(), same_or_new) &&
           std::none_of(part.actions.begin(), part.actions.end(), is_known) &&
           std::all_of(taken_.front()->languages.begin(), taken_.front()->languages.end(), is_spoken);
  }

  template <class Thing>
  static void append(std::vector<Thing>& whole, std::vector<Thing> part, const Moving& move) {
    for (Thing& thing : part) {
      move(thing);
      whole.push_back(std::move(thing));
    }
  }

  static void move_help(Fact& fact, const Moving& move) {
    move(fact.help);
    for (Option& option : fact.options) move(option.text);
  }

  FactId shared_fact(const Fact& fact) {
    if (const std::optional<FactId> known = whole_.fact_named(fact.name)) {
      if (!same_question(whole_[*known], fact)) {
        findings_.push_back(Finding{Severity::error, fact.where, RepeatedId{fact.name, "fact"},
                                    Because{"another file of the set asks it with other answers",
                                            whole_[*known].where}});
      }
      return *known;
    }
    const FactId id{static_cast<std::uint16_t>(whole_.facts.size())};
    whole_.facts.push_back(fact);
    new_facts_.push_back(id);
    return id;
  }

  TimerId shared_timer(const Timer& timer) {
    for (std::uint16_t place = 0; place < whole_.timers.size(); ++place) {
      if (whole_.timers[place].name == timer.name) return TimerId{place};
    }
    whole_.timers.push_back(timer);
    return TimerId{static_cast<std::uint16_t>(whole_.timers.size() - 1)};
  }

  // A deed is written down by the action's name alone.
  void refuse_shared_actions(const Protocol& part) {
    for (const Action& action : part.actions) {
      const std::optional<ActionId> known = whole_.action_named(action.name);
      if (!known) continue;
      findings_.push_back(Finding{Severity::error, action.where, RepeatedId{action.name, "action"},
                                  Because{"another file of the set has it", whole_[*known].where}});
    }
  }

  // A caregiver who began in one language goes on in it.
  void refuse_other_languages(const Protocol& part) {
    const Protocol& first = *taken_.front();
    for (const Language language : first.languages) {
      if (std::find(part.languages.begin(), part.languages.end(), language) != part.languages.end()) continue;
      const std::string name(words::kLanguages[static_cast<std::size_t>(language)]);
      findings_.push_back(Finding{Severity::error, part.where, LanguageLacking{part.name, name, first.name},
                                  Because{"`" + first.name + "`", first.where}});
    }
  }

  void add_signs(const Protocol& part, const Moving& move) {
    for (Sign sign : part.worse) {
      move(sign);
      const bool known = std::any_of(whole_.worse.begin(), whole_.worse.end(), [&](const Sign& each) {
        return each.fact == sign.fact && each.option == sign.option;
      });
      if (!known) whole_.worse.push_back(std::move(sign));
    }
  }

  void name_first_steps() {
    for (Step& step : whole_.steps) {
      for (Rule& rule : step.rules) {
        const std::string& name = rule.visits.empty() ? rule.hands_over_to : rule.visits;
        for (const Part& part : whole_.parts) {
          if (part.name == name) rule.enters = part.start;
        }
      }
    }
  }

  const std::vector<const Protocol*>& set_;
  std::vector<const Protocol*> taken_;
  std::vector<FactId> new_facts_;
  Protocol whole_;
  std::vector<Finding> findings_;
};

}  // namespace

Read<Protocol> linked(const std::vector<const Protocol*>& set, std::string_view first) {
  const Protocol* protocol = named(set, first);
  if (protocol == nullptr) {
    return {std::nullopt, {Finding{Severity::error, Where{}, UnknownId{std::string(first), "protocol", names_of(set)}, {}}}};
  }
  return Linking(set, *protocol).result();
}

}  // namespace rushlight
