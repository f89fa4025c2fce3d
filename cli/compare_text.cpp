#include "cli/compare_text.hpp"

#include <optional>

#include "cli/plain_text.hpp"

namespace rushlight {
namespace {

constexpr int kWidth = 100;

void add_line(std::string& text, const std::string& lead, const std::string& line) {
  for (const std::string& each : wrapped(lead, cleaned(line), kWidth)) text += each + "\n";
}

void add_difference(std::string& text, const ToldDifference& told, const std::string& number) {
  add_line(text, number + ". was  ", told.was);
  add_line(text, std::string(number.size(), ' ') + "  now  ", told.now);
  for (const std::string& place : told.places) add_line(text, "     - ", place);
  if (told.more_places == 0) return;
  const std::size_t left = told.more_places;
  add_line(text, "     ",
           "and in " + std::to_string(left) + " more place" + (left == 1 ? "" : "s") + "; --json lists all");
}

}  // namespace

std::string text_from_differences(const ToldDifferences& told) {
  std::string text;
  for (const std::string& number : told.numbers) add_line(text, "  ", number);
  if (!told.common.empty()) add_line(text, "", told.common);
  if (!told.in_brief.empty()) add_line(text, "", told.in_brief);
  std::optional<Difference::Turn> turn;
  const auto turn_to = [&](Difference::Turn next) {
    if (turn != next) text += "\n" + heading_of(next) + "\n\n";
    turn = next;
  };
  for (std::size_t i = 0; i < told.differences.size(); ++i) {
    turn_to(told.differences[i].turn);
    add_difference(text, told.differences[i], std::to_string(i + 1));
  }
  for (const CountedDifferences& counted : told.counted) {
    if (turn == counted.turn) text += '\n';
    turn_to(counted.turn);
    add_line(text, "", std::to_string(counted.number) + " more:");
    for (const std::string& line : counted.lines) add_line(text, "     - ", line);
  }
  if (!told.gave_up.empty()) text += "\n" + told.gave_up + "\n";
  text += '\n';
  add_line(text, "", told.same);
  return text;
}

}  // namespace rushlight
