#pragma once

#include "publish/laid.hpp"
#include "publish/pen.hpp"
#include "record/night_record.hpp"

namespace rushlight {

/// The glucose readings against the time, as wide as wanted; LO lies on the floor and HI under the roof. A number stands
/// at each point that has room for one.
class RecordChart {
 public:
  RecordChart(const NightRecord& night, double width, double letters);

  /// Two readings at least, and one of them a number.
  bool is_worth_it() const { return readings_.size() >= 2 && most_ > 0; }
  double height() const;
  PageBlock block(Pen& pen) const;

 private:
  double x_of(const Moment& at) const;
  double y_of(const Glucose& glucose) const;
  double floor() const;

  double width_, letters_;
  std::vector<const RecordReading*> readings_;
  double most_ = 0;
};

}  // namespace rushlight
