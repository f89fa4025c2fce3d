#pragma once

#include <map>
#include <string>
#include <vector>

namespace rushlight::house {

/// One row of the table in docs/hazards.md.
struct HazardRow {
  std::string hazard;
  std::vector<std::string> tests;  // the names in backticks in its last column
};

/// The rows of the table whose columns are Hazard, Control and Test. Empty without such a table.
std::vector<HazardRow> hazard_rows(const std::string& markdown);

/// How a test case went in this run.
struct Went {
  bool passed;  // false when it failed or was left out
  bool checked_something;
  bool left_out = false;  // of this executable's run; another one may have run it
};
using Runs = std::map<std::string, Went>;

/// Adds the cases that one executable or script left in its file of runs. A table of cases counts by its own name too, and passed
/// only when every row did; of two cases of one name the worse counts, and one that ran before one that was left out.
void add_runs(const std::string& xml, Runs& runs);

/// What is missing, one sentence each; empty when every hazard names a test and every named test ran, checked something and passed.
/// `elsewhere`: what this run left out, another run of the same tree tries (a browser sees nothing of sanitizers).
std::vector<std::string> uncontrolled(const std::vector<HazardRow>& rows, const Runs& runs, bool elsewhere = false);

}  // namespace rushlight::house
