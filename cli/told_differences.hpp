#pragma once

#include <string>
#include <vector>

#include "verify/compare.hpp"

namespace rushlight {

/// What comes to one and the same: where it was, where it is now, and the places and cases in which that is so.
struct ToldDifference {
  Difference::Turn turn;
  std::string was, now;
  std::vector<std::string> places;
  std::string left_out;  // what is said no more, where both do the same for the rest
};

/// What is beyond the worst that a person reads at once: its lines, none with its cases.
struct CountedDifferences {
  Difference::Turn turn;
  std::size_t number;
  std::vector<std::string> lines;
};

/// Where it is now, and what that leaves out.
std::string whole_now(const ToldDifference& told);

/// Everything that differs, in words for a nurse; each face sets them in its own way.
struct ToldDifferences {
  std::vector<std::string> numbers;         // the thresholds: "number `low`: was 70 mg/dL = ..., now ..."
  std::string common;                       // what all of it has in common; empty when nothing
  std::vector<ToldDifference> first;        // where the first answers of a night lead, each in its one place
  std::vector<ToldDifference> differences;  // the calmer ones first
  std::vector<CountedDifferences> counted;  // in brief: the rest, by turn
  std::string in_brief;                     // how they are told, when that is not case by case
  std::string gave_up;                      // there may be more; empty when there are no more
  std::string same;                         // how much is the same
};
ToldDifferences told_differences(const Differences& all);

/// The word for a turn in everything that a machine reads (docs/wire-format.md).
const char* name_of(Difference::Turn turn);

/// One word for a turn, for a line that stands alone.
const char* word_of(Difference::Turn turn);

/// What stands above the first answers.
inline constexpr const char* kFirstAnswers = "WHERE THE FIRST ANSWERS OF A NIGHT LEAD";

/// What stands above the differences of one turn.
std::string heading_of(Difference::Turn turn);

/// "glucose 65 to 69 mg/dL (3.6 to 3.8 mmol/L), symptoms: no"; "everybody".
std::vector<std::string> texts_from_regions(const Differences& all, const Difference& difference);

}  // namespace rushlight
