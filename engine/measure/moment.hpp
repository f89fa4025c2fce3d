#pragma once

#include <chrono>
#include <optional>
#include <string>
#include <string_view>

#include "measure/amounts.hpp"

namespace rushlight {

/// A point on the world's time line, to the second.
using Instant = std::chrono::sys_seconds;

/// A point in time as the place where it was written down saw it: the instant and the offset from UTC then and there.
/// Daylight saving never moves a deadline, because only the offset changes.
struct Moment {
  Instant utc;
  std::chrono::minutes offset{0};
  friend bool operator==(const Moment&, const Moment&) = default;
};

/// "2026-03-01T02:10:00-05:00" or "...Z" (RFC 3339, seconds required, fractions of a second are cut).
/// Empty for anything else: a date that does not exist, an hour of 24, an offset beyond 14 hours, a missing offset.
std::optional<Moment> moment_from_text(std::string_view text);
std::string text_from_moment(const Moment& moment);

/// The same instant shown with another offset.
inline Moment shown_at_offset(Instant utc, std::chrono::minutes offset) { return Moment{utc, offset}; }

/// Minutes since local midnight, 0 to 1439.
class ClockTime {
 public:
  static constexpr ClockTime of_minutes(int minutes) { return ClockTime{minutes}; }
  constexpr int minutes() const { return minutes_; }
  friend constexpr bool operator==(ClockTime, ClockTime) = default;
  friend constexpr auto operator<=>(ClockTime, ClockTime) = default;

 private:
  explicit constexpr ClockTime(int minutes) : minutes_(minutes) {}
  int minutes_;
};

ClockTime clock_time_of(const Moment& moment);
/// "HH:MM", 24 hours, both digits written.
std::optional<ClockTime> clock_time_from_text(std::string_view text);
std::string text_from_clock_time(ClockTime time);

/// True when `time` lies from `from` up to, not including, `up_to`; a range may pass midnight; equal ends mean the whole day.
bool within(ClockTime time, ClockTime from, ClockTime up_to);

/// A calendar day, for birth dates, weighing days and expiry dates.
using Day = std::chrono::year_month_day;
/// "2026-03-01"; empty for anything else or a day that does not exist.
std::optional<Day> day_from_text(std::string_view text);
std::string text_from_day(const Day& day);
Day local_day_of(const Moment& moment);

/// Completed months from birth to the given day; a child born on the 31st completes the month on the first of the next
/// month where the 31st is missing. Zero when `on` is before `birth`.
Age age_on(const Day& birth, const Day& on);

}  // namespace rushlight
