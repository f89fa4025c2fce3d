#pragma once

#include "publish/laid.hpp"
#include "publish/pen.hpp"
#include "record/reading_table.hpp"

namespace rushlight {

/// The glucose readings against the time, as wide as wanted; LO lies on the floor and HI under the roof. Below it,
/// where there is room for all of them, the whole table of readings, each joined to its place in the time;
/// else the times alone.
class RecordChart {
 public:
  RecordChart(const NightRecord& night, const ReadingTable& table, double width, double letters, Pen& pen);

  /// Two glucose readings at least, and one of them a number.
  bool is_worth_it() const { return readings_.size() >= 2 && most_ > 0; }
  bool holds_the_table() const { return is_worth_it() && !places_.empty(); }
  double height() const;
  PageBlock block() const;

 private:
  double measured(const std::string& text, bool bold) const;
  void place_columns();
  double x_of(const Moment& at) const;
  double y_of(const Glucose& glucose) const;
  double floor() const;
  double line_height() const { return letters_ * 1.2; }
  void add_text(PageBlock& block, const std::string& text, bool bold, double middle, double y) const;
  void add_curve(PageBlock& block) const;
  void add_days(PageBlock& block) const;
  void add_rows(PageBlock& block) const;

  const ReadingTable& table_;
  double width_, letters_;
  Pen& pen_;
  std::vector<const RecordReading*> readings_;
  double most_ = 0;
  Moment first_{}, last_{};
  double head_ = 0;             // what stands at the left of the rows takes this much
  std::vector<double> places_;  // the middle of each column of the table
};

}  // namespace rushlight
