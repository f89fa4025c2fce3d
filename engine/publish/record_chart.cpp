#include "publish/record_chart.hpp"

#include <algorithm>

#include "record/record_words.hpp"

namespace rushlight {
namespace {

constexpr double kRise = 32;  // between the floor and the highest reading
constexpr double kJoin = 6;   // the height of the lines that join the columns to their places
constexpr double kSides = 14;
constexpr double kApart = 4;  // between two columns

double in_points(Decimal value) { return static_cast<double>(value.micros()) / 1e6; }

void add_line(PageBlock& block, double x, double y, double to_x, double to_y, double weight) {
  Ink ink{Ink::Kind::line, {x, y, to_x - x, to_y - y}};
  ink.weight = weight;
  block.marks.push_back(ink);
}

}  // namespace

RecordChart::RecordChart(const NightRecord& night, const ReadingTable& table, double width, double letters, Pen& pen)
    : table_(table), width_(width), letters_(letters), pen_(pen) {
  for (const RecordReading& reading : night.readings) {
    if (reading.of != RecordReading::Of::glucose) continue;
    readings_.push_back(&reading);
    if (const auto number = std::get<Glucose>(reading.value).number()) most_ = std::max(most_, in_points(*number));
  }
  if (!is_worth_it()) return;
  first_ = night.readings.front().at;
  last_ = night.readings.back().at;
  place_columns();
}

double RecordChart::measured(const std::string& text, bool bold) const {
  return text.empty() ? 0 : pen_.lines(text, {letters_, bold}, 10 * width_).front().width;
}

/// Each column below its place in the time, or as near to it as its neighbours let it.
void RecordChart::place_columns() {
  const std::string day = text_from_day(local_day_of(first_));
  for (const std::string* each : {&table_.glucose_head, &table_.ketones_head, &table_.urine_head, &day})
    head_ = std::max(head_, measured(*each, false) + 2 * kApart);
  double wide = 0;
  for (const ReadingColumn& column : table_.columns) {
    wide = std::max(wide, measured(wall_clock(column.at), false));
    for (const std::string* each : {&column.glucose, &column.ketones, &column.urine})
      wide = std::max(wide, measured(*each, true));
  }
  const double pitch = wide + kApart;
  const std::size_t count = table_.columns.size();
  if (static_cast<double>(count) * pitch > width_ - head_) {
    head_ = 0;
    return;
  }
  const double most_left = head_ + pitch / 2, most_right = width_ - wide / 2;
  for (const ReadingColumn& column : table_.columns) {
    const double free_from = places_.empty() ? most_left : places_.back() + pitch;
    places_.push_back(std::max(x_of(column.at), free_from));
  }
  double free_to = most_right;
  for (std::size_t at = count; at-- > 0; free_to = places_[at] - pitch) places_[at] = std::min(places_[at], free_to);
}

double RecordChart::floor() const { return line_height() + 4 + kRise; }

double RecordChart::height() const {
  if (places_.empty()) return floor() + 2 + line_height();
  const int rows = 1 + (table_.glucose_head.empty() ? 0 : 1) + (table_.ketones_head.empty() ? 0 : 1) +
                   (table_.urine_head.empty() ? 0 : 1);
  return floor() + kJoin + rows * line_height() + 2;
}

double RecordChart::x_of(const Moment& at) const {
  const auto whole = (last_.utc - first_.utc).count();
  const auto part = (at.utc - first_.utc).count();
  const double from = head_ + kSides, to = width_ - kSides;
  return whole <= 0 ? from : from + (to - from) * static_cast<double>(part) / static_cast<double>(whole);
}

double RecordChart::y_of(const Glucose& glucose) const {
  const double lowest = floor() - 4;
  if (glucose.mark()) return *glucose.mark() == MeterMark::lo ? lowest : lowest - kRise + 4;
  return lowest - (kRise - 4) * in_points(*glucose.number()) / most_;
}

void RecordChart::add_text(PageBlock& block, const std::string& text, bool bold, double middle, double y) const {
  if (text.empty()) return;
  const PenLine line = pen_.lines(text, {letters_, bold}, 10 * width_).front();
  Ink ink{Ink::Kind::text, {middle - line.width / 2, y, line.width, line.above + line.below}, line.text};
  ink.size = letters_;
  ink.bold = bold;
  ink.baseline = line.above;
  block.marks.push_back(std::move(ink));
}

void RecordChart::add_curve(PageBlock& block) const {
  double last_x = -1, last_y = 0, free_from = -1;
  for (const RecordReading* reading : readings_) {
    const double x = x_of(reading->at), y = y_of(std::get<Glucose>(reading->value));
    if (last_x >= 0) add_line(block, last_x, last_y, x, y, 1.2);
    block.marks.push_back({Ink::Kind::filled, {x - 2, y - 2, 4, 4}});
    last_x = x;
    last_y = y;
    // The table has each number with its time; where it is not joined to the curve, the curve has the times.
    if (!places_.empty()) continue;
    const std::string when = wall_clock(reading->at);
    const double wide = measured(when, false);
    const double middle = std::clamp(x, wide / 2, width_ - wide / 2);
    if (middle - wide / 2 <= free_from) continue;
    add_text(block, when, false, middle, floor() + 2);
    free_from = middle + wide / 2 + kApart;
  }
}

/// Where a day begins: a line up, with its date.
void RecordChart::add_days(PageBlock& block) const {
  for (std::size_t at = 1; at < table_.columns.size(); ++at) {
    const Day day = local_day_of(table_.columns[at].at);
    if (day == local_day_of(table_.columns[at - 1].at)) continue;
    const Moment& after = table_.columns[at].at;
    const double x = x_of({after.utc - std::chrono::minutes{clock_time_of(after).minutes()}, after.offset});
    add_line(block, x, line_height() + 2, x, floor(), 0.4);
    const double half = measured(text_from_day(day), false) / 2;
    add_text(block, text_from_day(day), false, std::clamp(x, head_ + half, width_ - half), 0);
  }
}

void RecordChart::add_rows(PageBlock& block) const {
  double y = floor() + kJoin;
  const auto row = [&](const std::string& head, bool bold, const auto& cell_of) {
    if (head.empty()) return;
    add_text(block, head, false, measured(head, false) / 2, y);
    for (std::size_t at = 0; at < places_.size(); ++at)
      add_text(block, cell_of(table_.columns[at]), bold, places_[at], y);
    y += line_height();
  };
  for (std::size_t at = 0; at < places_.size(); ++at)
    add_line(block, x_of(table_.columns[at].at), floor(), places_[at], floor() + kJoin, 0.4);
  row(text_from_day(local_day_of(first_)), false, [](const ReadingColumn& column) { return wall_clock(column.at); });
  row(table_.glucose_head, true, [](const ReadingColumn& column) { return column.glucose; });
  row(table_.ketones_head, true, [](const ReadingColumn& column) { return column.ketones; });
  row(table_.urine_head, true, [](const ReadingColumn& column) { return column.urine; });
}

PageBlock RecordChart::block() const {
  PageBlock block{"P", {}};
  add_line(block, head_, floor(), width_, floor(), 0.8);
  add_days(block);
  add_curve(block);
  if (!places_.empty()) add_rows(block);
  return block;
}

}  // namespace rushlight
