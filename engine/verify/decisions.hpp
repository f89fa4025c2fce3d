#pragma once

#include <optional>
#include <vector>

#include "protocol/protocol.hpp"
#include "verify/regions.hpp"

namespace rushlight {

// What the rules of one step decide over one or two chosen things, exactly: one answer for each stretch of values that
// no rule can tell apart, whatever else is true. A map (engine/picture) draws it; nothing is sampled. What the step
// asks is answered there: a watch for news stays silent on an answer that is kept from before, and then the rules
// decide.

/// A value of an axis: a border, what lies between two borders, an option, or a mark of the meter.
struct AxisValue {
  enum class Kind : std::uint8_t { number, border, option, lo, hi, cant_tell, not_asked } kind;
  Stretch in[2];  // by GlucoseUnit; one and the same for everything but glucose

  bool operator==(const AxisValue& other) const {
    return kind == other.kind && in[0].value == other.in[0].value && in[1].value == other.in[1].value;
  }
};

struct Axis {
  Subject subject;
  std::vector<AxisValue> values;  // from least to most; then HI; then "can't tell"
};

/// Where a step leads. Nothing at all is a hole in the rules.
struct Next {
  std::optional<StepId> step;  // of a visit: where it comes back to
  std::string visits, hands_over_to;
  bool is_hole() const { return !step && hands_over_to.empty(); }
  friend bool operator==(const Next&, const Next&) = default;
};

/// What follows in one place of the map. More than one: the other things named here decide, each of them really does.
struct Decided {
  std::vector<Next> nexts;
  std::vector<Subject> by;
  /// Of two versions beside each other: what the older comes to, and how the newer stands to it, as `compare` says it.
  /// `may_be`: where several steps may follow, of some of them.
  enum class Beside : std::uint8_t { alone, same, calmer, may_be_calmer, less, may_be_less, graver, other };
  Beside beside = Beside::alone;
  std::vector<Next> was = {};
  friend bool operator==(const Decided&, const Decided&) = default;
};

/// Something held fast: "symptoms is no".
struct Held {
  Subject subject;
  Stretch value;
};

struct Decisions {
  Axis across;
  std::optional<Axis> down;
  std::vector<Decided> places;  // row after row
  bool other_in_mmol = false;   // in mmol/L the borders stand in another order: the map is of mg/dL alone

  std::size_t rows() const { return down ? down->values.size() : 1; }
  const Decided& at(std::size_t column, std::size_t row) const { return places[row * across.values.size() + column]; }
};

/// What the rules of the step read, and the watches that its answers can set off; its questions first, in their order.
std::vector<Subject> read_by(const Protocol& protocol, const Step& step);

/// Empty when the other things have too many combinations to say it exactly; it never guesses and never hangs.
std::optional<Decisions> decisions_of(const Protocol& protocol, const Step& step, const Subject& across,
                                      const std::optional<Subject>& down, const std::vector<Held>& held);

/// Every value of a subject that these limits can tell apart. Sets `other_in_mmol` when the borders are not in one
/// order in both units.
Axis axis_of(const Protocol& protocol, const Subject& subject, const std::vector<ThresholdId>& limits,
             bool& other_in_mmol);

}  // namespace rushlight
