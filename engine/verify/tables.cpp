#include <algorithm>

#include "verify/contexts.hpp"
#include "verify/regions.hpp"
#include "verify/stretches.hpp"

namespace rushlight {

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

namespace {

// A condition, and the dimension it is about.
struct LinePart {
  const Condition* condition;
  std::size_t dimension;
};

struct Line {  // a watch rule, a rule or a row, as far as regions are concerned
  const Conditions* when;
  bool otherwise;
  std::vector<FactId> needs;  // what must be known for an amount to be worked out
  std::vector<LinePart> parts{};
};

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
    for (const Ask& ask : step.asks) place_of({Subject::Kind::fact, ask.fact.index});
    add_lines();
  }

  TableBuilder(const Protocol& protocol, const Dose& dose) : protocol_(protocol), insulin_(dose.insulin.has_value()) {
    for (const DoseRow& row : dose.rows) {
      rules_.push_back(Line{&row.when, false, needs_of(protocol, row)});
      for (const FactId need : rules_.back().needs) place_of({Subject::Kind::fact, need.index});
    }
    add_lines();
  }

  TableBuilder(const Protocol& protocol, const std::vector<RowLine>& rows, const std::vector<ThresholdId>& cut_by,
               const std::vector<Subject>& about, bool insulin)
      : protocol_(protocol), insulin_(insulin), each_unit_(true), limits_(cut_by) {
    for (const RowLine& row : rows) {
      rules_.push_back(Line{&row.when, false, row.needs});
      for (const FactId need : row.needs) place_of({Subject::Kind::fact, need.index});
    }
    for (const Subject& subject : about) place_of(subject);
    add_lines();
  }

  Tables build() {
    Tables all;
    const bool reads_glucose = std::any_of(subjects_.begin(), subjects_.end(), [&](const Subject& subject) {
      return subject.kind == Subject::Kind::fact && protocol_.facts[subject.index].kind == FactKind::glucose;
    });
    for (const ContextCell& cell : context_cells(protocol_, limits_)) {
      if (cell.splits_age) place_of({Subject::Kind::fact, fact_id(ChildFact::age).index});
      if (cell.splits_weight) place_of({Subject::Kind::fact, fact_id(ChildFact::weight).index});
      if (cell.splits_clock) place_of({Subject::Kind::clock, 0});
      if (subjects_.size() > Cover::kMostDimensions) return Tables{{}, subjects_.size()};
      Table table = table_of(cell, GlucoseUnit::mg_per_dl);
      if (reads_glucose) {
        Table other = table_of(cell, GlucoseUnit::mmol_per_l);
        const bool same =
            !each_unit_ && other.whole == table.whole && other.rules == table.rules && other.watched == table.watched;
        all.tables.push_back(std::move(table));
        // What holds for a table holds for another that is cut in the same way.
        if (!same) all.tables.push_back(std::move(other));
      } else {
        all.tables.push_back(std::move(table));
      }
    }
    return all;
  }

 private:
  std::size_t place_of(const Subject& subject) {
    const auto found = std::find(subjects_.begin(), subjects_.end(), subject);
    const auto place = static_cast<std::size_t>(found - subjects_.begin());
    if (found == subjects_.end()) subjects_.push_back(subject);
    return place;
  }

  void add_lines() {
    std::vector<bool> compared(protocol_.thresholds.size(), false);
    for (const ThresholdId limit : limits_) compared[limit.index] = true;
    for (std::vector<Line>* lines : {&watched_, &rules_}) {
      for (Line& line : *lines) {
        line.parts.reserve(line.when->size());
        for (const Condition& condition : *line.when) {
          line.parts.push_back({&condition, place_of(subject_of(condition))});
          compared_with_.resize(subjects_.size());
          for (const ThresholdId limit : limits_of(condition)) {
            compared[limit.index] = true;
            compared_with_[line.parts.back().dimension].add(limit, protocol_.thresholds.size(), lines == &rules_);
          }
        }
      }
    }
    limits_.clear();
    for (std::size_t i = 0; i < compared.size(); ++i) {
      if (compared[i]) limits_.push_back(ThresholdId{static_cast<std::uint16_t>(i)});
    }
  }

  // What a subject is compared with, each once.
  struct ComparedWith {
    std::vector<ThresholdId> limits;
    std::vector<bool> seen, by_a_rule;

    void add(ThresholdId limit, std::size_t thresholds, bool rule) {
      seen.resize(thresholds), by_a_rule.resize(thresholds);
      if (!seen[limit.index]) limits.push_back(limit);
      seen[limit.index] = true;
      by_a_rule[limit.index] = by_a_rule[limit.index] || rule;
    }
  };

  struct Borders {
    std::vector<std::int64_t> values;
    std::int64_t greatest = -1;
  };

  // Of each subject, in their order and each once.
  std::vector<Borders> borders_of(const ContextCell& cell, GlucoseUnit unit) const {
    std::vector<Borders> borders(subjects_.size());
    for (std::size_t i = 0; i < compared_with_.size(); ++i) {
      for (const ThresholdId limit : compared_with_[i].limits) {
        const std::int64_t border = number_of(value_in(protocol_[limit], cell.context()), unit);
        borders[i].values.push_back(border);
        if (compared_with_[i].by_a_rule[limit.index]) borders[i].greatest = std::max(borders[i].greatest, border);
      }
    }
    for (Borders& each : borders) {
      std::sort(each.values.begin(), each.values.end());
      each.values.erase(std::unique(each.values.begin(), each.values.end()), each.values.end());
    }
    return borders;
  }

  Dimension dimension_of(const Subject& subject, const Borders& borders, const ContextCell& cell,
                         GlucoseUnit unit) const {
    const CellPart part = part_for(protocol_, subject, cell);
    Dimension dimension{subject, part.splits, {}, borders.greatest};
    dimension.stretches = stretches_of(protocol_, subject, unit, part.room, borders.values);
    if (subject.kind != Subject::Kind::fact) return dimension;
    const Fact& fact = protocol_.facts[subject.index];
    // An unknown weight takes the band of the lightest child.
    const bool never_unknown = insulin_ && (fact.kind == FactKind::glucose || fact.kind == FactKind::insulin);
    const bool lightest = part.room.from == 0 || fact.kind != FactKind::weight;
    if (may_be_unknown(fact) && lightest && !never_unknown) dimension.stretches.push_back({0, true});
    return dimension;
  }

  bool is_asked(const Subject& subject) const {
    return step_ != nullptr && subject.kind == Subject::Kind::fact && asks(*step_, FactId{subject.index});
  }

  Box box_of(const Line& line, const Table& table, const ContextCell& cell) const {
    Box box = table.whole;
    for (std::size_t i = 0; line.otherwise && i < table.dimensions.size(); ++i) {
      if (is_asked(table.dimensions[i].subject)) box.sides[i] &= known_of(table.dimensions[i]);
    }
    for (const FactId need : line.needs) {
      const Subject subject{Subject::Kind::fact, need.index};
      const auto place =
          static_cast<std::size_t>(std::find(subjects_.begin(), subjects_.end(), subject) - subjects_.begin());
      box.sides[place] &= known_of(table.dimensions[place]);
      if (need == fact_id(ChildFact::correction_known)) box.sides[place].reset(1);
    }
    for (const LinePart& part : line.parts) {
      keep_what_holds(box.sides[part.dimension], protocol_, *part.condition, table.dimensions[part.dimension],
                      table.unit, cell.context());
    }
    return box;
  }

  Table table_of(const ContextCell& cell, GlucoseUnit unit) const {
    Table table{unit, {}, {}, {}, {}, cell};
    const std::vector<Borders> borders = borders_of(cell, unit);
    for (std::size_t i = 0; i < subjects_.size(); ++i) {
      table.dimensions.push_back(dimension_of(subjects_[i], borders[i], cell, unit));
      table.whole.sides.push_back(Stretches::first(table.dimensions.back().stretches.size()));
    }
    for (const Line& line : watched_) table.watched.push_back(box_of(line, table, cell));
    for (const Line& line : rules_) table.rules.push_back(box_of(line, table, cell));
    return table;
  }

  const Protocol& protocol_;
  const Step* step_ = nullptr;  // none for a dose
  bool insulin_ = false;        // its table is not read without a glucose and a total daily dose (episode/insulin.hpp)
  bool each_unit_ = false;      // no table stands for both
  std::vector<Line> watched_, rules_;
  std::vector<Subject> subjects_;
  std::vector<ComparedWith> compared_with_;  // by subject; what a rule asks about later has none
  std::vector<ThresholdId> limits_;
};

}  // namespace

Tables tables_of(const Protocol& protocol, const Step& step) { return TableBuilder(protocol, step).build(); }
Tables tables_of(const Protocol& protocol, const Dose& dose) { return TableBuilder(protocol, dose).build(); }
Tables tables_of(const Protocol& protocol, const std::vector<RowLine>& rows, const std::vector<ThresholdId>& cut_by,
                 const std::vector<Subject>& about, bool insulin) {
  return TableBuilder(protocol, rows, cut_by, about, insulin).build();
}

}  // namespace rushlight
