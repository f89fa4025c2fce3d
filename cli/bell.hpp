#pragma once

#include <chrono>

#include "measure/moment.hpp"

namespace rushlight {

/// When the terminal rings. Kept apart from the loop, so that a test can let the time pass.
class Bell {
 public:
  struct Seen {
    bool moved;       // something changed without a key
    bool time_is_up;  // a wait is over and its check is missing
    bool asked;       // somebody is to answer or to do something, and has not
  };

  /// Somebody pressed a key: the alarm is over. `ticks` goes on for ever, `now` is what the walk's clock shows.
  void hear_key(std::chrono::nanoseconds ticks, Instant now);

  /// Whether to ring at this look. After a change, and where a check is missing, again and again; where a question or a
  /// task only stands, once in a few minutes of the walk's clock.
  bool rings(const Seen& seen, std::chrono::nanoseconds ticks, Instant now);

 private:
  bool alarm_ = false;
  std::chrono::nanoseconds rung_at_{0}, key_at_{0};
  Instant reminded_at_ = Instant::min();
};

}  // namespace rushlight
