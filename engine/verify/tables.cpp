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

// A condition, the dimension it is about and, where it compares, the place of its limit among those of the dimension.
struct LinePart {
  const Condition* condition;
  std::uint32_t dimension, limit;
};

struct Line {  // a watch rule, a rule or a row, as far as regions are concerned
  const Conditions* when;
  bool otherwise;
  std::vector<FactId> needs;  // what must be known for an amount to be worked out
  std::size_t parts_from = 0, parts_up_to = 0;
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
    rules_.reserve(step.rules.size());
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
    const bool reads_glucose = std::any_of(things_.begin(), things_.end(), [&](const Thing& thing) {
      const Subject& subject = thing.subject;
      return subject.kind == Subject::Kind::fact && protocol_.facts[subject.index].kind == FactKind::glucose;
    });
    for (const ContextCell& cell : context_cells(protocol_, limits_)) {
      if (cell.splits_age) place_of({Subject::Kind::fact, fact_id(ChildFact::age).index});
      if (cell.splits_weight) place_of({Subject::Kind::fact, fact_id(ChildFact::weight).index});
      if (cell.splits_clock) place_of({Subject::Kind::clock, 0});
      if (things_.size() > Cover::kMostDimensions) return Tables{{}, things_.size()};
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
  // What a table reads, and what it is compared with, each limit once.
  struct Thing {
    struct ComparedWith {
      ThresholdId limit;
      bool by_a_rule;
    };
    Subject subject;
    std::vector<ComparedWith> limits{};
    std::vector<std::uint32_t> counted{};  // of each threshold: its place among the limits and 1 more, or 0

    std::uint32_t add(ThresholdId limit, std::size_t thresholds, bool by_a_rule) {
      if (counted.empty()) counted.resize(thresholds);
      if (counted[limit.index] == 0) {
        limits.push_back({limit, false});
        counted[limit.index] = static_cast<std::uint32_t>(limits.size());
      }
      const std::uint32_t place = counted[limit.index] - 1;
      if (by_a_rule) limits[place].by_a_rule = true;
      return place;
    }
  };

  std::uint32_t place_of(const Subject& subject) {
    if (subject.kind != Subject::Kind::fact) return place_among(subject);
    if (place_of_fact_.empty()) place_of_fact_.resize(protocol_.facts.size(), kNowhere);
    std::uint32_t& place = place_of_fact_[subject.index];  // nearly all conditions are about a fact
    if (place == kNowhere) place = place_among(subject);
    return place;
  }

  std::uint32_t place_among(const Subject& subject) {
    const auto found =
        std::find_if(things_.begin(), things_.end(), [&](const Thing& thing) { return thing.subject == subject; });
    const auto place = static_cast<std::uint32_t>(found - things_.begin());
    if (found == things_.end()) things_.push_back({subject});
    return place;
  }

  void add_lines() {
    std::size_t parts = 0;
    for (const Line& line : watched_) parts += line.when->size();
    for (const Line& line : rules_) parts += line.when->size();
    parts_.reserve(parts);
    for (std::vector<Line>* lines : {&watched_, &rules_}) {
      for (Line& line : *lines) {
        line.parts_from = parts_.size();
        for (const Condition& condition : *line.when) add_part(condition, lines == &rules_);
        line.parts_up_to = parts_.size();
      }
    }
    std::vector<bool> compared(protocol_.thresholds.size(), false);
    for (const ThresholdId limit : limits_) compared[limit.index] = true;
    for (const Thing& thing : things_) {
      for (const Thing::ComparedWith& with : thing.limits) compared[with.limit.index] = true;
    }
    limits_.clear();
    for (std::size_t i = 0; i < compared.size(); ++i) {
      if (compared[i]) limits_.push_back(ThresholdId{static_cast<std::uint16_t>(i)});
    }
  }

  void add_part(const Condition& condition, bool of_a_rule) {
    LinePart part{&condition, place_of(subject_of(condition)), 0};
    Thing& thing = things_[part.dimension];
    if (const auto* test = std::get_if<Compares>(&condition.test)) {
      part.limit = thing.add(test->limit, protocol_.thresholds.size(), of_a_rule);
    } else {
      for (const ThresholdId limit : limits_of(condition)) thing.add(limit, protocol_.thresholds.size(), of_a_rule);
    }
    parts_.push_back(part);
  }

  // With the numbers of the limits in force, in the order of the thing.
  Dimension dimension_of(const Thing& thing, const std::vector<std::int64_t>& limits, const ContextCell& cell,
                         GlucoseUnit unit) const {
    const Subject& subject = thing.subject;
    const CellPart part = part_for(protocol_, subject, cell);
    Dimension dimension{subject, part.splits, {}, -1};
    for (std::size_t i = 0; i < limits.size(); ++i) {
      if (thing.limits[i].by_a_rule) dimension.greatest_border = std::max(dimension.greatest_border, limits[i]);
    }
    std::vector<std::int64_t> borders = limits;
    std::sort(borders.begin(), borders.end());
    borders.erase(std::unique(borders.begin(), borders.end()), borders.end());
    dimension.stretches = stretches_of(protocol_, subject, unit, part.room, borders);
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

  Box box_of(const Line& line, const Table& table, const std::vector<std::vector<BorderPlace>>& borders) {
    Box box = table.whole;
    for (std::size_t i = 0; line.otherwise && i < table.dimensions.size(); ++i) {
      if (is_asked(table.dimensions[i].subject)) box.sides[i] &= known_of(table.dimensions[i]);
    }
    for (const FactId need : line.needs) {
      const std::size_t place = place_of({Subject::Kind::fact, need.index});
      box.sides[place] &= known_of(table.dimensions[place]);
      if (need == fact_id(ChildFact::correction_known)) box.sides[place].reset(1);
    }
    for (std::size_t i = line.parts_from; i < line.parts_up_to; ++i) {
      const LinePart& part = parts_[i];
      Stretches& side = box.sides[part.dimension];
      if (const auto* test = std::get_if<Compares>(&part.condition->test)) {
        side.keep(compared(test->comparison, borders[part.dimension][part.limit]));
      } else {
        keep_what_holds(side, protocol_, *part.condition, table.dimensions[part.dimension], table.unit,
                        table.cell.context());
      }
    }
    return box;
  }

  Table table_of(const ContextCell& cell, GlucoseUnit unit) {
    Table table{unit, {}, {}, {}, {}, cell};
    std::vector<std::vector<BorderPlace>> borders(things_.size());  // of each thing its limits
    for (std::size_t i = 0; i < things_.size(); ++i) {
      std::vector<std::int64_t> limits;
      for (const Thing::ComparedWith& with : things_[i].limits)
        limits.push_back(number_of(value_in(protocol_[with.limit], cell.context()), unit));
      table.dimensions.push_back(dimension_of(things_[i], limits, cell, unit));
      table.whole.sides.push_back(Stretches::first(table.dimensions.back().stretches.size()));
      for (const std::int64_t limit : limits) borders[i].push_back(border_place(limit, table.dimensions.back()));
    }
    table.rules.reserve(rules_.size());
    for (const Line& line : watched_) table.watched.push_back(box_of(line, table, borders));
    for (const Line& line : rules_) table.rules.push_back(box_of(line, table, borders));
    return table;
  }

  const Protocol& protocol_;
  const Step* step_ = nullptr;  // none for a dose
  bool insulin_ = false;        // its table is not read without a glucose and a total daily dose (episode/insulin.hpp)
  bool each_unit_ = false;      // no table stands for both
  std::vector<Line> watched_, rules_;
  std::vector<LinePart> parts_;  // of all lines, in their order
  static constexpr std::uint32_t kNowhere = ~std::uint32_t{0};
  std::vector<Thing> things_;
  std::vector<std::uint32_t> place_of_fact_;
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
