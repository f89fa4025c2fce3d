#include <algorithm>
#include <set>

#include "verify/contexts.hpp"
#include "verify/regions.hpp"
#include "verify/stretches.hpp"

namespace rushlight {

namespace {

constexpr std::int64_t kDayInMinutes = 24 * 60;

struct Line {  // a watch rule, a rule or a row, as far as regions are concerned
  const Conditions* when;
  bool otherwise;
  std::vector<FactId> needs;  // what must be known for an amount to be worked out
};

/// A correction also needs the child's factor, which is there or not.
std::vector<FactId> needs_of(const Protocol& protocol, const DoseRow& row) {
  if (std::holds_alternative<DoseRow::PerKilogram>(row.cell)) return {fact_id(ChildFact::weight)};
  std::vector<FactId> needs;
  if (std::holds_alternative<DoseRow::OfDailyDose>(row.cell) || row.most_percent)
    needs.push_back(fact_id(ChildFact::total_daily_dose));
  if (std::holds_alternative<DoseRow::Correction>(row.cell)) {
    needs.push_back(fact_id(ChildFact::correction_known));
    if (const auto glucose = protocol.fact_named("glucose")) needs.push_back(*glucose);
  }
  return needs;
}

bool asks(const Step& step, FactId fact) {
  return std::any_of(step.asks.begin(), step.asks.end(), [&](const Ask& ask) { return ask.fact == fact; });
}

// A watch rule of which it is certain, when the rules are read, that it is not true: every fact it reads was just
// answered.
bool surely_pre_empts(const Protocol& protocol, const Step& step, WatchId id) {
  if (protocol[id].told) return false;  // an answer may be fresh and yet no news
  if (std::find(step.handles.begin(), step.handles.end(), id) != step.handles.end()) return false;
  for (const Condition& condition : protocol[id].when) {
    const Subject subject = subject_of(condition);
    if (subject.kind != Subject::Kind::fact) continue;
    const FactId fact{subject.index};
    if (!protocol[fact].from_child && !asks(step, fact)) return false;
  }
  return true;
}

// What a cell of children and hours leaves of a subject: the whole of most.
struct CellPart {
  Room room;
  bool splits = false;
};

CellPart part_for(const Protocol& protocol, const Subject& subject, const ContextCell& cell) {
  CellPart part;
  Room& room = part.room;
  if (subject.kind == Subject::Kind::clock) {
    return CellPart{{cell.clock.minutes(), cell.clock_end ? cell.clock_end->minutes() : kDayInMinutes},
                    cell.splits_clock};
  }
  if (subject.kind != Subject::Kind::fact) return part;
  if (subject.index == fact_id(ChildFact::age).index) {
    room.from = cell.age.months();
    if (cell.age_end) room.up_to = cell.age_end->months();
    part.splits = cell.splits_age;
  } else if (protocol.facts[subject.index].kind == FactKind::weight) {
    room.from = cell.weight.in(kKilogram).micros();
    if (cell.weight_end) room.up_to = cell.weight_end->in(kKilogram).micros();
    part.splits = cell.splits_weight;
  }
  return part;
}

class TableBuilder {
 public:
  TableBuilder(const Protocol& protocol, const Step& step) : protocol_(protocol), step_(&step) {
    for (std::size_t i = 0; i < protocol.watch.size(); ++i) {
      const WatchId id{static_cast<std::uint16_t>(i)};
      if (surely_pre_empts(protocol, step, id)) watched_.push_back(Line{&protocol[id].when, false, {}});
    }
    for (const Rule& rule : step.rules) rules_.push_back(Line{&rule.when, rule.otherwise, {}});
    for (const Ask& ask : step.asks) add_subject({Subject::Kind::fact, ask.fact.index});
    for (const Line& line : watched_) add_line(line);
    for (const Line& line : rules_) add_line(line);
  }

  TableBuilder(const Protocol& protocol, const Dose& dose) : protocol_(protocol), insulin_(dose.insulin.has_value()) {
    for (const DoseRow& row : dose.rows) {
      rules_.push_back(Line{&row.when, false, needs_of(protocol, row)});
      for (const FactId need : rules_.back().needs) add_subject({Subject::Kind::fact, need.index});
    }
    for (const Line& line : rules_) add_line(line);
  }

  Tables build() {
    Tables all;
    const bool reads_glucose = std::any_of(subjects_.begin(), subjects_.end(), [&](const Subject& subject) {
      return subject.kind == Subject::Kind::fact && protocol_.facts[subject.index].kind == FactKind::glucose;
    });
    for (const ContextCell& cell : context_cells(protocol_, limits_)) {
      if (cell.splits_age) add_subject({Subject::Kind::fact, fact_id(ChildFact::age).index});
      if (cell.splits_weight) add_subject({Subject::Kind::fact, fact_id(ChildFact::weight).index});
      if (cell.splits_clock) add_subject({Subject::Kind::clock, 0});
      for (const GlucoseUnit unit : {GlucoseUnit::mg_per_dl, GlucoseUnit::mmol_per_l}) {
        if (unit == GlucoseUnit::mmol_per_l && !reads_glucose) continue;
        if (!add_table(all, cell, unit)) return all;
      }
    }
    return all;
  }

 private:
  void add_subject(const Subject& subject) {
    if (std::find(subjects_.begin(), subjects_.end(), subject) == subjects_.end()) subjects_.push_back(subject);
  }

  void add_line(const Line& line) {
    for (const Condition& condition : *line.when) {
      add_subject(subject_of(condition));
      for (const ThresholdId limit : limits_of(condition)) limits_.push_back(limit);
    }
  }

  std::set<std::int64_t> borders_of(Dimension& dimension, const ContextCell& cell, GlucoseUnit unit) const {
    std::set<std::int64_t> borders;
    for (const std::vector<Line>* lines : {&watched_, &rules_}) {
      for (const Line& line : *lines) {
        for (const Condition& condition : *line.when) {
          if (!(subject_of(condition) == dimension.subject)) continue;
          for (const ThresholdId limit : limits_of(condition)) {
            const std::int64_t border = number_of(value_in(protocol_[limit], cell.context()), unit);
            borders.insert(border);
            if (lines == &rules_) dimension.greatest_border = std::max(dimension.greatest_border, border);
          }
        }
      }
    }
    return borders;
  }

  Dimension dimension_of(const Subject& subject, const ContextCell& cell, GlucoseUnit unit) const {
    const CellPart part = part_for(protocol_, subject, cell);
    Dimension dimension{subject, part.splits, {}, -1};
    dimension.stretches = stretches_of(protocol_, subject, unit, part.room, borders_of(dimension, cell, unit));
    if (subject.kind != Subject::Kind::fact) return dimension;
    const Fact& fact = protocol_.facts[subject.index];
    // An unknown weight takes the band of the lightest child.
    const bool never_unknown = insulin_ && (fact.kind == FactKind::glucose || fact.kind == FactKind::insulin);
    const bool lightest = part.room.from == 0 || fact.kind != FactKind::weight;
    if (may_be_unknown(fact) && lightest && !never_unknown) dimension.stretches.push_back({0, true});
    return dimension;
  }

  Box box_of(const Line& line, const Table& table, const ContextCell& cell) const {
    Box box = table.whole;
    for (std::size_t i = 0; i < table.dimensions.size(); ++i) {
      const Dimension& dimension = table.dimensions[i];
      const bool fact = dimension.subject.kind == Subject::Kind::fact;
      const bool asked = fact && step_ != nullptr && asks(*step_, FactId{dimension.subject.index});
      const bool needed = fact && std::any_of(line.needs.begin(), line.needs.end(),
                                              [&](FactId need) { return need.index == dimension.subject.index; });
      if ((line.otherwise && asked) || needed) box.sides[i] &= known_of(dimension);
      if (needed && dimension.subject.index == fact_id(ChildFact::correction_known).index) box.sides[i].reset(1);
      for (const Condition& condition : *line.when) {
        if (!(subject_of(condition) == dimension.subject)) continue;
        for (std::size_t bit = 0; bit < dimension.stretches.size(); ++bit) {
          if (!holds(protocol_, condition, dimension.stretches[bit], table.unit, cell.context()))
            box.sides[i].reset(bit);
        }
      }
    }
    return box;
  }

  bool add_table(Tables& all, const ContextCell& cell, GlucoseUnit unit) const {
    Table table{unit, {}, {}, {}, {}};
    for (const Subject& subject : subjects_) {
      table.dimensions.push_back(dimension_of(subject, cell, unit));
      const std::size_t count = table.dimensions.back().stretches.size();
      if (count > kMostStretches) {
        all.tables.clear();
        all.too_fine = subject.kind == Subject::Kind::fact      ? protocol_.facts[subject.index].name
                       : subject.kind == Subject::Kind::counter ? protocol_.counters[subject.index].name
                                                                : "clock";
        return false;
      }
      Stretches side;
      for (std::size_t bit = 0; bit < count; ++bit) side.set(bit);
      table.whole.sides.push_back(side);
    }
    for (const Line& line : watched_) table.watched.push_back(box_of(line, table, cell));
    for (const Line& line : rules_) table.rules.push_back(box_of(line, table, cell));
    all.tables.push_back(std::move(table));
    return true;
  }

  const Protocol& protocol_;
  const Step* step_ = nullptr;  // none for a dose
  bool insulin_ = false;        // its table is not read without a glucose and a total daily dose (episode/insulin.hpp)
  std::vector<Line> watched_, rules_;
  std::vector<Subject> subjects_;
  std::vector<ThresholdId> limits_;
};

}  // namespace

Tables tables_of(const Protocol& protocol, const Step& step) { return TableBuilder(protocol, step).build(); }
Tables tables_of(const Protocol& protocol, const Dose& dose) { return TableBuilder(protocol, dose).build(); }

}  // namespace rushlight
