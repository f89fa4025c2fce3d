#include "verify/properties.hpp"

namespace rushlight {

namespace {

// One step at a time: what its tables (one for each unit and band) leave open.
class StepCoverage {
 public:
  StepCoverage(Checking& checking, const Step& step) : checking_(checking), step_(step) {}

  // With every question answered.
  void find_values(const Table& table) {
    if (values_told_) return;
    each_left_over(all_known(table), takers_of(table), [&](const Box& gap) { return !tell_values(table, gap); });
  }

  // With one question that nobody can answer; a gap that is there whatever is answered is not about "can't tell".
  void find_unknowns(const Table& table) {
    const std::vector<const Box*> takers = takers_of(table);
    for (std::size_t i = 0; i < table.dimensions.size(); ++i) {
      const Dimension& dimension = table.dimensions[i];
      if (unknown_of(dimension).none() || is_told(dimension)) continue;
      Box box = all_known(table);
      box.sides[i] = unknown_of(dimension);
      each_left_over(box, takers, [&](const Box& gap) {
        Box answered = gap;
        answered.sides[i] = known_of(dimension);
        if (!any_meets(takers, answered)) return true;
        tell_unknown(dimension, example_of(checking_.protocol, table, opened(table, gap)));
        return false;
      });
    }
  }

  // Several that nobody can answer, when nothing simpler is wrong.
  void find_rest(const Table& table) {
    if (values_told_ || !unknowns_told_.empty()) return;
    each_left_over(table.whole, takers_of(table), [&](const Box& gap) { return !tell_values(table, gap); });
  }

 private:
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
  bool values_told_ = false;
  std::vector<Subject> unknowns_told_;
};

}  // namespace

void every_value_has_a_rule(Checking& checking) {
  for (std::size_t i = 0; i < checking.protocol.steps.size(); ++i) {
    const Step& step = checking.protocol.steps[i];
    if (step.ends || step.rules.empty()) continue;
    const Tables& tables = checking.tables[i];
    if (tables.too_fine) {
      const auto most = static_cast<long long>(kMostStretches);
      checking.error(step.where,
                     TooLarge{"values that one step tells apart in `" + *tables.too_fine + "`", most + 1, most});
      continue;
    }
    StepCoverage coverage(checking, step);
    for (const Table& table : tables.tables) coverage.find_values(table);
    for (const Table& table : tables.tables) coverage.find_unknowns(table);
    for (const Table& table : tables.tables) coverage.find_rest(table);
  }
}

}  // namespace rushlight
