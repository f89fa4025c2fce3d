#include "cli/clock.hpp"

#include <cstdlib>
#include <ctime>
#include <fstream>
#include <string_view>

#include "measure/decimal.hpp"

namespace rushlight {
namespace {

constexpr int kFastest = 3600;  // an hour in a second: more would pass a wait between two looks at the clock

std::chrono::nanoseconds read_clock(clockid_t id) {
  timespec time{};
  clock_gettime(id, &time);
  return std::chrono::seconds{time.tv_sec} + std::chrono::nanoseconds{time.tv_nsec};
}

std::optional<Moment> moment_in_file(const std::string& path) {
  std::ifstream file(path);
  std::string line;
  return std::getline(file, line) ? moment_from_text(line) : std::nullopt;
}

std::optional<int> speed_from(std::string_view text) {
  if (text.empty() || text.front() != 'x') return std::nullopt;
  const auto number = decimal_from_text(text.substr(1));
  const auto* value = std::get_if<Decimal>(&number);
  if (value == nullptr || value->micros() % Decimal::kMicrosPerOne != 0) return std::nullopt;
  const std::int64_t speed = value->micros() / Decimal::kMicrosPerOne;
  return speed >= 1 && speed <= kFastest ? std::optional<int>{static_cast<int>(speed)} : std::nullopt;
}

}  // namespace

std::chrono::minutes local_offset_at(Instant instant) {
  const std::time_t time = instant.time_since_epoch().count();
  std::tm local{};
  if (localtime_r(&time, &local) == nullptr) return std::chrono::minutes{0};
  return std::chrono::minutes{local.tm_gmtoff / 60};
}

std::chrono::nanoseconds ticks() { return read_clock(CLOCK_BOOTTIME); }

RealClock::RealClock() : wall_at_start_(read_clock(CLOCK_REALTIME)), ticks_at_start_(ticks()) {}

Moment RealClock::now() const {
  const Instant instant{std::chrono::floor<std::chrono::seconds>(wall_at_start_ + (ticks() - ticks_at_start_))};
  return Moment{instant, local_offset_at(instant)};
}

PracticeClock::PracticeClock(Moment start, int speed) : start_(start), speed_(speed), ticks_at_start_(ticks()) {}

Moment PracticeClock::now() const {
  return Moment{start_.utc + std::chrono::floor<std::chrono::seconds>((ticks() - ticks_at_start_) * speed_),
                start_.offset};
}

Moment FileClock::now() const {
  if (const std::optional<Moment> written = moment_in_file(path_)) at_ = *written;
  return at_;
}

ClockChoice clock_from_environment() {
  const char* set = std::getenv("RUSHLIGHT_CLOCK");
  if (set == nullptr || *set == '\0') return {std::make_unique<RealClock>(), ""};
  const std::string_view text(set);
  if (text.front() == '@') {
    const std::string path(text.substr(1));
    const std::optional<Moment> written = moment_in_file(path);
    if (written) return {std::make_unique<FileClock>(path, *written), ""};
  }
  const std::size_t blank = text.find(' ');
  const std::optional<Moment> start = moment_from_text(text.substr(0, blank));
  const std::optional<int> speed =
      blank == std::string_view::npos ? std::optional<int>{1} : speed_from(text.substr(blank + 1));
  if (!start || !speed) {
    return {nullptr,
            "RUSHLIGHT_CLOCK must be like \"2026-03-01T02:10:00-05:00 x60\", not \"" + std::string(text) + "\""};
  }
  return {std::make_unique<PracticeClock>(*start, *speed), ""};
}

}  // namespace rushlight
