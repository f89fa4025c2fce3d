#pragma once

#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "protocol/protocol.hpp"
#include "verify/contexts.hpp"
#include "verify/cover.hpp"

// For engine/verify and engine/picture: rule tables cut into regions.
//
// A condition compares one thing with one constant, so the values of each thing fall into finitely many stretches that
// no rule of a table can tell apart: between two borders, exactly on a border, an option, "can't tell". One value
// stands for each stretch, a rule is a box (one set of stretches for each thing), and what is shown about boxes is
// shown about all values: nothing is sampled. Thresholds with bands are constants only within a band, so a table is cut
// once for each cell of the children and hours that its bands tell apart, and once for each glucose unit.

namespace rushlight {

/// Something a table reads.
struct Subject {
  enum class Kind : std::uint8_t { fact, counter, done, change, clock } kind;
  std::uint16_t index;  // of the fact, counter, action or mark; 0 for the clock
  friend bool operator==(const Subject&, const Subject&) = default;
};

/// One value for a whole stretch. Numbers are micros (glucose, ketones, weight), months, seconds, minutes of the clock
/// or counts; options and changes are their place; done is 1.
struct Stretch {
  std::int64_t value;
  bool unknown;  // "can't tell"
};

/// A glucose below every number a meter shows, and a glucose or ketones above every one.
inline constexpr std::int64_t kMeterLo = -1;
inline constexpr std::int64_t kMeterHi = std::int64_t{1} << 59;

struct Dimension {
  Subject subject;
  bool splits_bands;               // the table was cut along it for its bands, so an example has to name it
  std::vector<Stretch> stretches;  // numbers in their order, "can't tell" last
  std::int64_t greatest_border;    // that a condition compares with; below 0 when none does
};

/// The rule table of a step, or the rows of a dose, for one glucose unit and one cell of children and hours. A table
/// that is cut in the same way in both units stands for both.
struct Table {
  GlucoseUnit unit;
  std::vector<Dimension> dimensions;
  Box whole;
  std::vector<Box> rules;
  std::vector<Box> watched;  // taken before the rules: watch rules the step does not handle and whose facts it asks
  ContextCell cell;
};

struct Tables {
  std::vector<Table> tables;
  std::size_t things =
      0;  // that the table reads, when they are more than the search can tell apart: nothing is said then
};

Tables tables_of(const Protocol& protocol, const Step& step);
/// The rows of a dose table as rules: a row for each kilogram takes no unknown weight.
Tables tables_of(const Protocol& protocol, const Dose& dose);

/// Rows that need not be of one dose. They are also cut where these thresholds have bands, and along these subjects,
/// and always for each unit: what a row gives may depend on it.
struct RowLine {
  Conditions when;
  std::vector<FactId> needs;  // what must be known for an amount to be worked out
};
Tables tables_of(const Protocol& protocol, const std::vector<RowLine>& rows, const std::vector<ThresholdId>& cut_by,
                 const std::vector<Subject>& about, bool insulin);
/// What must be known for the amount of a row.
std::vector<FactId> needs_of(const Protocol& protocol, const DoseRow& row);

/// Calls `visit` with disjoint boxes that together are what `box` holds beside all `takers`; stops when it gives false.
Search each_left_over(const Box& box, const std::vector<const Box*>& takers,
                      const std::function<bool(const Box&)>& visit);
/// False as well when the search gave up.
bool all_taken(const Box& box, const std::vector<const Box*>& takers);

/// What takes a value in a table: what is watched, then the rules.
Cover cover_of(const Table& table);

/// The part of a box in which nobody could tell anything, or in which everything is known.
Stretches unknown_of(const Dimension& dimension);
Stretches known_of(const Dimension& dimension);

/// Everything that takes a value: what is watched, then the rules.
std::vector<const Box*> takers_of(const Table& table);
Box all_known(const Table& table);
bool any_meets(const std::vector<const Box*>& takers, const Box& box);
/// The gap without what does not matter to it.
Box opened(const Table& table, Box gap);

/// The first stretch of a side with a value that a meter or a scale can show; the first of all when there is none.
std::size_t shown_bit(const Protocol& protocol, const Table& table, std::size_t dimension, const Stretches& side);
/// The one stretch that can be shown, when there is no other.
std::optional<std::size_t> only_shown_bit(const Protocol& protocol, const Table& table, std::size_t dimension,
                                          const Stretches& side);
/// "glucose 66 mg/dL": one stretch of one thing.
std::string value_text(const Protocol& protocol, const Table& table, std::size_t dimension, std::size_t bit);
/// "glucose 66 mg/dL, symptoms: can't tell": one member of the box, naming only what the box restricts.
std::string example_of(const Protocol& protocol, const Table& table, const Box& box);

// The parts of regions.cpp that tables are made of.
/// The limit as the number a stretch is compared with.
std::int64_t number_of(const Limit& limit, GlucoseUnit unit);
bool holds(const Protocol& protocol, const Condition& condition, const Stretch& stretch, GlucoseUnit unit,
           const Context& context);
/// Where a border lies among the stretches of a number: how many are below it, how many are not above it, and how many
/// there are, "can't tell" left out.
struct BorderPlace {
  std::uint32_t below, not_above, numbers;
};
BorderPlace border_place(std::int64_t border, const Dimension& dimension);
/// The stretches that compare so with the border.
Run compared(Comparison comparison, const BorderPlace& place);
/// Takes out of a side the stretches of its dimension for which a condition does not hold.
void keep_what_holds(Stretches& side, const Protocol& protocol, const Condition& condition, const Dimension& dimension,
                     GlucoseUnit unit, const Context& context);
/// The stretches of its dimension for which a condition holds.
Stretches held_by(const Protocol& protocol, const Condition& condition, const Dimension& dimension, GlucoseUnit unit,
                  const Context& context);
Subject subject_of(const Condition& condition);

}  // namespace rushlight
