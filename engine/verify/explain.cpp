#include "verify/explain.hpp"

#include <algorithm>

#include "finding/quoted.hpp"
#include "verify/in_words.hpp"
#include "verify/settings.hpp"

namespace rushlight {
namespace {

// Places looked at before an example is given up, and before it is given up that another child comes there too.
constexpr int kMostPlaces = 20'000;
constexpr int kMostPlacesForOthers = 1'000;
constexpr int kMostPlacesInAll = 60'000;

std::string outcome_words(const Protocol& protocol, ActionId action, std::size_t outcome) {
  return quoted(protocol[action].name) + ": " + std::string(name_of(static_cast<Outcome>(outcome)));
}

std::string rule_words(const Protocol& protocol, const Step& step, std::size_t place) {
  const Rule& rule = step.rules[place];
  std::string words = "rule " + std::to_string(place + 1) + ": ";
  words += rule.otherwise ? "everything else that is known" : in_words(protocol, rule.when);
  if (rule.early) words += " (also during the wait)";
  return words;
}

std::vector<WayIn> ways_into(const Protocol& protocol, StepId to) {
  std::vector<WayIn> ways;
  for (std::size_t i = 0; i < protocol.watch.size(); ++i) {
    const Watch& watch = protocol.watch[i];
    if (watch.go == to)
      ways.push_back({to, "watch " + quoted(watch.name) + ": " + in_words(protocol, watch.when), watch.where});
  }
  for (std::size_t i = 0; i < protocol.steps.size(); ++i) {
    const Step& step = protocol.steps[i];
    const StepId from{static_cast<std::uint16_t>(i)};
    for (std::size_t rule = 0; rule < step.rules.size(); ++rule) {
      if (step.rules[rule].enters.value_or(step.rules[rule].go) == to)
        ways.push_back({from, rule_words(protocol, step, rule), step.rules[rule].where});
    }
    for (const ActionId action : step.actions) {
      const auto& on = protocol[action].on;
      for (std::size_t outcome = 0; outcome < on.size(); ++outcome) {
        if (on[outcome] && on[outcome]->go && *on[outcome]->go == to)
          ways.push_back({from, outcome_words(protocol, action, outcome), on[outcome]->where});
      }
    }
    if (step.wait && step.wait->go == to) ways.push_back({from, "nobody answers after the wait", step.wait->where});
  }
  return ways;
}

std::vector<WayIn> ways_to(const Protocol& protocol, const Sought& sought) {
  if (sought.kind == Sought::Kind::step) return ways_into(protocol, sought.step);
  if (sought.kind == Sought::Kind::watch) {
    const Watch& watch = protocol.watch[sought.index];
    return {{watch.go, in_words(protocol, watch.when), watch.where}};
  }
  const Step& step = protocol[sought.step];
  return {{sought.step, rule_words(protocol, step, sought.index), step.rules[sought.index].where}};
}

/// Looks for an example with the usual child first, then with one trait changed, then with two.
class Looking {
 public:
  Looking(const Protocol& protocol, const Sought& sought)
      : protocol_(protocol), finder_(protocol, sought), traits_(traits_of(protocol)), usual_(traits_.size(), 0) {}

  enum class Result : std::uint8_t { found, none, gave_up };

  Result look(const Choices& choices, int most) {
    if (looked_at_ > kMostPlacesInAll) return gave_up();
    Sighting sighting = finder_.example_reaching(setting_with(protocol_, traits_, choices), most);
    looked_at_ += sighting.looked_at;
    if (sighting.gave_up) return gave_up();
    if (!sighting.example || !finder_.arrives(*sighting.example)) return Result::none;
    found_ = choices;
    example = std::move(sighting.example);
    return Result::found;
  }
  bool with(const Choices& choices, int most) { return look(choices, most) == Result::found; }

  void run() {
    if (with(usual_, kMostPlaces)) return;
    for (std::size_t i = 0; i < traits_.size(); ++i) {
      if (with_others(usual_, i)) return;
    }
    for (std::size_t i = 0; i < traits_.size(); ++i) {
      for (std::size_t value = 1; value < traits_[i].values.size(); ++value) {
        Choices choices = usual_;
        choices[i] = value;
        for (std::size_t j = i + 1; j < traits_.size(); ++j) {
          if (with_others(choices, j)) return;
        }
      }
    }
  }

  std::vector<OnlyFor> only_for() {
    std::vector<OnlyFor> limits;
    const Choices found = found_;
    const std::optional<Example> kept = example;
    for (std::size_t i = 0; i < traits_.size(); ++i) {
      OnlyFor only{traits_[i].name, {}};
      for (std::size_t value = 0; value < traits_[i].values.size(); ++value) {
        Choices choices = found;
        choices[i] = value;
        // Where the search was given up nothing is said against that child.
        if (value == found[i] || look(choices, kMostPlacesForOthers) != Result::none)
          only.values.push_back(traits_[i].values[value]);
      }
      if (only.values.size() < traits_[i].values.size()) limits.push_back(std::move(only));
    }
    example = kept;
    return limits;
  }

  bool has_given_up() const { return gave_up_; }
  std::optional<Example> example;

 private:
  Result gave_up() {
    gave_up_ = true;
    return Result::gave_up;
  }
  bool with_others(Choices choices, std::size_t trait) {
    for (std::size_t value = 1; value < traits_[trait].values.size(); ++value) {
      choices[trait] = value;
      if (with(choices, kMostPlacesForOthers)) return true;
    }
    return false;
  }

  const Protocol& protocol_;
  const PathFinder finder_;
  std::vector<Trait> traits_;
  Choices usual_, found_;
  bool gave_up_ = false;
  int looked_at_ = 0;
};

}  // namespace

std::vector<Sought> sought_named(const Protocol& protocol, std::string_view id) {
  std::vector<Sought> named;
  const std::size_t steps = protocol.parts.empty() ? protocol.steps.size() : protocol.parts.front().steps;
  for (std::size_t i = 0; i < steps; ++i) {
    const StepId step{static_cast<std::uint16_t>(i)};
    if (protocol.steps[i].name == id) named.push_back({Sought::Kind::step, step, 0});
    for (std::size_t rule = 0; rule < protocol.steps[i].rules.size(); ++rule) {
      if (protocol.steps[i].rules[rule].name == id)
        named.push_back({Sought::Kind::rule, step, static_cast<std::uint16_t>(rule)});
    }
  }
  const std::size_t watches = protocol.parts.empty() ? protocol.watch.size() : protocol.parts.front().watches;
  for (std::size_t i = 0; i < watches; ++i) {
    if (protocol.watch[i].name == id || "watch/" + protocol.watch[i].name == id)
      named.push_back({Sought::Kind::watch, protocol.watch[i].go, static_cast<std::uint16_t>(i)});
  }
  return named;
}

std::vector<std::string> names_to_explain(const Protocol& protocol) {
  std::vector<std::string> names;
  const std::size_t steps = protocol.parts.empty() ? protocol.steps.size() : protocol.parts.front().steps;
  for (std::size_t i = 0; i < steps; ++i) {
    names.push_back(protocol.steps[i].name);
    for (const Rule& rule : protocol.steps[i].rules) names.push_back(rule.name);
  }
  for (const Watch& watch : protocol.watch) names.push_back(watch.name);
  return names;
}

Sighting example_for(const Protocol& protocol, const Sought& sought) {
  Looking looking(protocol, sought);
  looking.run();
  return Sighting{std::move(looking.example), looking.has_given_up(), 0};
}

Explanation explained(const Protocol& protocol, const Sought& sought) {
  Explanation explanation{sought, ways_to(protocol, sought), {}, std::nullopt, false};
  Looking looking(protocol, sought);
  looking.run();
  explanation.example = looking.example;
  explanation.gave_up = looking.has_given_up();
  if (explanation.example) explanation.only_for = looking.only_for();
  return explanation;
}

}  // namespace rushlight
