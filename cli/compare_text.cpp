#include "cli/compare_text.hpp"

#include <algorithm>

#include "cli/counted_rest.hpp"
#include "cli/plain_text.hpp"

namespace rushlight {
namespace {

constexpr int kWidth = 100;
constexpr Difference::Turn kTurns[] = {Difference::Turn::calmer, Difference::Turn::less, Difference::Turn::words,
                                       Difference::Turn::graver, Difference::Turn::otherwise};  // the worst first

void add_line(std::string& text, const std::string& lead, const std::string& line) {
  for (const std::string& each : wrapped(lead, cleaned(line), kWidth)) text += each + "\n";
}

void add_difference(std::string& text, const ToldDifference& told, const std::string& number) {
  add_line(text, number + ". was  ", told.was);
  add_line(text, std::string(number.size(), ' ') + "  now  ", whole_now(told));
  for (const std::string& place : told.places) add_line(text, "     - ", place);
}

void add_first(std::string& text, const ToldDifference& told, bool in_brief) {
  add_line(text, "- ", std::string(word_of(told.turn)) + ": " + told.places.front());
  const std::string left_out = told.left_out.empty() ? "" : "; left out: " + told.left_out;
  if (in_brief) return add_line(text, "  was  ", head_of(told.was) + "; now " + head_of(told.now) + left_out);
  add_line(text, "  was  ", told.was);
  add_line(text, "  now  ", whole_now(told));
}

// Of what asks for less care every step is named.
bool is_named(Difference::Turn turn) { return turn == Difference::Turn::calmer || turn == Difference::Turn::less; }

void add_rest(std::string& text, const std::vector<CountedDifferences>& counted) {
  std::string line;
  for (const CountedDifferences& each : counted) {
    if (is_named(each.turn)) continue;
    line += (line.empty() ? "" : ", ") + std::to_string(each.number) + " " + word_of(each.turn);
  }
  if (!line.empty()) add_line(text, "", "Besides: " + line + ".");
}

}  // namespace

std::string text_from_differences(const ToldDifferences& told) {
  std::string text;
  for (const std::string& number : told.numbers) add_line(text, "  ", number);
  if (!told.common.empty()) add_line(text, "", told.common);
  if (!told.in_brief.empty()) add_line(text, "", told.in_brief);
  const std::string below = told.in_brief.empty() ? "\n\n" : "\n";
  if (!told.first.empty()) text += std::string("\n") + kFirstAnswers + below;
  for (const ToldDifference& each : told.first) add_first(text, each, !told.in_brief.empty());
  std::size_t number = 0;
  for (const Difference::Turn turn : kTurns) {
    const auto is_of_it = [&](const auto& each) { return each.turn == turn; };
    const auto counted = std::find_if(told.counted.begin(), told.counted.end(), is_of_it);
    const bool any = std::any_of(told.differences.begin(), told.differences.end(), is_of_it);
    if (any) text += (number == 0 || told.in_brief.empty() ? "\n" : "") + heading_of(turn) + below;
    for (const ToldDifference& each : told.differences) {
      if (is_of_it(each)) add_difference(text, each, std::to_string(++number));
    }
    // Of what is calmer or less, the rest stands below it.
    if (!is_named(turn) || counted == told.counted.end()) continue;
    if (!any) text += heading_of(turn) + "\n";
    std::string named;
    for (const std::string& line : counted->lines) named += (named.empty() ? "" : "; ") + line;
    add_line(text, std::to_string(counted->number) + " more: ", named);
  }
  add_rest(text, told.counted);
  if (!told.gave_up.empty()) text += "\n" + told.gave_up + "\n";
  if (told.in_brief.empty()) text += '\n';
  add_line(text, "", told.same);
  return text;
}

}  // namespace rushlight
