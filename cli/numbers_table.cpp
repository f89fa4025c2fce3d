#include <algorithm>
#include <ostream>

#include "cli/number_words.hpp"
#include "cli/numbers_list.hpp"
#include "cli/plain_text.hpp"
#include "cli/shell_word.hpp"
#include "cli/threshold_words.hpp"
#include "episode/words.hpp"
#include "protocol/band_name.hpp"

namespace rushlight {
namespace {

constexpr int kTablePage = 100;
// Columns: the name to type, the value, what is allowed, what it is. Two blanks between.
constexpr int kName = 33, kValue = 14, kRange = 22, kLabel = 25;

std::vector<std::string> in_column(const std::vector<std::string>& texts, int width) {
  std::vector<std::string> lines;
  for (const std::string& text : texts) {
    for (std::string& line : wrapped("", cleaned(text), width)) lines.push_back(std::move(line));
  }
  return lines;
}

std::string padded(const std::string& text, int width) {
  return text + std::string(static_cast<std::size_t>(std::max(width - columns_of(text), 0)), ' ');
}

struct Columns {
  std::string name;
  std::vector<std::string> value, range, label;
};

void print_row(std::ostream& out, const Columns& row) {
  // A name is typed again, so it is never broken.
  const bool alone = columns_of(row.name) > kName;
  if (alone) out << cleaned(row.name) << '\n';
  const std::vector<std::string> cells[] = {in_column({alone ? "" : row.name}, kName), in_column(row.value, kValue),
                                            in_column(row.range, kRange), in_column(row.label, kLabel)};
  const int widths[] = {kName, kValue, kRange, kLabel};
  std::size_t lines = 0;
  for (const auto& cell : cells) lines = std::max(lines, cell.size());
  for (std::size_t i = 0; i < lines; ++i) {
    std::string line;
    for (std::size_t column = 0; column < 4; ++column) {
      const std::string text = i < cells[column].size() ? cells[column][i] : "";
      line += padded(text, widths[column]) + (column < 3 ? "  " : "");
    }
    line.erase(line.find_last_not_of(' ') + 1);
    out << line << '\n';
  }
}

void print_number(std::ostream& out, const NumbersSet& set, const Number& number, Language language) {
  const NumberPlace first = number.places.front();
  const Threshold& threshold = set.threshold(first);
  const bool banded = has_bands(threshold);
  const std::string label = sentence_case(plain_words(threshold.label, language));
  const std::vector<std::string> range = range_lines(set, number, language);
  const auto value = [&](std::size_t band) { return value_lines(words_of(set.draft(first), band), language); };
  print_row(out, {number.name, banded ? std::vector<std::string>{} : value(0), range, {label}});
  for (std::size_t band = 0; banded && band < threshold.bands.size(); ++band) {
    print_row(out, {number.name + ":" + name_of(threshold.bands[band]),
                    value(band),
                    {places_shown(set, number.places, band, false)},
                    {band_shown(threshold.bands[band], language)}});
  }
  const std::string where = places_shown(set, number.places, 0, false);
  const std::string source =
      say(threshold_words::kSource, language, sources_shown(set, number, Citation::brief, language));
  for (const std::string& line : wrapped("    ", cleaned((banded ? "" : where + "; ") + source), kTablePage))
    out << line << '\n';
}

std::string example(const NumbersSet& set) {
  for (const Number& number : set.numbers) {
    const NumberPlace first = number.places.front();
    if (has_bands(set.threshold(first))) continue;
    const std::string typed = number.name + "=" + value_shown(words_of(set.draft(first), 0), Language::en);
    return "rushlight thresholds " + shell_word(set.path) + " --change " + shell_word(typed);
  }
  return "";
}

}  // namespace

void print_numbers(std::ostream& out, const NumbersSet& set, Language language) {
  const auto print = [&](const std::string& lead, const std::string& text) {
    for (const std::string& line : wrapped(lead, cleaned(text), kTablePage)) out << line << '\n';
  };
  print_row(out, {say(threshold_words::kHeadName, language),
                  {say(threshold_words::kHeadValue, language)},
                  {say(threshold_words::kHeadRange, language)},
                  {say(threshold_words::kHeadLabel, language)}});
  std::string last;
  std::size_t values = 0;
  for (const Number& number : set.numbers) {
    const std::string protocols = protocols_shown(set, number.places, language);
    if (protocols != last) {
      out << '\n';
      print("", say(number.places.size() > 1 ? threshold_words::kShared : threshold_words::kOne, language, protocols));
      out << '\n';
    }
    last = protocols;
    print_number(out, set, number, language);
    values += set.threshold(number.places.front()).bands.size();
  }
  if (set.numbers.empty()) return;
  out << '\n';
  print("", say(threshold_words::kCount, language, std::to_string(set.numbers.size()), std::to_string(values)));
  if (set.inside_program) {
    print("", say(threshold_words::kCopy, language, set.path));
  } else {
    print(say(threshold_words::kHow, language), example(set));
  }
  print("", say(threshold_words::kWhoDecides, language));
}

}  // namespace rushlight
