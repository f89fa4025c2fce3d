#pragma once

#include <memory>
#include <string>

#include "measure/moment.hpp"

namespace rushlight {

/// The outside clock: the one place where the program looks at the time.
class Clock {
 public:
  virtual ~Clock() = default;
  virtual Moment now() const = 0;
  /// How many times as fast as real time this clock runs; 0 when it is the real clock.
  virtual int practice() const { return 0; }
};

/// The wall clock as it stood when this was made, carried on by a clock that nobody can set and that counts while the
/// machine sleeps: setting the wall clock in the middle of a walk neither shortens nor stretches a wait.
/// The offset from UTC is the machine's own, looked up each time, so that daylight saving shows at once.
class RealClock : public Clock {
 public:
  RealClock();
  Moment now() const override;

 private:
  std::chrono::nanoseconds wall_at_start_, ticks_at_start_;
};

/// A clock for practice and tests: starts at a given moment and runs `speed` times as fast as real time.
class PracticeClock : public Clock {
 public:
  PracticeClock(Moment start, int speed);
  Moment now() const override;
  int practice() const override { return speed_; }

 private:
  Moment start_;
  int speed_;
  std::chrono::nanoseconds ticks_at_start_;
};

/// A clock for tests: shows the moment written in a file, and goes on showing the last one while the file cannot be
/// read.
class FileClock : public Clock {
 public:
  FileClock(std::string path, Moment at) : path_(std::move(path)), at_(at) {}
  Moment now() const override;
  int practice() const override { return 1; }

 private:
  std::string path_;
  mutable Moment at_;
};

/// A clock that stands still until it is moved.
class SetClock : public Clock {
 public:
  explicit SetClock(Moment at) : at_(at) {}
  Moment now() const override { return at_; }
  void move(Duration by) { at_.utc += by; }

 private:
  Moment at_;
};

/// A clock, or why there is none.
struct ClockChoice {
  std::unique_ptr<Clock> clock;
  std::string refusal;
};

/// The real clock; a practice clock when RUSHLIGHT_CLOCK is set: "2026-03-01T02:10:00-05:00" or
/// "2026-03-01T02:10:00-05:00 x60" for one that is 60 times as fast (1 to 3600), or "@FILE" for the moment in a file.
/// Every screen says "practice clock" then.
ClockChoice clock_from_environment();

/// The machine's own offset from UTC at an instant, daylight saving included.
std::chrono::minutes local_offset_at(Instant instant);

/// Time that only goes forward, for the length of a blink or a beep; never for what a protocol says about time.
std::chrono::nanoseconds ticks();

}  // namespace rushlight
