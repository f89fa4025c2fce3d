#include "cli/told_differences.hpp"

namespace rushlight {

const char* name_of(Difference::Turn turn) {
  switch (turn) {
    case Difference::Turn::calmer:
      return "calmer";
    case Difference::Turn::less:
      return "less";
    case Difference::Turn::graver:
      return "graver";
    case Difference::Turn::otherwise:
      return "otherwise";
    case Difference::Turn::words:
      break;
  }
  return "words";
}

const char* word_of(Difference::Turn turn) {
  switch (turn) {
    case Difference::Turn::calmer:
      return "CALMER";
    case Difference::Turn::less:
      return "LESS";
    case Difference::Turn::graver:
      return "GRAVER";
    case Difference::Turn::words:
      return "OTHER WORDS";
    case Difference::Turn::otherwise:
      break;
  }
  return "OTHER";
}

std::string heading_of(Difference::Turn turn) {
  switch (turn) {
    case Difference::Turn::calmer:
      return "CALMER THAN BEFORE: look at each of these before anybody signs";
    case Difference::Turn::less:
      return "LESS IS DONE, OR LATER";
    case Difference::Turn::graver:
      return "GRAVER, OR MORE IS DONE";
    case Difference::Turn::otherwise:
      return "OTHER THAN BEFORE";
    case Difference::Turn::words:
      break;
  }
  return "OTHER WORDS: read whether each still means the same";
}

}  // namespace rushlight
