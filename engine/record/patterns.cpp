#include <map>
#include <set>

#include "episode/scene.hpp"
#include "record/night_record.hpp"
#include "record/record_words.hpp"

namespace rushlight {
namespace {

constexpr int kHoursTogether = 3;  // an hour of the day is "the same" within these; common practice, no source

std::string clock(int hour) { return text_from_clock_time(ClockTime::of_minutes(hour % 24 * 60)); }

/// The stretch of hours in which most treatments were; nothing to say below two.
void add_hours(std::vector<std::string>& patterns, const std::vector<Moment>& treated, Language language) {
  if (treated.size() < 2) return;
  int best = 0, from = 0;
  for (int hour = 0; hour < 24; ++hour) {
    int within = 0;
    for (const Moment& moment : treated) {
      const int at = clock_time_of(moment).minutes() / 60;
      if ((at - hour + 24) % 24 < kHoursTogether) ++within;
    }
    if (within > best) {
      best = within;
      from = hour;
    }
  }
  if (best < 2) return;
  patterns.push_back(record_say(RecordWord::lows_by_hour, language, std::to_string(best),
                                std::to_string(treated.size()), clock(from), clock(from + kHoursTogether)));
}

}  // namespace

std::vector<std::string> patterns_of(const std::vector<NightRecord>& nights, Language language) {
  if (nights.empty()) return {record_say(RecordWord::no_pattern, language)};
  std::vector<std::string> patterns{record_say(RecordWord::episodes, language, std::to_string(nights.size()))};
  const RecordReading* lowest = nullptr;
  std::vector<Moment> treated;
  std::set<std::string> days;
  int emergencies = 0;
  for (const NightRecord& night : nights) {
    if (night.gravest == Urgency::emergency) ++emergencies;
    for (const RecordReading& reading : night.readings) {
      const auto* glucose = std::get_if<Glucose>(&reading.value);
      const auto* least = lowest != nullptr ? std::get_if<Glucose>(&lowest->value) : nullptr;
      if (glucose == nullptr || glucose->mark() == MeterMark::hi) continue;
      // LO is below every number; numbers of two units are not compared.
      const bool below = least == nullptr || (glucose->mark() && !least->mark()) ||
                         (glucose->number() && least->number() && glucose->unit() == least->unit() &&
                          *glucose->number() < *least->number());
      if (below) lowest = &reading;
    }
    if (night.treatments == 0) continue;
    for (const RecordLine& line : night.lines) {
      for (const RecordDeed& deed : line.done) {
        if (!deed.treats_low) continue;
        treated.push_back(deed.at);
        days.insert(text_from_day(local_day_of(deed.at)));
      }
    }
  }
  if (lowest != nullptr)
    patterns.push_back(
        record_say(RecordWord::lowest, language, lowest->text,
                   day_and_wall_clock(lowest->at)));
  if (!days.empty()) patterns.push_back(record_say(RecordWord::days_with_lows, language, std::to_string(days.size())));
  add_hours(patterns, treated, language);
  if (emergencies > 0) patterns.push_back(record_say(RecordWord::emergencies, language, std::to_string(emergencies)));
  return patterns;
}

}  // namespace rushlight
