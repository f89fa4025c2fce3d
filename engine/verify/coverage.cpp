#include "verify/properties.hpp"

namespace rushlight {

namespace {

// One step at a time: what its tables (one for each unit and band) leave open.
class StepCoverage {
 public:
  StepCoverage(Checking& checking, const Step& step) : checking_(checking), step_(step) {}

  // With every question answered.
  void find_values(const Table& table, Cover& cover) {
    if (values_told_) return;
    look(cover, all_known(table), [&](const Box& gap) { return !tell_values(table, gap); });
  }

  // With one question that nobody can answer; a gap that is there whatever is answered is not about "can't tell".
  void find_unknowns(const Table& table, Cover& cover) {
    const std::vector<const Box*> takers = takers_of(table);
    for (std::size_t i = 0; i < table.dimensions.size(); ++i) {
      const Dimension& dimension = table.dimensions[i];
      if (unknown_of(dimension).none() || is_told(dimension)) continue;
      Box box = all_known(table);
      box.sides[i] = unknown_of(dimension);
      look(cover, box, [&](const Box& gap) {
        Box answered = gap;
        answered.sides[i] = known_of(dimension);
        if (!any_meets(takers, answered)) return true;
        tell_unknown(dimension, example_of(checking_.protocol, table, opened(table, gap)));
        return false;
      });
    }
  }

  // Several that nobody can answer, when nothing simpler is wrong.
  void find_rest(const Table& table, Cover& cover) {
    if (values_told_ || !unknowns_told_.empty()) return;
    look(cover, table.whole, [&](const Box& gap) { return !tell_values(table, gap); });
  }

  bool gave_up() const { return gave_up_; }

 private:
  void look(Cover& cover, const Box& box, const std::function<bool(const Box&)>& visit) {
    if (cover.each_left_over(box, visit) == Search::gave_up) gave_up_ = true;
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
    std::vector<Cover> covers;
    for (const Table& table : tables.tables) covers.push_back(cover_of(table));
    StepCoverage coverage(checking, step);
    for (std::size_t k = 0; k < covers.size(); ++k) coverage.find_values(tables.tables[k], covers[k]);
    for (std::size_t k = 0; k < covers.size(); ++k) coverage.find_unknowns(tables.tables[k], covers[k]);
    for (std::size_t k = 0; k < covers.size(); ++k) coverage.find_rest(tables.tables[k], covers[k]);
    if (coverage.gave_up()) checking.error(step.where, too_entangled());
  }
}

}  // namespace rushlight
