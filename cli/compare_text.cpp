#include "cli/compare_text.hpp"

#include <algorithm>

#include "cli/plain_text.hpp"

namespace rushlight {
namespace {

constexpr int kWidth = 100;
constexpr std::size_t kMostPlaces = 4, kMostRegions = 6;

bool is_glucose(const Protocol& protocol, const RegionLimit& limit) {
  return limit.subject.kind == Subject::Kind::fact && protocol.facts[limit.subject.index].kind == FactKind::glucose;
}

// The same region but for what the meter shows.
bool same_but_glucose(const Protocol& protocol, const Region& one, const Region& other) {
  return std::equal(one.limits.begin(), one.limits.end(), other.limits.begin(), other.limits.end(),
                    [&](const RegionLimit& a, const RegionLimit& b) {
                      return a == b || (a.subject == b.subject && is_glucose(protocol, a) &&
                                        a.intervals.size() == b.intervals.size() && a.cant_tell == b.cant_tell);
                    });
}

std::string text_of(const Protocol& protocol, const Region& region, const Region* in_mmol) {
  if (region.limits.empty()) return "everybody";
  std::string text;
  for (std::size_t i = 0; i < region.limits.size(); ++i) {
    text += (text.empty() ? "" : ", ") + in_words(protocol, region.limits[i], region.unit);
    if (in_mmol != nullptr && is_glucose(protocol, region.limits[i]) && !region.limits[i].intervals.empty())
      text += " (" + value_words(protocol, in_mmol->limits[i], GlucoseUnit::mmol_per_l) + ")";
  }
  return text;
}

std::string joined(const std::vector<std::string>& places) {
  std::string text;
  for (std::size_t i = 0; i < places.size() && i < kMostPlaces; ++i) text += (i == 0 ? "" : "; ") + places[i];
  if (places.size() > kMostPlaces) text += "; and " + std::to_string(places.size() - kMostPlaces) + " more places";
  return text;
}

class Lines {
 public:
  void add(const std::string& lead, const std::string& text) {
    for (const std::string& line : wrapped(lead, cleaned(text), kWidth)) text_ += line + "\n";
  }
  std::string text() { return std::move(text_); }

 private:
  std::string text_;
};

}  // namespace

std::vector<std::string> texts_from_regions(const Differences& all, const Difference& difference) {
  const Protocol& protocol = all.sides.both;
  const std::vector<Region>&mg = difference.regions, &mmol = difference.regions_mmol;
  bool pairs = mg.size() == mmol.size();
  for (std::size_t i = 0; pairs && i < mg.size(); ++i) pairs = same_but_glucose(protocol, mg[i], mmol[i]);
  std::vector<std::string> texts;
  for (std::size_t i = 0; i < mg.size(); ++i) texts.push_back(text_of(protocol, mg[i], pairs ? &mmol[i] : nullptr));
  if (pairs) return texts;
  for (const Region& region : mmol) texts.push_back(text_of(protocol, region, nullptr) + " (on a meter in mmol/L)");
  return texts;
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
  return "THE SAME IN OTHER WORDS";
}

std::string text_from_difference(const Differences& all, const Difference& difference, std::size_t number) {
  Lines lines;
  lines.add(std::to_string(number) + ". ", joined(difference.at));
  const std::vector<std::string> regions = texts_from_regions(all, difference);
  const bool everybody = regions.size() == 1 && regions.front() == "everybody";
  for (std::size_t i = 0; i < regions.size() && i < kMostRegions && !everybody; ++i)
    lines.add(i == 0 ? "   for  " : "   or   ", regions[i]);
  if (regions.size() > kMostRegions)
    lines.add("        ", "and " + std::to_string(regions.size() - kMostRegions) + " more; --json lists all");
  if (difference.too_many) lines.add("   for  ", "more cases than can be told apart here; --map shows a step");
  lines.add("   was  ", difference.was.empty() ? "nothing" : difference.was);
  lines.add("   now  ", difference.now.empty() ? "nothing" : difference.now);
  return lines.text();
}

}  // namespace rushlight
