#pragma once

#include <iosfwd>
#include <string>
#include <vector>

namespace rushlight {

struct CompareOptions {
  std::string was, now;  // a folder of protocols, one protocol, or a set inside the program
  bool json = false;
  bool all = false;                // each difference with its cases, however many there are
  std::string map;                 // "STEP:FACT" or "STEP:FACT,FACT"
  std::vector<std::string> given;  // with a map: "FACT=VALUE"
  std::string out;                 // of a map: *.svg or *.png
};

/// Prints what changes in decisions from the one to the other, the worst first. 0: nothing changes; 1: something does;
/// 2: one of them cannot be read, or a file is named beside a set. A draft with errors is told as one.
int compare_command(const CompareOptions& options, std::ostream& out, std::ostream& err);

}  // namespace rushlight
