#include "cli/counted_rest.hpp"

#include <algorithm>

#include "finding/quoted.hpp"

namespace rushlight {
namespace {

const char* about(Difference::Kind kind) {
  switch (kind) {
    case Difference::Kind::leads:
      return "where the same answers lead";
    case Difference::Kind::urgency:
      return "how urgent a step is";
    case Difference::Kind::action:
    case Difference::Kind::order:
      return "what is done in a step";
    case Difference::Kind::wait:
      return "how long to wait";
    case Difference::Kind::call:
      return "whom to call, and when";
    case Difference::Kind::dose:
      return "how much is given";
    case Difference::Kind::count:
      return "what is counted, set back or marked";
    case Difference::Kind::question:
      return "what is asked";
    case Difference::Kind::put_in:
      return "steps put in or left out";
    case Difference::Kind::words:
      return "words";
    case Difference::Kind::number:
    case Difference::Kind::other:
      break;
  }
  return "other parts of the file";
}

// Of "`treat`, Treat here: Low." the step and its urgency; of what is no step all is urgency.
struct WhereTo {
  std::string step, urgency;
};
WhereTo where_to(const std::string& words) {
  const std::string head = head_of(words);
  const std::size_t end = head.find("`, ");
  if (head.empty() || head.front() != '`' || end == std::string::npos) return {"", head};
  return {head.substr(0, end + 1), head.substr(end + 3)};
}

}  // namespace

std::string head_of(const std::string& outcome) {
  return outcome.empty() ? "nothing" : outcome.substr(0, outcome.find(": "));
}

void CountedRest::add(const Difference& each) {
  std::string text = about(each.kind), step;
  const bool less = each.turn == Difference::Turn::less && each.kind == Difference::Kind::leads;
  if (each.turn == Difference::Turn::calmer || less) {
    const WhereTo was = where_to(each.was), now = where_to(each.now);
    text = "was " + was.urgency + (less ? "" : ", now " + now.urgency);
    step = !was.step.empty() || each.at.empty() ? was.step : rushlight::quoted(each.at.front().step);
  }
  if (each.turn == Difference::Turn::graver && !each.left_out.empty()) text += ", and something is given no more";
  auto line = std::find_if(lines_.begin(), lines_.end(),
                           [&](const Line& known) { return known.turn == each.turn && known.about == text; });
  if (line == lines_.end()) line = lines_.insert(lines_.end(), {each.turn, text, {}, 0});
  ++line->number;
  const bool is_known = std::find(line->steps.begin(), line->steps.end(), step) != line->steps.end();
  if (!step.empty() && !is_known) line->steps.push_back(step);
}

std::vector<CountedDifferences> CountedRest::counted() const {
  std::vector<CountedDifferences> all;
  for (const Line& line : lines_) {
    if (all.empty() || all.back().turn != line.turn) all.push_back({line.turn, 0, {}});
    all.back().number += line.number;
    std::string text = line.about + (line.steps.empty() ? " " + std::to_string(line.number) : ": ");
    for (std::size_t i = 0; i < line.steps.size(); ++i) text += (i == 0 ? "" : ", ") + line.steps[i];
    all.back().lines.push_back(std::move(text));
  }
  return all;
}

}  // namespace rushlight
