#pragma once

#include <memory>
#include <optional>
#include <vector>

#include "episode/fold.hpp"

namespace rushlight {

/// What an example is to come to: a step, or that a rule of a step, or a watch rule, is the one that leads on.
struct Sought {
  enum class Kind : std::uint8_t { step, rule, watch } kind;
  StepId step{0};           // the step, or the rule's
  std::uint16_t index = 0;  // of the rule in its step, or of the watch
};

/// A child, the moment at which the episode begins, and what the journal knows of the nights before.
struct Setting {
  Child child;
  Moment began;
  History past;
};

/// An episode from its beginning, told event by event, that comes to what was sought with the last one.
struct Example {
  Setting setting;
  std::vector<Event> events;
};

/// The episode of a setting before anything was told.
Episode beginning(const Protocol& protocol, const Setting& setting);

struct Sighting {
  std::optional<Example> example;
  bool gave_up = false;  // there may be one all the same: the bound was reached
  int looked_at = 0;     // places
};

/// Looks for ways to one thing in one protocol, for as many children as one likes. The protocol must outlive it.
class PathFinder {
 public:
  PathFinder(const Protocol& protocol, const Sought& sought);
  ~PathFinder();
  PathFinder(const PathFinder&) = delete;
  PathFinder& operator=(const PathFinder&) = delete;

  /// The shortest way found, counted in steps walked: candidates come from the graph of steps, cheapest first, and each
  /// is folded by the real engine before it counts, so what comes out has been walked. It looks at up to `most` places;
  /// every question is given one answer for each stretch that the borders of the protocol tell apart.
  Sighting example_reaching(const Setting& setting, int most) const;

  /// Whether the engine comes to what is sought with these events: with none of them but the last.
  bool arrives(const Example& example) const;

 private:
  std::unique_ptr<const struct Aim> aim_;
};

}  // namespace rushlight
