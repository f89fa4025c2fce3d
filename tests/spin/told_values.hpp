#pragma once

#include <map>
#include <string>
#include <vector>

#include "verify/worst_time.hpp"

// What each thing that a protocol reads can be, cut anew for SPIN: not by the code of the proofs.

namespace rushlight::tests {

/// Subjects in a fixed order, for maps.
struct SubjectOrder {
  bool operator()(const Subject& a, const Subject& b) const {
    return a.kind != b.kind ? a.kind < b.kind : a.index < b.index;
  }
};

/// One number for each part of a thing's values that no condition tells apart; "can't tell" comes behind them.
struct TellableValues {
  std::vector<std::int64_t> numbers;
  bool unknown = false;
  std::size_t count() const { return numbers.size() + (unknown ? 1 : 0); }
};

/// Truths about values as Promela writes them. What is told is a byte: 0 while nobody has told it, else the place of
/// its value from 1 on. A counter is its number, a deed 0 or 1.
class ToldValues {
 public:
  /// A loose counter is told anew wherever it is read.
  ToldValues(const Protocol& protocol, const Conditions& stays, GlucoseUnit unit, const std::vector<CounterId>& loose);

  const std::map<Subject, TellableValues, SubjectOrder>& all() const { return values_; }
  const TellableValues& of(const Subject& subject) const { return values_.at(subject); }

  /// What has to be told before the truth can be read.
  std::vector<Subject> read_by(const Condition& condition) const;
  std::string truth_of(const Condition& condition) const;
  std::string is_known(const Subject& subject) const;

  /// Each band of the times with its own sum: the truth that picks it and the seconds of each time.
  struct Times {
    std::string truth;
    std::vector<std::int64_t> seconds;
  };
  std::vector<Times> times_of(const std::vector<ThresholdId>& times) const;
  std::vector<Subject> bands_read_by(const std::vector<ThresholdId>& thresholds) const;

 private:
  using Picked = std::vector<const Band*>;
  void read(const Conditions& conditions);
  void read_bands(ThresholdId id);
  void cut();
  std::int64_t number_of(const Limit& limit) const;
  std::vector<Picked> choices_of_bands(const std::vector<ThresholdId>& thresholds) const;
  std::string truth_of_bands(const Picked& picked) const;
  bool is_told(const Subject& subject) const;
  bool holds(const Condition& condition, const Picked& limits, const TellableValues& values, std::size_t place) const;
  std::string is_one_of(const Subject& subject, const std::vector<bool>& places) const;

  const Protocol& protocol_;
  GlucoseUnit unit_;
  std::vector<CounterId> loose_;
  std::map<Subject, std::vector<std::int64_t>, SubjectOrder> borders_;
  std::map<Subject, TellableValues, SubjectOrder> values_;
};

/// "f12", "c3": what the thing is called in Promela.
std::string promela_name(const Subject& subject);

}  // namespace rushlight::tests
