#include "episode/history.hpp"

#include <algorithm>

#include "episode/episode.hpp"
#include "episode/scene.hpp"

namespace rushlight {
namespace {

constexpr Duration kDay = std::chrono::hours{24};

Instant as_counted(const Episode& episode, const Moment& wall) { return wall.utc + episode.clock.lost; }

std::vector<Instant> treatments_of(const Episode& episode, const Protocol& protocol) {
  std::vector<Instant> times;
  for (const Moment& moment : episode.past.treatments) times.push_back(as_counted(episode, moment));
  for (const Given& given : episode.given) {
    if (treats_a_low(protocol, given)) times.push_back(given.when);
  }
  std::sort(times.begin(), times.end());
  return times;
}

// Days running backwards from today on which one of the times lies near this time of day.
int days_running(const std::vector<Instant>& times, Duration near, Instant now) {
  constexpr int kMostDays = 14;
  int days = 0;
  for (Instant hour = now; days < kMostDays; hour -= kDay) {
    const bool found = std::any_of(times.begin(), times.end(), [&](Instant time) {
      return time <= now && time >= hour - near && time <= hour + near;
    });
    if (!found) break;
    ++days;
  }
  return days;
}

}  // namespace

bool treats_a_low(const Protocol& protocol, const Given& given) {
  const Action& action = protocol[given.action];
  const bool went_in = given.outcome == Outcome::given || given.outcome == Outcome::part;
  const bool sugar = action.kind == ActionKind::by_mouth && action.dose && protocol[*action.dose].unit == Unit::gram;
  return went_in && (sugar || action.kind == ActionKind::glucagon);
}

int lows_in_a_day(const Episode& episode, const Protocol& protocol, Duration near, Instant now) {
  int lows = 0;
  std::optional<Instant> last;
  for (const Instant time : treatments_of(episode, protocol)) {
    if (time > now || time + kDay < now) continue;
    if (!last || time - *last > near) ++lows;
    last = time;
  }
  return lows;
}

int days_low_at_this_hour(const Episode& episode, const Protocol& protocol, Duration near, Instant now) {
  return days_running(treatments_of(episode, protocol), near, now);
}

int days_high_at_this_hour(const Episode& episode, const GlucoseLimit& high, Duration near, Instant now) {
  std::vector<Instant> times;
  for (const History::Reading& reading : episode.past.readings) {
    if (compare(reading.value, high) > 0) times.push_back(as_counted(episode, reading.when));
  }
  for (const ToldReading& told : episode.readings) {
    const auto* glucose = std::get_if<Glucose>(&told.value);
    if (glucose != nullptr && compare(*glucose, high) > 0) times.push_back(told.when);
  }
  return days_running(times, near, now);
}

}  // namespace rushlight
