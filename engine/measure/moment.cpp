#include "measure/moment.hpp"

namespace rushlight {
namespace {

using std::chrono::days;
using std::chrono::hours;
using std::chrono::minutes;
using std::chrono::seconds;

constexpr minutes kLargestOffset = hours{14};  // the largest in use anywhere: +14:00

bool is_digit(char c) { return c >= '0' && c <= '9'; }

// The number written in exactly `width` digits at the front of `text`, which is then taken off.
std::optional<int> digits(std::string_view& text, std::size_t width) {
  if (text.size() < width) return std::nullopt;
  int number = 0;
  for (const char c : text.substr(0, width)) {
    if (!is_digit(c)) return std::nullopt;
    number = number * 10 + (c - '0');
  }
  text.remove_prefix(width);
  return number;
}

bool take(std::string_view& text, char wanted) {
  if (text.empty() || text.front() != wanted) return false;
  text.remove_prefix(1);
  return true;
}

// RFC 3339 lets the two letters be written small.
bool take_letter(std::string_view& text, char large, char small) { return take(text, large) || take(text, small); }

std::optional<Day> take_day(std::string_view& text) {
  const std::optional<int> year = digits(text, 4);
  if (!year || !take(text, '-')) return std::nullopt;
  const std::optional<int> month = digits(text, 2);
  if (!month || !take(text, '-')) return std::nullopt;
  const std::optional<int> day = digits(text, 2);
  if (!day) return std::nullopt;
  const Day written{std::chrono::year{*year}, std::chrono::month{static_cast<unsigned>(*month)},
                    std::chrono::day{static_cast<unsigned>(*day)}};
  return written.ok() ? std::optional<Day>{written} : std::nullopt;
}

std::optional<minutes> take_clock(std::string_view& text) {
  const std::optional<int> hour = digits(text, 2);
  if (!hour || *hour > 23 || !take(text, ':')) return std::nullopt;
  const std::optional<int> minute = digits(text, 2);
  if (!minute || *minute > 59) return std::nullopt;
  return hours{*hour} + minutes{*minute};
}

std::optional<minutes> take_offset(std::string_view& text) {
  if (take_letter(text, 'Z', 'z')) return minutes{0};
  const bool west = !text.empty() && text.front() == '-';
  if (!west && (text.empty() || text.front() != '+')) return std::nullopt;
  text.remove_prefix(1);
  const std::optional<minutes> size = take_clock(text);
  if (!size || *size > kLargestOffset) return std::nullopt;
  return west ? -*size : *size;
}

std::string padded(int number, std::size_t width) {
  std::string text = std::to_string(number);
  if (text.size() < width) text.insert(0, width - text.size(), '0');
  return text;
}

std::string clock_text(minutes since_midnight) {
  const auto count = static_cast<int>(since_midnight.count());
  return padded(count / 60, 2) + ":" + padded(count % 60, 2);
}

}  // namespace

std::optional<Moment> moment_from_text(std::string_view text) {
  const std::optional<Day> day = take_day(text);
  if (!day || !take_letter(text, 'T', 't')) return std::nullopt;
  const std::optional<minutes> clock = take_clock(text);
  if (!clock || !take(text, ':')) return std::nullopt;
  const std::optional<int> second = digits(text, 2);
  if (!second || *second > 59) return std::nullopt;
  if (take(text, '.')) {
    if (!digits(text, 1)) return std::nullopt;
    while (!text.empty() && is_digit(text.front())) text.remove_prefix(1);
  }
  const std::optional<minutes> offset = take_offset(text);
  if (!offset || !text.empty()) return std::nullopt;
  return Moment{Instant{std::chrono::sys_days{*day}} + *clock + seconds{*second} - *offset, *offset};
}

std::string text_from_moment(const Moment& moment) {
  const Instant local = moment.utc + moment.offset;
  const auto midnight = std::chrono::floor<days>(local);
  const auto clock = std::chrono::floor<minutes>(local - midnight);
  const auto second = static_cast<int>((local - midnight - clock).count());
  std::string text = text_from_day(Day{midnight}) + "T" + clock_text(clock) + ":" + padded(second, 2);
  if (moment.offset == minutes{0}) return text + "Z";
  return text + (moment.offset < minutes{0} ? "-" : "+") + clock_text(std::chrono::abs(moment.offset));
}

ClockTime clock_time_of(const Moment& moment) {
  const Instant local = moment.utc + moment.offset;
  const auto since_midnight = std::chrono::floor<minutes>(local - std::chrono::floor<days>(local));
  return ClockTime::of_minutes(static_cast<int>(since_midnight.count()));
}

std::optional<ClockTime> clock_time_from_text(std::string_view text) {
  const std::optional<minutes> clock = take_clock(text);
  if (!clock || !text.empty()) return std::nullopt;
  return ClockTime::of_minutes(static_cast<int>(clock->count()));
}

std::string text_from_clock_time(ClockTime time) { return clock_text(minutes{time.minutes()}); }

bool within(ClockTime time, ClockTime from, ClockTime up_to) {
  if (from == up_to) return true;
  if (from < up_to) return from <= time && time < up_to;
  return from <= time || time < up_to;
}

std::optional<Day> day_from_text(std::string_view text) {
  const std::optional<Day> day = take_day(text);
  return text.empty() ? day : std::nullopt;
}

std::string text_from_day(const Day& day) {
  return padded(static_cast<int>(day.year()), 4) + "-" +
         padded(static_cast<int>(static_cast<unsigned>(day.month())), 2) + "-" +
         padded(static_cast<int>(static_cast<unsigned>(day.day())), 2);
}

Day local_day_of(const Moment& moment) { return Day{std::chrono::floor<days>(moment.utc + moment.offset)}; }

Age age_on(const Day& birth, const Day& on) {
  if (on < birth) return Age::of_months(0);
  const int years = static_cast<int>(on.year()) - static_cast<int>(birth.year());
  const int months =
      static_cast<int>(static_cast<unsigned>(on.month())) - static_cast<int>(static_cast<unsigned>(birth.month()));
  const int unfinished = on.day() < birth.day() ? 1 : 0;
  return Age::of_months(years * 12 + months - unfinished);
}

}  // namespace rushlight
