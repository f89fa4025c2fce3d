#include <algorithm>
#include <set>

#include "protocol/words.hpp"
#include "verify/contexts.hpp"
#include "verify/regions.hpp"

namespace rushlight {

namespace {

constexpr std::int64_t kDayInMinutes = 24 * 60;
constexpr std::int64_t kThousandth = 1'000;  // of micros: no number of a file or a meter has more than three places

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

std::vector<ThresholdId> limits_of(const Condition& condition) {
  if (const auto* test = std::get_if<Compares>(&condition.test)) return {test->limit};
  if (const auto* test = std::get_if<CountedAtLeast>(&condition.test)) return {test->limit};
  if (const auto* test = std::get_if<WithinClock>(&condition.test)) return {test->from, test->up_to};
  return {};
}

// How fine the numbers of a subject are: two borders next to each other have nothing between them.
std::int64_t grain_of(const Protocol& protocol, const Subject& subject) {
  if (subject.kind != Subject::Kind::fact) return 1;
  const FactKind kind = protocol.facts[subject.index].kind;
  const bool decimal =
      kind == FactKind::glucose || kind == FactKind::ketones || kind == FactKind::weight || kind == FactKind::insulin;
  return decimal ? kThousandth : 1;
}

// A round number strictly between two borders, for examples that read well; there is room for a grain at least.
std::int64_t between(std::int64_t low, std::int64_t high, std::int64_t grain) {
  if (grain == 1) return low + 1;
  for (const std::int64_t round : {1'000'000, 100'000, 10'000, 1'000}) {
    const std::int64_t value = (low / round + 1) * round;
    if (value > low && value < high) return value;
  }
  return low + grain;
}

// The nearest round number below a border.
std::int64_t just_below(std::int64_t border, std::int64_t least, std::int64_t grain, std::int64_t round) {
  if (grain == 1) return border - 1;
  const std::int64_t value = (border + round - 1) / round * round - round;
  return value >= least ? value : least;
}

struct Borders {
  std::int64_t least, end;  // of all values: from, up to but not including
  std::int64_t grain;
  std::int64_t round;  // what the numbers are usually printed in
  std::set<std::int64_t> values;
};

// Each border is a stretch of its own, so that "below" and "at most" come apart.
std::vector<Stretch> number_stretches(const Borders& borders, bool glucose, std::int64_t meter_least) {
  std::vector<Stretch> stretches;
  const auto add = [&](std::int64_t value) { stretches.push_back(Stretch{value, false}); };
  std::optional<std::int64_t> last;
  for (const std::int64_t border : borders.values) {
    if (border < borders.least || border >= borders.end) continue;
    if (last) {
      if (*last + borders.grain < border) add(between(*last, border, borders.grain));
    } else if (border > borders.least) {
      const std::int64_t below = just_below(border, borders.least, borders.grain, borders.round);
      add(glucose && below < meter_least ? kMeterLo : below);
    } else if (glucose) {
      add(kMeterLo);
    }
    add(border);
    last = border;
  }
  if (!last) {
    add(borders.least);
  } else if (*last + borders.grain < borders.end) {
    add(between(*last, borders.end, borders.grain));
  }
  return stretches;
}

bool may_be_unknown(const Fact& fact) {
  return !fact.from_child || fact.kind == FactKind::weight || fact.kind == FactKind::insulin;
}

// What a cell of children and hours leaves of a subject: the whole of most.
struct Room {
  std::int64_t from = 0;
  std::int64_t up_to = std::int64_t{1} << 60;
  bool splits = false;
};

Room room_for(const Protocol& protocol, const Subject& subject, const ContextCell& cell) {
  Room room;
  if (subject.kind == Subject::Kind::clock) {
    return Room{cell.clock.minutes(), cell.clock_end ? cell.clock_end->minutes() : kDayInMinutes, cell.splits_clock};
  }
  if (subject.kind != Subject::Kind::fact) return room;
  if (subject.index == fact_id(ChildFact::age).index) {
    room.from = cell.age.months();
    if (cell.age_end) room.up_to = cell.age_end->months();
    room.splits = cell.splits_age;
  } else if (protocol.facts[subject.index].kind == FactKind::weight) {
    room.from = cell.weight.in(kKilogram).micros();
    if (cell.weight_end) room.up_to = cell.weight_end->in(kKilogram).micros();
    room.splits = cell.splits_weight;
  }
  return room;
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

  void add_borders(Dimension& dimension, Borders& borders, const ContextCell& cell, GlucoseUnit unit) const {
    for (const std::vector<Line>* lines : {&watched_, &rules_}) {
      for (const Line& line : *lines) {
        for (const Condition& condition : *line.when) {
          if (!(subject_of(condition) == dimension.subject)) continue;
          for (const ThresholdId limit : limits_of(condition)) {
            const std::int64_t border = number_of(value_in(protocol_[limit], cell.context()), unit);
            borders.values.insert(border);
            if (lines == &rules_) dimension.greatest_border = std::max(dimension.greatest_border, border);
          }
        }
      }
    }
  }

  Dimension dimension_of(const Subject& subject, const ContextCell& cell, GlucoseUnit unit) const {
    const Room room = room_for(protocol_, subject, cell);
    Dimension dimension{subject, room.splits, {}, -1};
    const Fact* fact = subject.kind == Subject::Kind::fact ? &protocol_.facts[subject.index] : nullptr;
    if (fact != nullptr && !fact->options.empty()) {
      for (std::size_t i = 0; i < fact->options.size(); ++i)
        dimension.stretches.push_back({static_cast<std::int64_t>(i), false});
    } else if (subject.kind == Subject::Kind::done) {
      dimension.stretches = {{0, false}, {1, false}};
    } else if (subject.kind == Subject::Kind::change) {
      for (std::size_t i = 0; i < words::kChanges.size(); ++i)
        dimension.stretches.push_back({static_cast<std::int64_t>(i), false});
    } else {
      const bool glucose = fact != nullptr && fact->kind == FactKind::glucose;
      const bool tenths =
          fact != nullptr && (fact->kind == FactKind::ketones || (glucose && unit == GlucoseUnit::mmol_per_l));
      Borders borders{room.from, room.up_to, grain_of(protocol_, subject), tenths ? 100'000 : 1'000'000, {}};
      add_borders(dimension, borders, cell, unit);
      dimension.stretches = number_stretches(borders, glucose, meter_range(unit).least.micros());
    }
    // An unknown weight takes the band of the lightest child.
    const bool never_unknown = insulin_ && fact != nullptr &&
                               (fact->kind == FactKind::glucose || fact->kind == FactKind::insulin);
    const bool lightest = room.from == 0 || fact == nullptr || fact->kind != FactKind::weight;
    if (fact != nullptr && may_be_unknown(*fact) && lightest && !never_unknown) dimension.stretches.push_back({0, true});
    return dimension;
  }

  Box box_of(const Line& line, const Table& table, const ContextCell& cell) const {
    Box box = table.whole;
    for (std::size_t i = 0; i < table.dimensions.size(); ++i) {
      const Dimension& dimension = table.dimensions[i];
      const bool fact = dimension.subject.kind == Subject::Kind::fact;
      const bool asked = fact && step_ != nullptr && asks(*step_, FactId{dimension.subject.index});
      const bool needed = fact && std::any_of(line.needs.begin(), line.needs.end(), [&](FactId need) {
                            return need.index == dimension.subject.index;
                          });
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
