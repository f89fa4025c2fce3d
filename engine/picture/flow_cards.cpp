#include "picture/flow_cards.hpp"

#include <algorithm>

#include "picture/names.hpp"
#include "protocol/words.hpp"
#include "verify/decisions.hpp"
#include "verify/graph.hpp"
#include "verify/stretches.hpp"

namespace rushlight {
namespace {

std::string value_of(const Protocol& protocol, ThresholdId id) { return value_words(protocol, id); }

bool has_name(const Threshold& threshold) {
  return threshold.kind == ThresholdKind::glucose || threshold.kind == ThresholdKind::ketones;
}

std::string options_words(const Fact& fact, std::uint64_t options) {
  std::string text;
  const auto add = [&](const std::string& word) { text += (text.empty() ? "" : "/") + word; };
  for (std::size_t i = 0; i < fact.options.size(); ++i) {
    if ((options >> i & 1U) != 0) add(fact.options[i].name);
  }
  if ((options & kUnknownBit) != 0) add("can't tell");
  return text;
}

/// What must be so, without the name of what is asked: "below low", "no/can't tell".
struct TestWords {
  const Protocol& protocol;

  std::string operator()(const Compares& test) const {
    const Threshold& limit = protocol[test.limit];
    return std::string(words::kComparisons[static_cast<std::size_t>(test.comparison)]) + " " +
           (has_name(limit) ? limit.name : value_of(protocol, test.limit));
  }
  std::string operator()(const Is& test) const { return options_words(protocol[test.fact], test.options); }
  std::string operator()(const CountedAtLeast& test) const { return "at " + value_of(protocol, test.limit); }
  std::string operator()(const WasGiven&) const { return "given"; }
  std::string operator()(const HasChanged& test) const {
    std::string text;
    for (std::size_t i = 0; i < words::kChanges.size(); ++i) {
      if ((test.changes >> i & 1U) != 0) text += (text.empty() ? "" : "/") + std::string(words::kChanges[i]);
    }
    return text;
  }
  std::string operator()(const WithinClock& test) const {
    return value_of(protocol, test.from) + " to " + value_of(protocol, test.up_to);
  }
};

std::string test_words(const Protocol& protocol, const Condition& condition) {
  return std::visit(TestWords{protocol}, condition.test);
}

std::string conditions_words(const Protocol& protocol, const Conditions& when) {
  std::string text;
  for (const Condition& condition : when) {
    text += (text.empty() ? "" : " and ") + name_of(protocol, subject_of(condition)) + " " +
            test_words(protocol, condition);
  }
  return text;
}

class CardWriter {
 public:
  CardWriter(const Protocol& protocol, std::vector<int> numbers) : protocol_(protocol), numbers_(std::move(numbers)) {}

  Card card_of(StepId id) const {
    const Step& step = protocol_[id];
    Card card{id, std::to_string(numbers_[id.index]) + " " + step.name, as_written(protocol_, step.headline), {}};
    if (step.counts) card.rows.push_back({"counts " + protocol_[*step.counts].name, {}});
    add_outcomes(card, step);
    if (step.wait) add_wait(card, *step.wait);
    add_rules(card, step);
    if (step.ends_visit) card.rows.push_back({"A visit from another protocol ends here.", {}});
    if (step.ends) card.rows.push_back({"END", {}});
    return card;
  }

  Card watches() const {
    Card card{std::nullopt, "Looked at first, in every step and wait that does not handle it", "", {}};
    for (const Watch& watch : protocol_.watch) {
      card.rows.push_back(
          {(watch.told ? "just told: " : "") + conditions_words(protocol_, watch.when) + arrow(watch.go), {watch.go}});
    }
    return card;
  }

 private:
  // An arrow and its number stay in one line.
  std::string arrow(StepId id) const { return " \u2192\u00A0" + std::to_string(numbers_[id.index]); }

  void add_wait(Card& card, const Wait& wait) const {
    std::string text = "WAIT " + value_of(protocol_, wait.lasts);
    if (wait.start_within) text += ", begun within " + value_of(protocol_, *wait.start_within);
    if (wait.insulin_again) text += ", to " + value_of(protocol_, *wait.insulin_again) + " after insulin";
    text += "; no answer for " + value_of(protocol_, wait.overdue) + arrow(wait.go);
    card.rows.push_back({text, {wait.go}});
  }

  // Outcomes of one action that lead the same way stand together.
  void add_outcomes(Card& card, const Step& step) const {
    for (const ActionId id : step.actions) {
      const Action& action = protocol_[id];
      std::vector<std::pair<StepId, std::string>> ways;
      for (std::size_t i = 0; i < action.on.size(); ++i) {
        if (!action.on[i] || !action.on[i]->go) continue;
        const StepId go = *action.on[i]->go;
        const auto same = std::find_if(ways.begin(), ways.end(), [&](const auto& way) { return way.first == go; });
        const std::string outcome(words::kOutcomes[i]);
        if (same == ways.end()) {
          ways.emplace_back(go, outcome);
        } else {
          same->second += "/" + outcome;
        }
      }
      if (ways.empty()) continue;
      CardRow row{action.name + ": ", {}};
      for (const auto& [go, outcomes] : ways) {
        row.text += (row.to.empty() ? "" : " \u00B7 ") + outcomes + arrow(go);
        row.to.push_back(go);
      }
      card.rows.push_back(row);
    }
  }

  std::string way_on(const Rule& rule) const {
    if (!rule.hands_over_to.empty()) return " \u2192 protocol " + rule.hands_over_to;
    if (!rule.visits.empty()) return " \u2192 protocol " + rule.visits + ", then" + arrow(rule.go).substr(4);
    return arrow(rule.go);
  }

  // In the order of the file, since the first that holds counts. Neighbours that ask one thing share its name.
  void add_rules(Card& card, const Step& step) const {
    std::string asked;  // of the row that is being written
    for (const Rule& rule : step.rules) {
      const bool plain = rule.when.size() == 1 && !rule.otherwise && !rule.early;
      const std::string name = plain ? name_of(protocol_, subject_of(rule.when.front())) : "";
      const bool goes_on = plain && name == asked && !card.rows.empty();
      std::string text;
      if (plain) {
        text = test_words(protocol_, rule.when.front());
      } else {
        text = conditions_words(protocol_, rule.when);
        if (text.empty()) text = rule.otherwise ? "otherwise" : "then";
        if (rule.early) text = "at once: " + text;
      }
      if (goes_on) {
        card.rows.back().text += " \u00B7 " + text + way_on(rule);
      } else {
        card.rows.push_back({(plain ? name + ": " : "") + text + way_on(rule), {}});
      }
      if (rule.hands_over_to.empty()) card.rows.back().to.push_back(rule.go);
      asked = name;
    }
  }

  const Protocol& protocol_;
  std::vector<int> numbers_;
};

// Each step behind the one it is first come to from, as deep as it goes; then the next.
void add_deep(const Protocol& protocol, const std::vector<std::optional<StepId>>& first, StepId id,
              std::vector<StepId>& order) {
  order.push_back(id);
  for (std::size_t i = 0; i < protocol.steps.size(); ++i) {
    if (first[i] && *first[i] == id) add_deep(protocol, first, StepId{static_cast<std::uint16_t>(i)}, order);
  }
}

void add_limits(const Conditions& when, std::vector<ThresholdId>& limits) {
  for (const Condition& condition : when) {
    for (const ThresholdId limit : limits_of(condition)) {
      if (std::find(limits.begin(), limits.end(), limit) == limits.end()) limits.push_back(limit);
    }
  }
}

Card limits_card(const Protocol& protocol) {
  std::vector<ThresholdId> limits;
  for (const Watch& watch : protocol.watch) add_limits(watch.when, limits);
  for (const Step& step : protocol.steps) {
    for (const Rule& rule : step.rules) add_limits(rule.when, limits);
  }
  Card card{std::nullopt, "What the limits are", "", {}};
  for (std::size_t i = 0; i < protocol.thresholds.size(); ++i) {
    const ThresholdId id{static_cast<std::uint16_t>(i)};
    const bool is_read = std::find(limits.begin(), limits.end(), id) != limits.end();
    if (is_read && has_name(protocol[id]))
      card.rows.push_back({protocol[id].name + ": " + value_words(protocol, id), {}});
  }
  return card;
}

}  // namespace

std::vector<std::optional<StepId>> first_ways(const Protocol& protocol) {
  std::vector<std::optional<StepId>> first(protocol.steps.size());
  std::vector<bool> seen(protocol.steps.size());
  std::vector<StepId> left{protocol.start};
  seen[protocol.start.index] = true;
  for (const Watch& watch : protocol.watch) {
    if (!seen[watch.go.index]) left.push_back(watch.go);
    seen[watch.go.index] = true;
  }
  const Graph graph = graph_of(protocol);
  for (std::size_t next = 0; next < left.size(); ++next) {
    for (const Way& way : graph.ways) {
      if (!(way.from == left[next]) || seen[way.to.index]) continue;
      seen[way.to.index] = true;
      first[way.to.index] = way.from;
      left.push_back(way.to);
    }
  }
  return first;
}

std::vector<CardGroup> card_groups(const Protocol& protocol) {
  const std::vector<std::optional<StepId>> first = first_ways(protocol);
  std::vector<StepId> order;
  add_deep(protocol, first, protocol.start, order);
  for (std::size_t i = 0; i < protocol.steps.size(); ++i) {
    const StepId id{static_cast<std::uint16_t>(i)};
    if (!first[i] && !(id == protocol.start)) add_deep(protocol, first, id, order);
  }
  std::stable_sort(order.begin(), order.end(),
                   [&](StepId a, StepId b) { return protocol[a].urgency < protocol[b].urgency; });
  std::vector<int> numbers(protocol.steps.size());
  int number = 0;
  for (const StepId id : order) numbers[id.index] = ++number;
  const CardWriter writer(protocol, numbers);
  std::vector<CardGroup> groups;
  if (!protocol.watch.empty()) groups.push_back({"DANGER SIGNS", std::nullopt, {writer.watches()}});
  for (const StepId id : order) {
    const Urgency urgency = protocol[id].urgency;
    if (groups.empty() || groups.back().urgency != urgency) groups.push_back({word_for(urgency), urgency, {}});
    groups.back().cards.push_back(writer.card_of(id));
  }
  Card limits = limits_card(protocol);
  if (!limits.rows.empty()) groups.push_back({"LIMITS", std::nullopt, {std::move(limits)}});
  return groups;
}

}  // namespace rushlight
