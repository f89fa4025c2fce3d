#include "publish/record_chart.hpp"

#include <algorithm>

#include "record/record_words.hpp"

namespace rushlight {
namespace {

constexpr double kRise = 44;  // between the floor and the highest reading
constexpr double kSides = 12;
constexpr double kApart = 4;  // between two numbers

double in_points(Decimal value) { return static_cast<double>(value.micros()) / 1e6; }

std::string number_of(const RecordReading& reading) {
  const auto number = std::get<Glucose>(reading.value).number();
  return number ? text_from_decimal(*number) : reading.text;
}

void add(PageBlock& block, const PenLine& line, double size, double x, double y) {
  Ink ink{Ink::Kind::text, {x, y, line.width, line.above + line.below}, line.text};
  ink.size = size;
  ink.bold = line.bold;
  ink.baseline = line.above;
  block.marks.push_back(std::move(ink));
}

void add_line(PageBlock& block, double x, double y, double to_x, double to_y, double weight) {
  Ink ink{Ink::Kind::line, {x, y, to_x - x, to_y - y}};
  ink.weight = weight;
  block.marks.push_back(ink);
}

}  // namespace

RecordChart::RecordChart(const NightRecord& night, double width, double letters) : width_(width), letters_(letters) {
  for (const RecordReading& reading : night.readings) {
    if (reading.of != RecordReading::Of::glucose) continue;
    readings_.push_back(&reading);
    if (const auto number = std::get<Glucose>(reading.value).number()) most_ = std::max(most_, in_points(*number));
  }
}

double RecordChart::floor() const { return letters_ * 1.3 + 4 + kRise; }
double RecordChart::height() const { return floor() + 4 + letters_ * 1.3; }

double RecordChart::x_of(const Moment& at) const {
  const auto whole = (readings_.back()->at.utc - readings_.front()->at.utc).count();
  const auto part = (at.utc - readings_.front()->at.utc).count();
  return whole <= 0 ? kSides : kSides + (width_ - 2 * kSides) * static_cast<double>(part) / static_cast<double>(whole);
}

double RecordChart::y_of(const Glucose& glucose) const {
  const double lowest = floor() - 4;
  if (glucose.mark()) return *glucose.mark() == MeterMark::lo ? lowest : lowest - kRise + 4;
  return lowest - (kRise - 4) * in_points(*glucose.number()) / most_;
}

PageBlock RecordChart::block(Pen& pen) const {
  PageBlock block{"P", {}};
  add_line(block, 0, floor(), width_, floor(), 0.8);
  double last_x = -1, last_y = 0, free_from = -1;
  for (const RecordReading* reading : readings_) {
    const double x = x_of(reading->at), y = y_of(std::get<Glucose>(reading->value));
    if (last_x >= 0) add_line(block, last_x, last_y, x, y, 1.2);
    block.marks.push_back({Ink::Kind::filled, {x - 2, y - 2, 4, 4}});
    const PenLine number = pen.lines(number_of(*reading), {letters_, true}, width_).front();
    const PenLine when = pen.lines(wall_clock(reading->at), {letters_, false}, width_).front();
    const double wide = std::max(number.width, when.width);
    const double middle = std::clamp(x, wide / 2, width_ - wide / 2);
    if (middle - wide / 2 > free_from) {
      add(block, number, letters_, middle - number.width / 2, std::max(0.0, y - 3 - number.above - number.below));
      add(block, when, letters_, middle - when.width / 2, floor() + 2);
      free_from = middle + wide / 2 + kApart;
    }
    last_x = x;
    last_y = y;
  }
  return block;
}

}  // namespace rushlight
