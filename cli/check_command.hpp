#pragma once

#include <iosfwd>
#include <string>
#include <vector>

namespace rushlight {

struct CheckOptions {
  std::vector<std::string> paths;
  bool json = false;
  std::string junit;    // a file to write, or "-" for standard output
  std::string explain;  // the id of a step or a rule; then the others are empty
};

/// `rushlight check`: everything there is to say about each path, in the order named. For people, with the line of the
/// file and how it ended; or as one JSON document; or, beside either, as JUnit XML. Gives the exit status: 0 nothing
/// wrong, 1 findings that are errors, 2 not readable or wrong use.
int check_command(const CheckOptions& options, std::ostream& out, std::ostream& err);

}  // namespace rushlight
