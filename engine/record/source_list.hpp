#pragma once

#include "record/night_record.hpp"

namespace rushlight {

/// Gives each source a number, in the order in which they come up.
class SourceList {
 public:
  /// The rule that led to this advice, and in brackets its sources and those of the doses in it: "low-check/2 [1,3]".
  std::string ground_of(const std::vector<Why>& why);
  std::vector<RecordSource> finished() { return std::move(sources_); }

 private:
  std::size_t number_of(const Why& why);

  std::vector<RecordSource> sources_;
};

}  // namespace rushlight
