#include <algorithm>

#include "verify/law_properties.hpp"
#include "verify/step_parts.hpp"

namespace rushlight {

namespace {

/// Two answers next to each other, as places among the stretches of the fact.
struct Neighbours {
  std::size_t worse, better;
};

std::vector<Neighbours> neighbours_in(const Dimension& dimension, bool lower_is_worse) {
  std::vector<Neighbours> pairs;
  for (std::size_t i = 0; i + 1 < dimension.stretches.size(); ++i) {
    if (dimension.stretches[i + 1].unknown) continue;  // "can't tell" stands last and in no order
    pairs.push_back(lower_is_worse ? Neighbours{i, i + 1} : Neighbours{i + 1, i});
  }
  return pairs;
}

std::optional<std::size_t> place_of(const Table& table, FactId fact) {
  for (std::size_t i = 0; i < table.dimensions.size(); ++i) {
    if (table.dimensions[i].subject == Subject{Subject::Kind::fact, fact.index}) return i;
  }
  return std::nullopt;
}

Box narrowed(Box box, const Box& to) {
  for (std::size_t i = 0; i < box.sides.size(); ++i) box.sides[i] &= to.sides[i];
  return box;
}

/// Two children who differ in one answer, and where a rule takes each.
struct Pair {
  std::string worse, better;
};

class Comparing {
 public:
  Comparing(const Protocol& protocol, const Table& table, std::size_t place)
      : protocol_(protocol), table_(table), place_(place), takers_(takers_of(table)) {
    for (const Box* taker : takers_) {
      open_.push_back(*taker);
      open_.back().sides[place] = table.whole.sides[place];
    }
  }

  const Dimension& answers() const { return table_.dimensions[place_]; }

  /// A child whom `worse_rule` takes, and who with the better answer would be taken by `better_rule`.
  std::optional<Pair> pair(std::size_t worse_rule, std::size_t better_rule, const Neighbours& at) {
    const std::size_t law = takers_.size() - 1, worse = table_.watched.size() + worse_rule,
                      better = table_.watched.size() + better_rule;
    if (!takes(law, at.worse) || !takes(law, at.better) || !takes(worse, at.worse) || !takes(better, at.better))
      return std::nullopt;
    const Box both = narrowed(narrowed(open_[worse], open_[better]), open_[law]);
    std::vector<const Box*> earlier;
    if (!add_earlier(worse, at.worse, both, earlier) || !add_earlier(better, at.better, both, earlier))
      return std::nullopt;
    std::optional<Pair> found;
    const Search search = each_left_over(both, earlier, [&](const Box& left) {
      found = Pair{example(left, at.worse), example(left, at.better)};
      return false;
    });
    gave_up_ = gave_up_ || search == Search::gave_up;
    return found;
  }
  bool gave_up() const { return gave_up_; }

 private:
  bool takes(std::size_t taker, std::size_t answer) const { return takers_[taker]->sides[place_].test(answer); }

  // What takes a child with this answer before a taker does; false when one of them takes all of the box.
  bool add_earlier(std::size_t taker, std::size_t answer, const Box& box, std::vector<const Box*>& earlier) const {
    for (std::size_t i = 0; i < taker; ++i) {
      if (!takes(i, answer) || !open_[i].meets(box)) continue;
      if (open_[i].contains(box)) return false;
      earlier.push_back(&open_[i]);
    }
    return true;
  }

  std::string example(Box box, std::size_t answer) const {
    box.sides[place_].reset();
    box.sides[place_].set(answer);
    return example_of(protocol_, table_, box);
  }

  const Protocol& protocol_;
  const Table& table_;
  std::size_t place_;
  std::vector<const Box*> takers_;  // what is watched, the rules, the law
  std::vector<Box> open_;           // each of them for all answers, so that boxes at two answers can be compared
  bool gave_up_ = false;
};

bool stays_here(const Rule& rule) { return rule.visits.empty() && rule.hands_over_to.empty(); }

/// One pair for each rule that takes a worse answer to a calmer step.
void look_at(Checking& checking, const MonotoneLaw& law, const Step& step, const LawTables& tables) {
  const Protocol& protocol = checking.protocol;
  std::vector<Comparing> comparing;
  for (const Table& table : tables.tables) {
    if (const auto place = place_of(table, law.fact)) comparing.emplace_back(protocol, table, *place);
  }
  for (std::size_t worse = 0; worse < step.rules.size(); ++worse) {
    const Rule& rule = step.rules[worse];
    std::optional<Pair> found;
    for (std::size_t better = 0; better < step.rules.size() && !found; ++better) {
      const Rule& other = step.rules[better];
      if (!stays_here(rule) || !stays_here(other) || protocol[rule.go].urgency >= protocol[other.go].urgency) continue;
      for (Comparing& each : comparing) {
        for (const Neighbours& at : neighbours_in(each.answers(), law.lower_is_worse)) {
          if (!found) found = each.pair(worse, better, at);
        }
      }
      if (!found) continue;
      const auto urgency = [&](const Rule& each) { return std::string(name_of(protocol[each.go].urgency)); };
      checking.error(rule.where,
                     WorseIsCalmer{law.name, found->worse, protocol[rule.go].name, urgency(rule), found->better,
                                   protocol[other.go].name, urgency(other)},
                     Because{"the rule for the better answer", other.where});
    }
  }
  if (std::any_of(comparing.begin(), comparing.end(), [](const Comparing& each) { return each.gave_up(); }))
    checking.error(step.where, too_entangled());
}

}  // namespace

namespace {

bool reads(const Conditions& conditions, FactId fact) {
  return std::any_of(conditions.begin(), conditions.end(), [&](const Condition& condition) {
    return subject_of(condition) == Subject{Subject::Kind::fact, fact.index};
  });
}

/// Whether two answers can lead to two rules of the step, one calmer than the other.
bool may_lead_apart(const Protocol& protocol, const Step& step, FactId fact) {
  const auto of_a_rule = [&](const Rule& rule) { return reads(rule.when, fact); };
  const auto of_a_watch = [&](const Watch& watch) { return reads(watch.when, fact); };
  if (std::none_of(step.rules.begin(), step.rules.end(), of_a_rule) &&
      std::none_of(protocol.watch.begin(), protocol.watch.end(), of_a_watch))
    return false;
  std::optional<Urgency> first;
  return std::any_of(step.rules.begin(), step.rules.end(), [&](const Rule& rule) {
    if (!stays_here(rule)) return false;
    if (!first) first = protocol[rule.go].urgency;
    return protocol[rule.go].urgency != *first;
  });
}

/// Where a rule leads that looks at nothing but this fact, and to which side of a border.
bool looks_only_at(const Rule& rule, FactId fact) {
  return !rule.when.empty() && std::all_of(rule.when.begin(), rule.when.end(), [&](const Condition& condition) {
    return subject_of(condition) == Subject{Subject::Kind::fact, fact.index};
  });
}

bool takes_better(const Rule& rule, const MonotoneLaw& law) {
  return std::all_of(rule.when.begin(), rule.when.end(), [&](const Condition& condition) {
    const auto* test = std::get_if<Compares>(&condition.test);
    if (test == nullptr) return false;
    const bool upper = test->comparison == Comparison::at_least || test->comparison == Comparison::above;
    return upper == law.lower_is_worse;
  });
}

bool takes_unknown(const Rule& rule) {
  return std::all_of(rule.when.begin(), rule.when.end(), [](const Condition& condition) {
    const auto* test = std::get_if<Is>(&condition.test);
    return test != nullptr && test->options == kUnknownBit;
  });
}

/// Nobody knows how bad it is: that is no reason to end the night where the best answer ends it.
void look_at_unknown(Checking& checking, const MonotoneLaw& law, const Step& step) {
  const auto is_worse = [&](const Rule& rule) {
    return looks_only_at(rule, law.fact) && !takes_better(rule, law) && !takes_unknown(rule);
  };
  for (const Rule& unknown : step.rules) {
    if (!looks_only_at(unknown, law.fact) || !takes_unknown(unknown)) continue;
    const Step& to = checking.protocol[enters(unknown)];
    if (!to.ends || to.urgency >= Urgency::clinic_now) continue;
    const bool as_the_best = std::any_of(step.rules.begin(), step.rules.end(), [&](const Rule& rule) {
      return looks_only_at(rule, law.fact) && takes_better(rule, law) && enters(rule) == enters(unknown);
    });
    const bool worse_apart = std::any_of(step.rules.begin(), step.rules.end(), [&](const Rule& rule) {
      return is_worse(rule) && !(enters(rule) == enters(unknown));
    });
    const bool as_a_worse = std::any_of(step.rules.begin(), step.rules.end(), [&](const Rule& rule) {
      return is_worse(rule) && enters(rule) == enters(unknown);
    });
    if (!as_the_best || !worse_apart || as_a_worse) continue;
    const Protocol& protocol = checking.protocol;
    checking.warning(unknown.where,
                     UnknownIsCalm{law.name, step.name, protocol[law.fact].name, protocol[enters(unknown)].name},
                     Because{"the law `" + law.name + "` says which answers are worse", law.where});
  }
}

}  // namespace

void worse_is_never_calmer(Checking& checking, const MonotoneLaw& law) {
  const Protocol& protocol = checking.protocol;
  for (const Step& step : protocol.steps) {
    const bool asked =
        std::any_of(step.asks.begin(), step.asks.end(), [&](const Ask& ask) { return ask.fact == law.fact; });
    if (asked && !step.ends) look_at_unknown(checking, law, step);
    if (!asked || step.ends || !may_lead_apart(protocol, step, law.fact)) continue;
    Conditions known;
    for (const Condition& condition : law.when) {
      if (is_known_in(protocol, step, condition)) known.push_back(condition);
    }
    look_at(checking, law, step, tables_for_law(protocol, step, known));
  }
}

}  // namespace rushlight
