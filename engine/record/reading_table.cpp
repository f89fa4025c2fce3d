#include "record/reading_table.hpp"

#include "measure/quantity.hpp"
#include "record/record_words.hpp"

namespace rushlight {
namespace {

constexpr std::chrono::minutes kSameLook{5};  // one look at the child; common practice, no source

/// "mg/dL" when every number of the kind ends with it; readings of two units keep theirs.
std::string common_unit(const NightRecord& night, RecordReading::Of of) {
  std::string common;
  for (const RecordReading& reading : night.readings) {
    const std::size_t blank = reading.text.rfind(' ');
    if (reading.of != of || blank == std::string::npos) continue;  // LO and HI have none
    const std::string unit = reading.text.substr(blank);
    if (!common.empty() && unit != common) return "";
    common = unit;
  }
  return common;
}

std::string without(const std::string& text, const std::string& unit) {
  const bool ends =
      !unit.empty() && text.size() > unit.size() && text.compare(text.size() - unit.size(), unit.size(), unit) == 0;
  return ends ? text.substr(0, text.size() - unit.size()) : text;
}

std::string& cell_of(ReadingColumn& column, RecordReading::Of of) {
  return of == RecordReading::Of::glucose         ? column.glucose
         : of == RecordReading::Of::blood_ketones ? column.ketones
                                                  : column.urine;
}

}  // namespace

ReadingTable reading_table_of(const NightRecord& night) {
  ReadingTable table;
  const std::string glucose_unit = common_unit(night, RecordReading::Of::glucose);
  const std::string ketones_unit = common_unit(night, RecordReading::Of::blood_ketones);
  for (const RecordReading& reading : night.readings) {
    const bool together = !table.columns.empty() && reading.at.utc - table.columns.back().at.utc <= kSameLook &&
                          local_day_of(reading.at) == local_day_of(table.columns.back().at) &&
                          cell_of(table.columns.back(), reading.of).empty();
    if (!together) table.columns.push_back({reading.at, "", "", ""});
    std::string& cell = cell_of(table.columns.back(), reading.of);
    switch (reading.of) {
      case RecordReading::Of::glucose:
        cell = without(reading.text, glucose_unit) + (reading.by_sensor ? "*" : "");
        table.glucose_head = record_say(RecordWord::glucose, night.language) + glucose_unit;
        if (reading.by_sensor) table.sensor_note = "* " + record_say(RecordWord::sensor, night.language);
        break;
      case RecordReading::Of::blood_ketones:
        cell = without(reading.text, ketones_unit);
        table.ketones_head = record_say(RecordWord::ketones, night.language) + ketones_unit;
        break;
      case RecordReading::Of::urine_ketones:
        cell = reading.text;
        table.urine_head = record_say(RecordWord::urine_ketones, night.language);
        break;
    }
  }
  return table;
}

std::vector<std::pair<std::size_t, std::size_t>> bands_of(const ReadingTable& table, std::size_t room) {
  std::vector<std::pair<std::size_t, std::size_t>> bands;
  for (std::size_t at = 0; at < table.columns.size(); ++at) {
    const bool goes_on = !bands.empty() && at - bands.back().first < room &&
                         local_day_of(table.columns[at].at) == local_day_of(table.columns[bands.back().first].at);
    if (!goes_on) bands.emplace_back(at, at);
    bands.back().second = at + 1;
  }
  return bands;
}

}  // namespace rushlight
