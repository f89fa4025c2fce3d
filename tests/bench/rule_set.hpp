#pragma once

#include <array>
#include <cstdint>
#include <vector>

#include "episode/episode.hpp"

// A set of the size a large clinic would have, for timing the choice of rules: 46 rules in three first-match tables.
// The numbers are for timing and for nobody's care.
namespace rushlight::bench {

enum Table : std::size_t { kDanger, kGrid, kDose };
inline constexpr std::size_t kTables = 3;
inline constexpr std::uint16_t kNoRule = 0xffff;
using Chosen3 = std::array<std::uint16_t, kTables>;  // the first rule that holds in each table

/// The set as the engine sees it: one step a table (danger: 23 rules over 9 facts; grid: 5 glucose by 4 ketone bands;
/// dose: 3 rules).
Protocol rule_set();
Child timing_child();

/// One night's facts as plain numbers; -1 is "can't tell". Choices by option (yes 0, no 1).
struct PlainFacts {
  int awake, swallow, seizure, breathing, vomits, drinking, drowsy;
  int glucose;          // mg/dL
  int tenths_ketones;   // of a mmol/L
};

/// The same `count` nights for everybody: seeded, every value as likely as the next, one in twelve unknown.
std::vector<PlainFacts> random_nights(std::size_t count);
Episode episode_of(const Protocol& protocol, const Child& child, const PlainFacts& facts);

enum FactPlace : std::uint16_t {
  kAwake = kChildFacts, kSwallow, kSeizure, kBreathing, kVomits, kDrinking, kDrowsy, kGlucose, kKetones,
};

/// The same rules written by hand: over plain numbers that somebody prepared, and over the facts as the engine keeps them.
Chosen3 by_hand(const PlainFacts& facts);
Chosen3 by_hand(const Episode& episode);

}  // namespace rushlight::bench
