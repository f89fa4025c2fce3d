#pragma once

#include <cstdint>
#include <string>

#include "measure/moment.hpp"

namespace rushlight {

/// A process that walks a child, and since when.
struct Walker {
  std::int64_t pid;
  std::string born;  // the boot and the tick at which the process started: a pid is used again, this pair is not
  Moment since;
  std::string who;  // a word to know it by: "terminal 3"; may be empty
};

/// The calling process.
Walker this_walker(const Moment& since, const std::string& who);

/// False when the process is gone, or another one has its pid by now. True when nobody can tell: a question too many is
/// better than two people who treat the same low.
bool is_alive(const Walker& walker);

}  // namespace rushlight
