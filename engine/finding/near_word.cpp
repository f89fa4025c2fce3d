#include <algorithm>

#include "finding/finding.hpp"

namespace rushlight {
namespace {

constexpr std::size_t kFarthest = 2;
constexpr std::size_t kShortestBeginning = 5;  // a shorter word begins too much
constexpr std::size_t kLongestWord = 64;  // ids and words of the format are far shorter; a pasted page is not compared

// Changes in bytes: insert, delete, replace, or swap two neighbours ("lwo" is one slip away from "low").
// This is the optimal string alignment distance; three rows of its table are enough.
std::size_t edit_distance(const std::string& a, const std::string& b) {
  std::vector<std::size_t> before_last(b.size() + 1), last(b.size() + 1), row(b.size() + 1);
  for (std::size_t j = 0; j <= b.size(); ++j) row[j] = j;
  for (std::size_t i = 1; i <= a.size(); ++i) {
    before_last.swap(last);
    last.swap(row);
    row[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const std::size_t replaced = last[j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1);
      row[j] = std::min({replaced, last[j] + 1, row[j - 1] + 1});
      const bool swapped = i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1];
      if (swapped) row[j] = std::min(row[j], before_last[j - 2] + 1);
    }
  }
  return row[b.size()];
}

// A name of several words of which only the first are written: "correction" for "correction-insulin".
std::optional<std::string> begun_by(const std::string& written, const std::vector<std::string>& known) {
  if (written.size() < kShortestBeginning) return std::nullopt;
  const auto begins = [&](const std::string& word) { return word.compare(0, written.size() + 1, written + "-") == 0; };
  const auto found = std::find_if(known.begin(), known.end(), begins);
  const bool only_one = found != known.end() && std::none_of(std::next(found), known.end(), begins);
  return only_one ? std::optional<std::string>{*found} : std::nullopt;
}

}  // namespace

std::optional<std::string> near_word(const std::string& written, const std::vector<std::string>& known) {
  if (written.size() > kLongestWord) return std::nullopt;
  // In a short word two changes leave nothing of what was meant: "is" is no slip for "go".
  const std::size_t farthest = std::min(kFarthest, written.size() / 2);
  std::size_t nearest = farthest + 1;
  const std::string* found = nullptr;
  for (const std::string& word : known) {
    if (word.size() > written.size() + farthest || written.size() > word.size() + farthest) continue;
    const std::size_t distance = edit_distance(written, word);
    if (distance < nearest) {
      nearest = distance;
      found = &word;
    } else if (distance == nearest && found && *found != word) {
      found = nullptr;  // two words equally near: naming one would be a guess
    }
  }
  return found ? std::optional<std::string>{*found} : begun_by(written, known);
}

}  // namespace rushlight
