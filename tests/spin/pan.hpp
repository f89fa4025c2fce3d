#pragma once

#include <filesystem>
#include <optional>
#include <set>
#include <string>

#include "tests/spin/promela.hpp"

namespace rushlight::tests {

/// How SPIN is to walk a flow.
struct PanWalk {
  std::string how;           // of "late timed stopping watching waiting": see promela.cpp
  std::int64_t horizon = 0;  // with `timed`: nights that last longer, in seconds, are not followed
  bool rounds = false;       // looks for a way round instead
  std::string options = "-m100000 -w18";
  int without = 0;  // a rule that is left out, by `left_out`; only one that reads a counter can be
};

/// What SPIN saw.
struct PanReport {
  std::set<std::string> events;
  bool ended = false, left = false, went_on = false, round = false;
  std::optional<std::int64_t> last_call;          // seconds
  double states = 0, seconds = 0, megabytes = 0;  // seconds of the processor
};

/// The verifier that SPIN makes of the flows, compiled; gone with this. Throws when SPIN or the compiler refuses, or
/// when a walk did not come to its end.
class Pan {
 public:
  Pan(const Promela& promela, const std::string& compiled_with);
  ~Pan();
  Pan(const Pan&) = delete;
  Pan& operator=(const Pan&) = delete;

  PanReport walked(std::size_t flow, const PanWalk& walk) const;
  double seconds_to_make() const { return seconds_to_make_; }

 private:
  std::vector<std::vector<std::string>> events_;
  std::filesystem::path folder_;
  double seconds_to_make_ = 0;
};

}  // namespace rushlight::tests
