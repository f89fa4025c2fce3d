#pragma once

#include "record/night_record.hpp"

namespace rushlight {

/// What was measured at one time. Glucose and ketones within five minutes stand together, under the earlier time.
struct ReadingColumn {
  Moment at;
  std::string glucose, ketones, urine;
};

/// The readings of an episode as a table; a unit that all of a row have stands once, at the row's head. A row that
/// nobody measured has no head.
struct ReadingTable {
  std::string glucose_head, ketones_head, urine_head;
  std::string sensor_note;  // "* sensor", where a reading has the star
  std::vector<ReadingColumn> columns;
};

ReadingTable reading_table_of(const NightRecord& night);

/// Which columns stand beside each other where there is room for so many, each as its first and the one behind its
/// last. A day begins a band of its own.
std::vector<std::pair<std::size_t, std::size_t>> bands_of(const ReadingTable& table, std::size_t room);

}  // namespace rushlight
