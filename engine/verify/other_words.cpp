#include "verify/other_words.hpp"

#include <algorithm>
#include <variant>

#include "verify/in_words.hpp"

namespace rushlight {
namespace {

// A number that a text shows is told as a number; its text stays the same.
struct SamePiece {
  const Protocol &of_was, &of_now;
  bool operator()(const std::string& a, const std::string& b) const { return a == b; }
  bool operator()(ThresholdId a, ThresholdId b) const { return of_was[a].name == of_now[b].name; }
  bool operator()(DoseId a, DoseId b) const { return of_was[a].name == of_now[b].name; }
  bool operator()(Filler a, Filler b) const { return a == b; }
  template <class A, class B>
  bool operator()(const A&, const B&) const {
    return false;
  }
};

}  // namespace

bool reads_the_same(const Protocol& of_was, const Template& was, const Protocol& of_now, const Template& now) {
  const auto same = [&](const Piece& x, const Piece& y) { return std::visit(SamePiece{of_was, of_now}, x, y); };
  return std::equal(was.begin(), was.end(), now.begin(), now.end(), same);
}

std::vector<OtherWords> other_words(const Protocol& of_was, const Text& was, const Protocol& of_now, const Text& now) {
  std::vector<OtherWords> others;
  for (int i = 0; i < kLanguages; ++i) {
    const auto language = static_cast<Language>(i);
    if (reads_the_same(of_was, was.line[i], of_now, now.line[i])) continue;
    // Asked for a language that it lacks, a text would answer in another, and hide that it is gone.
    const auto words = [&](const Protocol& protocol, const Text& text) {
      return text.line[i].empty() ? "" : as_written(protocol, text, language);
    };
    OtherWords beside{language, words(of_was, was), words(of_now, now)};
    if (beside.was != beside.now) others.push_back(std::move(beside));
  }
  return others;
}

}  // namespace rushlight
