#pragma once

#include <optional>
#include <set>
#include <vector>

#include "verify/diagrams.hpp"
#include "verify/regions.hpp"

// Private to engine/verify.

namespace rushlight {

/// Everything the rules, watch rules and conditions of a protocol read, each cut into the stretches that none of them
/// can tell apart, as variables of one Diagrams; in one glucose unit. A counter has every number up to the greatest it
/// is compared with and stays there. The last variable is the visit to another protocol: none, or by which rule.
class Space {
 public:
  struct Variable {
    Subject subject;
    std::vector<Stretch> stretches;
    std::vector<std::int64_t> borders{};  // of a number, in their order
  };
  /// A rule that visits another protocol, where they are linked.
  struct VisitRule {
    StepId step;
    std::uint16_t rule;
  };

  /// `also` are conditions that the protocol need not have.
  Space(const Protocol& protocol, GlucoseUnit unit, const Conditions& also = {});

  const Protocol& protocol() const { return protocol_; }
  GlucoseUnit unit() const { return unit_; }
  const std::vector<Variable>& variables() const { return variables_; }
  const std::vector<VisitRule>& visits() const { return visits_; }
  std::size_t visit_place() const { return variables_.size(); }
  std::vector<std::uint16_t> sizes() const;  // of the variables, then of the visit
  /// Whether the same protocol is cut in the same way in the other unit: then each condition takes the same stretches
  /// by their places, and a set of one is a set of the other. So with the conditions `also` that both were made with.
  bool is_cut_as(const Space& other, const Conditions& also = {}) const;

  std::optional<std::size_t> place_of(const Subject& subject) const;
  std::optional<std::size_t> place_of(FactId fact) const { return place_of(Subject{Subject::Kind::fact, fact.index}); }

  /// For which stretches of the variable it reads the condition holds, for a child at an hour.
  std::vector<bool> taken_by(const Condition& condition, std::size_t place, const Context& context) const;
  /// Where the condition, or all of them, hold. A threshold with bands takes each child and hour at its own value.
  Diagrams::Set where(Diagrams& diagrams, const Condition& condition) const;
  Diagrams::Set where(Diagrams& diagrams, const Conditions& conditions) const;
  /// Where the fact has an answer other than "can't tell"; everywhere when nothing reads it.
  Diagrams::Set known(Diagrams& diagrams, FactId fact) const;
  Diagrams::Set visiting(Diagrams& diagrams, std::size_t visit) const;  // 0: no visit; n: by visits()[n - 1]

  /// The children and hours at which each of these times has one value, with the values in their order.
  struct Times {
    Diagrams::Set where;
    std::vector<Duration> values;
  };
  std::vector<Times> times_of(Diagrams& diagrams, const std::vector<ThresholdId>& times) const;

 private:
  void add(const Conditions& conditions);
  void add(const Subject& subject);
  void add_bands_of(ThresholdId id);
  void cut();
  bool is_taken_as(const Space& other, const Conditions& conditions) const;
  Diagrams::Set inside(Diagrams& diagrams, const struct ContextCell& cell) const;

  const Protocol& protocol_;
  GlucoseUnit unit_;
  std::vector<Variable> variables_;
  std::vector<std::set<std::int64_t>> borders_;  // by variable
  std::vector<VisitRule> visits_;
};

/// Facts that stay what they are through a night: those of the child file. What the journal counts changes with the
/// hour.
bool stays_through_the_night(const Protocol& protocol, const Subject& subject);

}  // namespace rushlight
