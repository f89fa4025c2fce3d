#include "cli/paper_clock.hpp"

#include <algorithm>

#include "cli/plain_text.hpp"
#include "cli/say.hpp"
#include "measure/written.hpp"

namespace rushlight {
namespace {

constexpr std::chrono::hours kDay{24};

Moment same_day_at(const Moment& day, ClockTime clock) {
  const ClockTime shown = clock_time_of(day);
  Moment moment = day;
  moment.utc += std::chrono::minutes{clock.minutes() - shown.minutes()};
  moment.utc = std::chrono::floor<std::chrono::minutes>(moment.utc);
  return moment;
}

}  // namespace

PaperClock::PaperClock(const Clock& real, ClockTime from) : real_(real) {
  Moment start = same_day_at(real.now(), from);
  if (start.utc > real.now().utc) start.utc -= kDay;
  at_ = start;
}

void PaperClock::not_before(const Moment& earliest) {
  if (at_ && at_->utc < earliest.utc) at_ = earliest;
}

PaperClock::Taken PaperClock::take(const std::string& typed, Language language) {
  const std::string line(trimmed(typed));
  if (!at_) return {typed, ""};
  const std::string small = folded_letters(line);
  if (small == "now" || small == "ahora") {
    at_.reset();
    return {"", ""};
  }
  const std::size_t blank = std::min(line.find(' '), line.size());
  const std::optional<ClockTime> clock = clock_time_from_text(line.substr(0, blank));
  if (!clock) return {typed, ""};
  Moment moved = same_day_at(*at_, *clock);
  const Duration back = at_->utc - moved.utc;
  if (back > Duration{0}) moved.utc += kDay;  // past midnight
  const Duration ahead = moved.utc - real_.now().utc;
  const std::string time = text_from_clock_time(*clock);
  if (ahead > Duration{0} && back > Duration{0} && back < ahead)  // nearer to what was told than to what is to come
    return {"", say(kPaperBefore, language, time, text_from_clock_time(clock_time_of(*at_)))};
  if (ahead > Duration{0}) return {"", say(kPaperNotYet, language, time)};
  at_ = moved;
  return {std::string(trimmed(line.substr(blank))), ""};
}

}  // namespace rushlight
