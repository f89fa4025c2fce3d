#include <deque>

#include "verify/properties.hpp"

namespace rushlight {

namespace {

// A table, what takes its values, and its parts in which every value was found to be taken: they count as takers too,
// so that none is looked at again.
class CoveredTable {
 public:
  explicit CoveredTable(const Table& table) : table_(table), cover_(cover_of(table)) {}

  const Table& table() const { return table_; }
  Search each_left_over(const Box& box, const std::function<bool(const Box&)>& visit) {
    bool any = false;
    const Search search = cover_.each_left_over(box, [&](const Box& gap) {
      any = true;
      return visit(gap);
    });
    if (search == Search::ended && !any) cover_.add(taken_.emplace_back(box));
    return search;
  }

 private:
  const Table& table_;
  Cover cover_;
  std::deque<Box> taken_;  // which moves none of them
};

// One step at a time: what its tables (one for each unit and band) leave open.
class StepCoverage {
 public:
  StepCoverage(Checking& checking, const Step& step) : checking_(checking), step_(step) {}

  // With every question answered.
  void find_values(CoveredTable& covered) {
    if (values_told_) return;
    const Table& table = covered.table();
    look(covered, all_known(table), [&](const Box& gap) { return !tell_values(table, gap); });
  }

  // With one question that nobody can answer; a gap that is there whatever is answered is not about "can't tell".
  void find_unknowns(CoveredTable& covered) {
    const Table& table = covered.table();
    const Box known = all_known(table);
    for (std::size_t i = 0; i < table.dimensions.size(); ++i) {
      const Dimension& dimension = table.dimensions[i];
      if (unknown_of(dimension).none() || is_told(dimension)) continue;
      Box box = known;
      box.sides[i] = unknown_of(dimension);
      look(covered, box, [&](const Box& gap) {
        Box answered = gap;
        answered.sides[i] = known.sides[i];
        if (!any_meets(takers_of(table), answered)) return true;
        tell_unknown(dimension, example_of(checking_.protocol, table, opened(table, gap)));
        return false;
      });
    }
  }

  // Several that nobody can answer, when nothing simpler is wrong.
  void find_rest(CoveredTable& covered) {
    if (values_told_ || !unknowns_told_.empty()) return;
    const Table& table = covered.table();
    look(covered, table.whole, [&](const Box& gap) { return !tell_values(table, gap); });
  }

  bool gave_up() const { return gave_up_; }

 private:
  void look(CoveredTable& covered, const Box& box, const std::function<bool(const Box&)>& visit) {
    if (covered.each_left_over(box, visit) == Search::gave_up) gave_up_ = true;
  }

  bool tell_values(const Table& table, const Box& gap) {
    values_told_ = true;
    checking_.error(step_.where,
                    ValuesNotCovered{step_.name, example_of(checking_.protocol, table, opened(table, gap))});
    return true;
  }

  bool is_told(const Dimension& dimension) const {
    for (const Subject& told : unknowns_told_) {
      if (told == dimension.subject) return true;
    }
    return false;
  }

  void tell_unknown(const Dimension& dimension, const std::string& example) {
    unknowns_told_.push_back(dimension.subject);
    const Fact& fact = checking_.protocol.facts[dimension.subject.index];
    std::optional<Where> asked;
    for (const Ask& ask : step_.asks) {
      if (ask.fact.index == dimension.subject.index) asked = ask.where;
    }
    checking_.error(step_.where, UnknownNotCovered{step_.name, fact.name}, Because{"no rule takes " + example, asked});
  }

  Checking& checking_;
  const Step& step_;
  bool values_told_ = false, gave_up_ = false;
  std::vector<Subject> unknowns_told_;
};

}  // namespace

TooLarge too_entangled() {
  constexpr auto kMost = static_cast<long long>(Cover::kMostLooks);
  return TooLarge{"ways in which the rules of one table overlap", kMost + 1, kMost};
}

void every_value_has_a_rule(Checking& checking) {
  for (std::size_t i = 0; i < checking.protocol.steps.size(); ++i) {
    const Step& step = checking.protocol.steps[i];
    if (step.ends || step.rules.empty()) continue;
    const Tables& tables = checking.tables[i];
    if (tables.things > 0) {
      checking.error(step.where, TooLarge{"things that one step reads", static_cast<long long>(tables.things),
                                          Cover::kMostDimensions});
      continue;
    }
    std::deque<CoveredTable> covered;
    for (const Table& table : tables.tables) covered.emplace_back(table);
    StepCoverage coverage(checking, step);
    for (CoveredTable& each : covered) coverage.find_values(each);
    for (CoveredTable& each : covered) coverage.find_unknowns(each);
    for (CoveredTable& each : covered) coverage.find_rest(each);
    if (coverage.gave_up()) checking.error(step.where, too_entangled());
  }
}

}  // namespace rushlight
