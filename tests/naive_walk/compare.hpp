#pragma once

#include "generate.hpp"
#include "naive_walk.hpp"

namespace rushlight::naive {

/// Where the engine stands, as its view and its episode say.
Standing engine_at(const Protocol& protocol, const Child& child, const Episode& episode, Moment now);

/// A protocol, a child and a beat, drawn from a seed. A valid one is drawn again until check() finds nothing.
struct Drawn {
  Protocol protocol;
  Child child;
  Duration beat;
  int redrawn;
};
Drawn drawn_from(std::uint64_t seed, bool valid);

struct Compared {
  long nights = 0, events = 0, moments = 0, in_circles = 0;
};

/// Walks one night, drawn from `seed`, with the judge and the engine, and compares them after every event and at
/// moments between. Gives the protocol, the night and the difference as soon as there is one; empty when there is none.
std::string disagreement(const Drawn& drawn, std::uint64_t seed, Variant variant, Compared& compared);

/// The events of the same night, as far as the judge does not go in circles.
struct Night {
  Moment begins;
  std::vector<Event> events;
};
Night night_from(const Drawn& drawn, std::uint64_t seed);

/// The protocol and the night, for a person to read and to fold again.
std::string told(const Protocol& protocol, const Child& child, const Night& night);

}  // namespace rushlight::naive
