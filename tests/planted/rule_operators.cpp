#include <algorithm>

#include "planted/operators.hpp"

// Slips in the rules of steps.

namespace rushlight::planted {
namespace {

std::vector<Markup::Element> steps_of(const Markup& file) { return file.all("step"); }

std::string place_in(const Markup& file, Markup::Element step, std::size_t rule) {
  return "rule " + std::to_string(rule + 1) + " of `" + file.value(step, "id") + "`";
}

template <class Make>
std::vector<Fault> each_rule(const Markup& file, const Make& make) {
  std::vector<Fault> faults;
  for (const Markup::Element step : steps_of(file)) {
    const std::vector<Markup::Element> rules = file.within(step, "rule");
    for (std::size_t i = 0; i < rules.size(); ++i) make(step, rules, i, faults);
  }
  return faults;
}

std::vector<Fault> each_condition(const Markup& file, const std::string& from, const std::string& to) {
  return each_rule(file, [&](Markup::Element step, const auto& rules, std::size_t i, std::vector<Fault>& faults) {
    for (const Markup::Element test : file.within(rules[i], "if")) {
      if (!file.has(test, "fact") || !file.has(test, from)) continue;
      const std::string limit = file.value(test, from);
      faults.push_back(Fault{{file.without(test, from), file.with(test, to, limit)},
                             rules[i],
                             place_in(file, step, i) + ": `" + to + "` for `" + from + "`"});
    }
  });
}

std::vector<Fault> at_most_for_below(const Markup& file) { return each_condition(file, "below", "at-most"); }
std::vector<Fault> above_for_at_least(const Markup& file) { return each_condition(file, "at-least", "above"); }

std::vector<Fault> other_side(const Markup& file) {
  std::vector<Fault> faults = each_condition(file, "below", "at-least");
  for (Fault& fault : each_condition(file, "at-least", "below")) faults.push_back(std::move(fault));
  return faults;
}

std::vector<Fault> counter_condition_removed(const Markup& file) {
  return each_rule(file, [&](Markup::Element step, const auto& rules, std::size_t i, std::vector<Fault>& faults) {
    for (const Markup::Element test : file.within(rules[i], "if")) {
      if (!file.has(test, "counter")) continue;
      faults.push_back(Fault{
          {file.without(test)}, rules[i], place_in(file, step, i) + " without `" + file.value(test, "counter") + "`"});
    }
  });
}

std::vector<Fault> limit_rule_removed(const Markup& file) {
  return each_rule(file, [&](Markup::Element step, const auto& rules, std::size_t i, std::vector<Fault>& faults) {
    for (const Markup::Element test : file.within(rules[i], "if")) {
      if (!file.has(test, "counter")) continue;
      faults.push_back(Fault{{file.without(rules[i])}, step, place_in(file, step, i) + ", a limit, left out"});
      return;
    }
  });
}

std::vector<Fault> fact_condition_removed(const Markup& file) {
  return each_rule(file, [&](Markup::Element step, const auto& rules, std::size_t i, std::vector<Fault>& faults) {
    const auto tests = file.within(rules[i], "if");
    if (tests.size() < 2) return;
    for (const Markup::Element test : tests) {
      if (!file.has(test, "fact")) continue;
      faults.push_back(Fault{
          {file.without(test)}, rules[i], place_in(file, step, i) + " without `" + file.value(test, "fact") + "`"});
    }
  });
}

bool has_counter(const Markup& file, Markup::Element rule) {
  for (const Markup::Element test : file.within(rule, "if")) {
    if (file.has(test, "counter")) return true;
  }
  return false;
}

bool takes_unknown(const Markup& file, Markup::Element rule) {
  for (const Markup::Element test : file.within(rule, "if")) {
    for (const std::string& word : words_in(file.value(test, "is"))) {
      if (word == "unknown") return true;
    }
  }
  return false;
}

std::vector<Fault> rule_removed(const Markup& file) {
  return each_rule(file, [&](Markup::Element step, const auto& rules, std::size_t i, std::vector<Fault>& faults) {
    if (has_counter(file, rules[i]) || takes_unknown(file, rules[i])) return;
    faults.push_back(Fault{{file.without(rules[i])}, step, place_in(file, step, i) + " left out"});
  });
}

/// Whether a later rule of the step may take "can't tell" for this question.
bool is_taken_later(const Markup& file, const std::vector<Markup::Element>& rules, std::size_t rule,
                    const std::string& fact) {
  for (std::size_t later = rule + 1; later < rules.size(); ++later) {
    bool speaks_of_it = false, takes_it = false;
    for (const Markup::Element test : file.within(rules[later], "if")) {
      if (file.value(test, "fact") != fact) continue;
      speaks_of_it = true;
      takes_it = takes_it || (" " + file.value(test, "is") + " ").find(" unknown ") != std::string::npos;
    }
    if (!speaks_of_it || takes_it) return true;
  }
  return false;
}

std::vector<Fault> unknown_removed_where(const Markup& file, bool taken_later) {
  return each_rule(file, [&](Markup::Element step, const auto& rules, std::size_t i, std::vector<Fault>& faults) {
    for (const Markup::Element test : file.within(rules[i], "if")) {
      std::vector<std::string> words = words_in(file.value(test, "is"));
      const auto unknown = std::find(words.begin(), words.end(), "unknown");
      if (unknown == words.end() || is_taken_later(file, rules, i, file.value(test, "fact")) != taken_later) continue;
      words.erase(unknown);
      Edit edit = words.empty() ? file.without(rules[i]) : file.with(test, "is", list_of(words));
      faults.push_back(Fault{{std::move(edit)}, step, place_in(file, step, i) + " without \"can't tell\""});
    }
  });
}
std::vector<Fault> unknown_removed(const Markup& file) { return unknown_removed_where(file, false); }
std::vector<Fault> unknown_left_to_others(const Markup& file) { return unknown_removed_where(file, true); }

std::vector<Fault> rules_swapped(const Markup& file) {
  return each_rule(file, [&](Markup::Element step, const auto& rules, std::size_t i, std::vector<Fault>& faults) {
    if (i + 1 == rules.size()) return;
    faults.push_back(
        Fault{file.swapped(rules[i], rules[i + 1]), rules[i], place_in(file, step, i) + " swapped with the next"});
  });
}

std::vector<Fault> option_removed(const Markup& file) {
  return each_rule(file, [&](Markup::Element step, const auto& rules, std::size_t i, std::vector<Fault>& faults) {
    for (const Markup::Element test : file.within(rules[i], "if")) {
      std::vector<std::string> words = words_in(file.value(test, "is"));
      if (words.size() < 2 || words.front() == "unknown") continue;
      const std::string word = words.front();
      words.erase(words.begin());
      faults.push_back(
          Fault{{file.with(test, "is", list_of(words))}, step, place_in(file, step, i) + " without `" + word + "`"});
    }
  });
}

std::vector<Fault> misspelt_go(const Markup& file) {
  return each_rule(file, [&](Markup::Element step, const auto& rules, std::size_t i, std::vector<Fault>& faults) {
    std::string go = file.value(rules[i], "go");
    if (go.size() < 4) return;
    std::swap(go[1], go[2]);
    if (go == file.value(rules[i], "go")) return;
    faults.push_back(
        Fault{{file.with(rules[i], "go", go)}, rules[i], place_in(file, step, i) + " goes to `" + go + "`"});
  });
}

}  // namespace

std::vector<Operator> rule_operators() {
  constexpr Owner kExample = Owner::example;
  return {
      {"counter-condition-removed",
       "a rule for a limit loses the limit",
       {"rule-never-matches", "loop-without-limit"},
       counter_condition_removed,
       Owner::proof,
       true},
      {"unknown-removed",
       "\"can't tell\" is taken out of a rule",
       {"unknown-not-covered", "values-not-covered"},
       unknown_removed,
       Owner::proof,
       true},
      {"go-misspelt", "the step that a rule goes to is misspelt", {"unknown-id"}, misspelt_go},
      {"at-most-for-below",
       "`at-most` written for `below`: the border itself changes sides",
       {},
       at_most_for_below,
       kExample,
       true},
      {"above-for-at-least", "`above` written for `at-least`", {}, above_for_at_least, kExample, true},
      {"other-side", "`below` written for `at-least`, or the other way round", {}, other_side, kExample, true},
      {"limit-rule-removed", "the rule that ends a round is left out", {}, limit_rule_removed, kExample, true},
      {"fact-condition-removed", "a rule of several conditions loses one", {}, fact_condition_removed, kExample, true},
      {"rule-removed", "a rule is left out", {}, rule_removed, kExample, true},
      {"option-removed", "an answer is taken out of a rule", {}, option_removed, kExample, true},
      {"unknown-left-to-others",
       "\"can't tell\" is taken out of a rule, and a later one takes it",
       {},
       unknown_left_to_others,
       kExample,
       true},
      {"rules-swapped", "two neighbouring rules change places", {}, rules_swapped, kExample, true},
  };
}

}  // namespace rushlight::planted
