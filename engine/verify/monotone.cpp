#include <algorithm>

#include "verify/law_properties.hpp"

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
      : protocol_(protocol), table_(table), place_(place), whole_(table.whole.sides[place]) {}

  /// A child whom `worse_rule` takes, and who with the better answer would be taken by `better_rule`.
  std::optional<Pair> pair(std::size_t worse_rule, std::size_t better_rule, const Neighbours& at) {
    const std::optional<Box> one = open_at(LawTables::law(table_), at.worse),
                             other = open_at(LawTables::law(table_), at.better);
    const std::optional<Box> taken = open_at(table_.rules[worse_rule], at.worse);
    const std::optional<Box> also = open_at(table_.rules[better_rule], at.better);
    if (!one || !other || !taken || !also) return std::nullopt;
    const Box both = narrowed(narrowed(*taken, *also), narrowed(*one, *other));
    std::vector<Box> before = earlier(worse_rule, at.worse);
    for (Box& box : earlier(better_rule, at.better)) before.push_back(std::move(box));
    std::vector<const Box*> takers;
    for (const Box& box : before) takers.push_back(&box);
    std::optional<Pair> found;
    const Search search = each_left_over(both, takers, [&](const Box& left) {
      found = Pair{example(left, at.worse), example(left, at.better)};
      return false;
    });
    gave_up_ = gave_up_ || search == Search::gave_up;
    return found;
  }
  bool gave_up() const { return gave_up_; }

 private:
  /// The box at one answer, for all answers: so boxes at two different answers can be compared.
  std::optional<Box> open_at(const Box& box, std::size_t answer) const {
    if (!box.sides[place_].test(answer)) return std::nullopt;
    Box open = box;
    open.sides[place_] = whole_;
    return open;
  }

  std::vector<Box> earlier(std::size_t rule, std::size_t answer) const {
    std::vector<Box> boxes;
    for (const Box* box : taken_before(table_, rule)) {
      if (std::optional<Box> open = open_at(*box, answer)) boxes.push_back(std::move(*open));
    }
    return boxes;
  }

  std::string example(Box box, std::size_t answer) const {
    box.sides[place_].reset();
    box.sides[place_].set(answer);
    return example_of(protocol_, table_, box);
  }

  const Protocol& protocol_;
  const Table& table_;
  std::size_t place_;
  Stretches whole_;
  bool gave_up_ = false;
};

bool stays_here(const Rule& rule) { return rule.visits.empty() && rule.hands_over_to.empty(); }

/// One pair for each rule that takes a worse answer to a calmer step.
void look_at(Checking& checking, const MonotoneLaw& law, const Step& step, const LawTables& tables) {
  const Protocol& protocol = checking.protocol;
  bool gave_up = false;
  for (std::size_t worse = 0; worse < step.rules.size(); ++worse) {
    const Rule& rule = step.rules[worse];
    std::optional<Pair> found;
    for (std::size_t better = 0; better < step.rules.size() && !found; ++better) {
      const Rule& other = step.rules[better];
      if (!stays_here(rule) || !stays_here(other) || protocol[rule.go].urgency >= protocol[other.go].urgency) continue;
      for (const Table& table : tables.tables) {
        const auto place = place_of(table, law.fact);
        if (!place || found) break;
        Comparing comparing(protocol, table, *place);
        for (const Neighbours& at : neighbours_in(table.dimensions[*place], law.lower_is_worse)) {
          if (!found) found = comparing.pair(worse, better, at);
        }
        gave_up = gave_up || comparing.gave_up();
      }
      if (!found) continue;
      const auto urgency = [&](const Rule& each) { return std::string(name_of(protocol[each.go].urgency)); };
      checking.error(rule.where,
                     WorseIsCalmer{law.name, found->worse, protocol[rule.go].name, urgency(rule), found->better,
                                   protocol[other.go].name, urgency(other)},
                     Because{"the rule for the better answer", other.where});
    }
  }
  if (gave_up) checking.error(step.where, too_entangled());
}

}  // namespace

void worse_is_never_calmer(Checking& checking, const MonotoneLaw& law) {
  const Protocol& protocol = checking.protocol;
  for (const Step& step : protocol.steps) {
    const bool asked =
        std::any_of(step.asks.begin(), step.asks.end(), [&](const Ask& ask) { return ask.fact == law.fact; });
    if (!asked || step.ends) continue;
    Conditions known;
    for (const Condition& condition : law.when) {
      if (is_known_in(protocol, step, condition)) known.push_back(condition);
    }
    look_at(checking, law, step, tables_for_law(protocol, step, known));
  }
}

}  // namespace rushlight
