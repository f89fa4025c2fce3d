#include <algorithm>
#include <map>
#include <set>
#include <string>

#include "verify/dangers.hpp"
#include "verify/set_properties.hpp"

namespace rushlight {

namespace {

/// A rule of a step that reads an answer to this question.
struct ReadsAnswer {
  const Rule* rule;
  std::uint64_t options;
  Urgency to;
  bool alone;  // and reads nothing else
};

/// The rules of one step that read one question.
struct Asked {
  const Protocol* protocol;
  const Step* step;
  const Fact* fact;
  std::vector<ReadsAnswer> rules;

  bool together(std::uint64_t option) const {
    return std::any_of(rules.begin(), rules.end(), [&](const ReadsAnswer& each) {
      return (each.options & option) != 0 && (each.options & kUnknownBit) != 0;
    });
  }
  bool apart(std::uint64_t option) const {
    return std::any_of(rules.begin(), rules.end(), [&](const ReadsAnswer& each) {
      return ((each.options & option) != 0) != ((each.options & kUnknownBit) != 0);
    });
  }
  /// The calmest rule that takes it.
  const ReadsAnswer* calmest(std::uint64_t option) const {
    const ReadsAnswer* found = nullptr;
    for (const ReadsAnswer& each : rules) {
      if ((each.options & option) != 0 && (found == nullptr || each.to < found->to)) found = &each;
    }
    return found;
  }
};

/// What was given before is no sign of how the child is.
bool is_a_state(const Protocol& protocol, const Fact& fact) {
  const bool danger =
      std::any_of(std::begin(kDangers), std::end(kDangers), [&](const Danger& each) { return each.fact == fact.name; });
  const bool opening = std::any_of(protocol.opening.begin(), protocol.opening.end(),
                                   [&](const Ask& ask) { return protocol[ask.fact].name == fact.name; });
  return !fact.from_child && (danger || !opening);
}

std::vector<Asked> asked_in(const Protocol& protocol) {
  std::vector<Asked> all;
  for (const Step& step : protocol.steps) {
    const std::size_t first = all.size();
    for (const Rule& rule : step.rules) {
      for (const Condition& condition : rule.when) {
        const auto* is = std::get_if<Is>(&condition.test);
        if (is == nullptr || !is_a_state(protocol, protocol[is->fact]) || protocol[is->fact].options.empty()) continue;
        const Fact* fact = &protocol[is->fact];
        auto place = std::find_if(all.begin() + static_cast<std::ptrdiff_t>(first), all.end(),
                                  [&](const Asked& each) { return each.fact == fact; });
        if (place == all.end()) place = all.insert(all.end(), Asked{&protocol, &step, fact, {}});
        const Urgency to = rule.hands_over_to.empty() && rule.visits.empty() ? protocol[rule.go].urgency : step.urgency;
        place->rules.push_back({&rule, is->options, to, rule.when.size() == 1});
      }
    }
  }
  return all;
}

using AnswerOf = std::pair<std::string, std::string>;

/// Where "can't tell" goes with an answer, and where it does not.
struct Company {
  std::set<const Step*> together, apart;
  int watches = 0;
};

std::map<AnswerOf, Company> companies(const Protocols& protocols, const std::vector<Asked>& all) {
  std::map<AnswerOf, Company> found;
  for (const Asked& asked : all) {
    for (std::size_t i = 0; i < asked.fact->options.size(); ++i) {
      const std::uint64_t option = std::uint64_t{1} << i;
      if (asked.calmest(kUnknownBit) == nullptr || asked.calmest(option) == nullptr) continue;
      Company& company = found[{asked.fact->name, asked.fact->options[i].name}];
      if (asked.together(option)) company.together.insert(asked.step);
      if (asked.apart(option)) company.apart.insert(asked.step);
    }
  }
  for (const Protocol* protocol : protocols) {
    for (const Watch& watch : protocol->watch) {
      for (const Condition& condition : watch.when) {
        const auto* is = std::get_if<Is>(&condition.test);
        if (is == nullptr || (is->options & kUnknownBit) == 0) continue;
        const Fact& fact = (*protocol)[is->fact];
        for (std::size_t i = 0; i < fact.options.size(); ++i) {
          if ((is->options >> i & 1U) != 0) ++found[{fact.name, fact.options[i].name}].watches;
        }
      }
    }
  }
  return found;
}

int but(const std::set<const Step*>& steps, const Step* step) {
  return static_cast<int>(steps.size() - steps.count(step));
}

constexpr int kSeveral = 2;

/// Whether it is told of this question and step.
bool tell_company(const Asked& asked, std::map<AnswerOf, Company>& companies, std::vector<Finding>& findings) {
  const ReadsAnswer* unknown = asked.calmest(kUnknownBit);
  if (unknown == nullptr) return false;
  for (std::size_t i = 0; i < asked.fact->options.size(); ++i) {
    const std::uint64_t option = std::uint64_t{1} << i;
    const ReadsAnswer* answer = asked.calmest(option);
    if (answer == nullptr) continue;
    const Company& company = companies[{asked.fact->name, asked.fact->options[i].name}];
    const int together = but(company.together, asked.step) + company.watches, apart = but(company.apart, asked.step);
    const ReadsAnswer& calm = answer->to < unknown->to ? *answer : *unknown;
    if (together > 0 && apart == 0 && !asked.together(option) && !(answer->to == unknown->to)) {
      warn_of(findings, calm.rule->where,
              CannotTellElsewhere{asked.step->name, asked.fact->name, asked.fact->options[i].name,
                                  asked.protocol->steps[calm.rule->go.index].name, &calm == unknown, false, together});
      return true;
    }
    if (apart >= kSeveral && together == 0 && !asked.apart(option) && unknown->to < Urgency::clinic_now) {
      warn_of(findings, unknown->rule->where,
              CannotTellElsewhere{asked.step->name, asked.fact->name, asked.fact->options[i].name,
                                  asked.protocol->steps[unknown->rule->go.index].name, true, true, apart});
      return true;
    }
  }
  return false;
}

/// "Can't tell" with the calm answer, where the other answer leads to something graver.
void tell_calm(const Asked& asked, std::map<AnswerOf, Company>& companies, std::vector<Finding>& findings) {
  constexpr std::size_t kFewAnswers = 3;
  if (asked.fact->options.size() > kFewAnswers) return;
  for (const ReadsAnswer& rule : asked.rules) {
    if (!rule.alone || (rule.options & kUnknownBit) == 0 || rule.to >= Urgency::clinic_now) continue;
    const auto graver = std::find_if(asked.rules.begin(), asked.rules.end(), [&](const ReadsAnswer& each) {
      return each.alone && (each.options & kUnknownBit) == 0 && rule.to < each.to;
    });
    if (graver == asked.rules.end()) continue;
    for (std::size_t i = 0; i < asked.fact->options.size(); ++i) {
      if ((rule.options >> i & 1U) == 0) continue;
      const Company& company = companies[{asked.fact->name, asked.fact->options[i].name}];
      if (but(company.together, asked.step) + company.watches > 0) return;
      warn_of(findings, rule.rule->where,
              CannotTellElsewhere{asked.step->name, asked.fact->name, asked.fact->options[i].name,
                                  asked.protocol->steps[rule.rule->go.index].name, true, true, 0},
              Because{"the other answer leads to something graver", graver->rule->where});
      return;
    }
  }
}

/// Every answer goes the same calm way, and "can't tell" alone a graver one: the grave answer has slipped out.
bool tell_alike(const Asked& asked, std::vector<Finding>& findings) {
  const ReadsAnswer *only_unknown = nullptr, *answers = nullptr;
  for (const ReadsAnswer& each : asked.rules) {
    if (each.options == kUnknownBit && each.alone)
      only_unknown = &each;
    else if (answers == nullptr || answers->to == each.to)
      answers = &each;
    else
      return false;
  }
  if (only_unknown == nullptr || answers == nullptr || !(answers->to < only_unknown->to)) return false;
  std::size_t last = 0;
  for (std::size_t i = 0; i < asked.fact->options.size(); ++i) {
    if ((answers->options >> i & 1U) != 0) last = i;
  }
  warn_of(findings, answers->rule->where,
          CannotTellElsewhere{asked.step->name, asked.fact->name, asked.fact->options[last].name,
                              asked.protocol->steps[answers->rule->go.index].name, false, false, 0},
          Because{"the rule for \"can't tell\"", only_unknown->rule->where});
  return true;
}

}  // namespace

void cannot_tell_goes_with_the_same_answer(const Protocols& protocols, std::vector<Finding>& findings) {
  std::vector<Asked> all;
  for (const Protocol* protocol : protocols) {
    for (Asked& asked : asked_in(*protocol)) all.push_back(std::move(asked));
  }
  std::map<AnswerOf, Company> known = companies(protocols, all);
  for (const Asked& asked : all) {
    if (!tell_company(asked, known, findings) && !tell_alike(asked, findings)) tell_calm(asked, known, findings);
  }
}

}  // namespace rushlight
