#pragma once

#include "episode/episode.hpp"

// Private to engine/episode: one event told to an episode, for the first time or once more after a correction.

namespace rushlight {

/// The end of a wait that was shown before a correction: what the correction puts in its place on the same timer ends
/// no later.
struct Promise {
  TimerId timer;
  Instant ends;
};

struct Telling {
  enum class Time : std::uint8_t {
    passes,        // what was due before the event is applied first
    stands_still,  // nobody was shown what was due: nothing is
    catches_up,    // the moment of the correction: what is due now is due now, and not when nobody was shown it
  };

  Event event;
  // Told once more at this moment: judged as of when it was told, and as old as it is, but shown only now.
  std::optional<Instant> again{};
  Time time = Time::passes;
  std::optional<Instant> caught_up{};  // the moment of the correction that catches up
  std::optional<Promise> promise{};
  // A correction told as news, since what it corrects had led to a dose: what it corrects, taken back by the next one.
  std::vector<FactId> told_as_news{};
};

/// The moment of the event as the episode counts time, with all that is due before it applied.
Instant with_time_passed(const Protocol& protocol, const Child& child, Episode& episode, const Telling& telling);

/// The event itself and what follows from it, behind with_time_passed(). Gives the event as it is written down.
Event told_at(const Protocol& protocol, const Child& child, Episode& episode, const Telling& telling, Instant now);

}  // namespace rushlight
