#pragma once

#include <random>
#include <vector>

#include "episode/episode.hpp"

// Protocols and nights drawn by lot. The draws are made here and not by <random>'s distributions, so that a seed gives
// the same protocol and the same night with every library.

namespace rushlight::naive {

class Dice {
 public:
  explicit Dice(std::uint64_t seed) : engine_(seed) {}
  /// 0 to n - 1; 0 when n is 0.
  std::size_t below(std::size_t n) { return n == 0 ? 0 : static_cast<std::size_t>(engine_() % n); }
  int between(int least, int most) {
    return least + static_cast<int>(below(static_cast<std::size_t>(most - least + 1)));
  }
  bool chance(int percent) { return between(1, 100) <= percent; }
  template <class List>
  const auto& one_of(const List& list) {
    return *(std::begin(list) + static_cast<std::ptrdiff_t>(below(std::size(list))));
  }

 private:
  std::mt19937_64 engine_;
};

/// What every time in one night is a multiple of.
Duration beat_from(Dice& dice);

/// As a clinic would write it: it passes check(). Bounded loops, every outcome covered, every danger watched.
Protocol valid_protocol(Dice& dice, Duration beat);

/// Any rule may lead anywhere and read anything; a question may have no rule, a watch nobody who handles it.
Protocol wild_protocol(Dice& dice, Duration beat);

Child child_from(Dice& dice);

/// A moment in the evening, on a whole ten minutes.
Moment evening_from(Dice& dice);

/// What may happen next to an episode: mostly what is asked for, at a time that often is a deadline to the second.
Event next_event(Dice& dice, const Protocol& protocol, const Episode& episode, const std::vector<FactId>& asked,
                 Moment before, Duration beat);

/// The protocol in a few lines, for the report of a disagreement.
std::string described(const Protocol& protocol);

}  // namespace rushlight::naive
