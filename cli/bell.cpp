#include "cli/bell.hpp"

namespace rushlight {
namespace {

using std::chrono::seconds;

constexpr seconds kBetweenBeeps{10};
constexpr seconds kQuietAfterKey{60};  // somebody is there; the beep comes back if the check still is not
constexpr Duration kBetweenReminders = std::chrono::minutes{3};  // common practice, no source

}  // namespace

void Bell::hear_key(std::chrono::nanoseconds ticks, Instant now) {
  alarm_ = false;
  key_at_ = ticks;
  reminded_at_ = now;
}

bool Bell::rings(const Seen& seen, std::chrono::nanoseconds ticks, Instant now) {
  const bool left_alone = seen.time_is_up && ticks - key_at_ > kQuietAfterKey;
  if (seen.moved || (left_alone && !alarm_)) {
    alarm_ = true;
    rung_at_ = std::chrono::nanoseconds{0};
  }
  if (alarm_) {
    reminded_at_ = now;
    if (ticks - rung_at_ < kBetweenBeeps) return false;
    rung_at_ = ticks;
    return true;
  }
  if (reminded_at_ == Instant::min() || !seen.asked) reminded_at_ = now;
  if (now - reminded_at_ < kBetweenReminders) return false;
  reminded_at_ = now;
  return true;
}

}  // namespace rushlight
