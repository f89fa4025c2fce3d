#pragma once

#include <map>
#include <string>
#include <vector>

#include "protocol/side_by_side.hpp"
#include "verify/space.hpp"

// Private to engine/verify: two versions of a protocol, walked in step.

namespace rushlight {

/// Two steps, one of each version, that the same night has come to.
struct Together {
  StepId was, now;
  friend bool operator==(const Together&, const Together&) = default;
};

/// What happens to both.
struct Occasion {
  /// `known`: answers that are fresh from before count, and nothing of them is news.
  enum class Kind : std::uint8_t { begins, answers, known, early, outcome, nobody_answers, worse, after_visit } kind;
  Together from{};    // of all but `begins`
  ActionId action{};  // of an outcome: that of the older version
  Outcome outcome = Outcome::given;
  friend bool operator==(const Occasion&, const Occasion&) = default;
};

/// What that comes to in one version: the next step with something to do or to wait for, or the end of the way.
struct Ending {
  enum class Kind : std::uint8_t { step, visit, hand_over, stays, nothing, here } kind;  // `here`: private to the walk
  StepId step{};           // of a visit: where it comes back to
  std::string protocol{};  // of a visit or a hand-over
  std::uint8_t calls = 0;  // opened in steps that were gone through on the way: see call_bit
  friend bool operator==(const Ending&, const Ending&) = default;
};

/// One bit a contact; above them one for a call to the clinic out of a step that cannot wait.
constexpr std::uint8_t call_bit(Contact contact) {
  return static_cast<std::uint8_t>(1U << static_cast<unsigned>(contact));
}
inline constexpr std::uint8_t kClinicNow = 1U << 3U;

/// What is counted, set back and marked on the way, and whom to call, in one order.
struct Tally {
  enum class Kind : std::uint8_t { counts, resets, marks, calls } kind;
  std::uint16_t index;  // of calls: bits as of an ending
  friend auto operator<=>(const Tally&, const Tally&) = default;
};

struct Parting {
  Occasion occasion;
  Ending was, now;
  Diagrams::Set where, within;  // `within`: what may be true on that occasion at all
};
struct OtherTally {
  Occasion occasion;
  std::vector<Tally> was, now;
  Diagrams::Set where, within;
};
/// A step that one version puts in the way, and goes on from as the other does.
struct PutIn {
  Occasion occasion;
  StepId step;
  Diagrams::Set where, within;
};
struct InStepPair {
  Together steps;
  Diagrams::Set entered;  // everything that may be true when both enter
};

struct InStep {
  std::vector<InStepPair> pairs;
  std::vector<Parting> partings;
  std::vector<OtherTally> tallies;
  std::vector<PutIn> put_in;
  std::size_t ways = 0, ways_apart = 0;  // occasions with what they come to
  bool gave_up = false;
};

/// Walks both versions over the same answers, from the start, for as long as they stay together: until they come to
/// steps that show something else, and neither is the other one under a new name. Steps that only ask are gone through,
/// whatever their number and order: what counts is what the answers come to. Counters, marks, the clock and what the
/// journal counts may stand anywhere; so what is found holds wherever they stand.
InStep walked_in_step(const SideBySide& sides, const Space& space, Diagrams& diagrams);

}  // namespace rushlight
