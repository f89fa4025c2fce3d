#pragma once

#include <map>
#include <optional>
#include <utility>
#include <vector>

#include "verify/compare.hpp"
#include "verify/in_step.hpp"
#include "verify/merged.hpp"
#include "verify/step_changes.hpp"

// Private to engine/verify.

namespace rushlight {

bool same_limits(const std::vector<Cases>& one, const std::vector<Cases>& other);

/// Everything that differs but the doses, in one glucose unit. `also`: the other, where it is cut in the same way; then
/// one walk finds what differs in both.
class InUnit {
 public:
  InUnit(const SideBySide& sides, const Space& space, const Space* also);

  const InStep& in_step() const { return in_step_; }
  std::size_t steps_changed() const { return steps_changed_; }
  const std::vector<DosePair>& doses() const { return doses_; }
  /// More pairs of what was and what is now, or more of their cases, than are told case by case.
  bool is_much() const;
  /// What the answers lead to where a night first parts, and, where that is a question, behind it.
  std::vector<Difference> first_answers();

  std::vector<Difference> in_full();
  /// The same, but that what led to the same before in one place is one, whatever it leads to now.
  std::vector<Difference> by_place();
  /// One for each pair of what was and what is now, with its places; whom it concerns is found for those that are told.
  std::vector<Difference> in_brief();
  /// Of one of those: where a night comes to it soonest, and a plain region of its cases there.
  std::optional<Difference::Soonest> soonest_of(const Difference& difference);
  /// What all of them have in common.
  Whom around_all();

 private:
  using Soon = Difference::Soon;
  struct Found {
    Difference difference;
    Diagrams::Set where, within;
    std::size_t soonest = 0;  // the first with the same was and now
  };
  /// Whom a set of cases concerns.
  struct Named {
    Whom who;
    bool too_many;
  };

  Soon soon(const Occasion& occasion) const;
  Diagrams::Set nothing_counted();
  Whom named(const std::vector<Diagrams::Choices>& regions) const;
  void name(Difference& difference, Diagrams::Set where, Diagrams::Set within);
  const Named& named(Diagrams::Set where, Diagrams::Set within);

  void add(Difference difference, Diagrams::Set where, Diagrams::Set within);
  Difference difference_of(const Parting& parting);
  void add(const PutIn& put_in);
  const std::string& words(const Ending& ending);
  const std::string& tally_words(const std::vector<Tally>& tally);
  std::string read_in_words(const Tally& tally) const;
  Urgency gravest_lost(const OtherTally& tally) const;
  void add(const OtherTally& tally);
  void add(const StepChange& change, Diagrams::Set entered);

  const SideBySide& sides_;
  const Protocol& protocol_;
  const Space& space_;
  const Space* also_;
  Diagrams diagrams_;
  InStep in_step_;
  std::vector<int> steps_to_;                                                 // by step
  std::map<std::pair<std::uint16_t, std::uint8_t>, std::string> step_words_;  // by step and open calls
  std::map<std::vector<Tally>, std::string> tally_words_;
  std::string other_words_;  // of what ends in no step
  std::vector<DosePair> doses_;
  std::map<std::pair<Diagrams::Set, Diagrams::Set>, Named> named_;
  std::vector<Found> found_;                  // what a night comes to sooner stands first
  std::map<WasAndNow, std::size_t> soonest_;  // the first of them
  std::size_t steps_changed_ = 0;
};

}  // namespace rushlight
