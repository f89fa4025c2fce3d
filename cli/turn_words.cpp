#include "cli/told_differences.hpp"

namespace rushlight {
namespace {

struct TurnWords {
  Difference::Turn turn;
  const char *name, *word, *heading;
};

constexpr TurnWords kTurns[] = {
    {Difference::Turn::calmer, "calmer", "CALMER", "CALMER THAN BEFORE: look at each of these before anybody signs"},
    {Difference::Turn::less, "less", "LESS", "LESS IS DONE, OR LATER"},
    {Difference::Turn::graver, "graver", "GRAVER", "GRAVER, OR MORE IS DONE"},
    {Difference::Turn::otherwise, "otherwise", "OTHER", "OTHER THAN BEFORE"},
    {Difference::Turn::words, "words", "OTHER WORDS", "OTHER WORDS: read whether each still means the same"},
};

const TurnWords& words_of_turn(Difference::Turn turn) {
  for (const TurnWords& each : kTurns) {
    if (each.turn == turn) return each;
  }
  return kTurns[0];  // the one to look at, should a turn ever lack its words
}

}  // namespace

const char* name_of(Difference::Turn turn) { return words_of_turn(turn).name; }
const char* word_of(Difference::Turn turn) { return words_of_turn(turn).word; }
std::string heading_of(Difference::Turn turn) { return words_of_turn(turn).heading; }

}  // namespace rushlight
