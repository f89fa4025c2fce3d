#pragma once

#include <optional>
#include <vector>

#include "episode/value.hpp"
#include "measure/moment.hpp"
#include "protocol/protocol.hpp"

namespace rushlight {

/// What is known of the nights before this episode. Whoever begins an episode tells it as its first event (Remembered), so
/// that a replay sees the same past.
struct History {
  struct Reading {
    Moment when;
    Glucose value;
  };
  std::vector<Reading> readings;          // of the last days, oldest first
  std::vector<Moment> treatments;         // each time something was given against a low
  std::optional<Moment> last_insulin;     // the latest rapid-acting dose that was written down
};

struct Episode;
struct Given;

/// Whether this went in and works against a low: sugar by mouth, or glucagon. The same within a night and of past ones.
bool treats_a_low(const Protocol& protocol, const Given& given);

/// Treated lows of the 24 hours before `now`; treatments closer together than `near` are one low.
/// Common practice, no source.
int lows_in_a_day(const Episode& episode, const Protocol& protocol, Duration near, Instant now);

/// Days running, today included, with a treated low within `near` of this clock time; and with a reading above `high`.
/// Common practice, no source: two days of lows, three of highs are worth a call in the morning.
int days_low_at_this_hour(const Episode& episode, const Protocol& protocol, Duration near, Instant now);
int days_high_at_this_hour(const Episode& episode, const GlucoseLimit& high, Duration near, Instant now);

}  // namespace rushlight
