#pragma once

#include <iosfwd>
#include <string>
#include <vector>

#include "protocol/text.hpp"

namespace rushlight {

struct ThresholdsOptions {
  std::vector<std::string> set;      // one: a folder, a protocol file, or a set inside the program
  std::vector<std::string> changes;  // "low=66 mg/dL, 3.7 mmol/L"
  std::string from;                  // a table that `--csv` printed and a spreadsheet changed
  bool csv = false, json = false;
  bool yes = false;    // take the value of the other unit as it was worked out
  bool draft = false;  // write although the check finds an error
  std::string language;
};

/// `rushlight thresholds`: lists every number that a clinic may change, or changes some of them: all or none, nothing
/// but the bytes of those values, and only when the whole set with the new bytes passes its check. What was understood
/// is shown back, with the command that undoes it. A question is asked only when `asks`: somebody sits in front of it.
/// Gives the exit status: 0 listed, written, or nothing to change; 1 refused, nothing is written; 2 something cannot be
/// read or written, or wrong use.
int thresholds_command(const ThresholdsOptions& options, std::istream& in, bool asks, std::ostream& out,
                       std::ostream& err);

}  // namespace rushlight
