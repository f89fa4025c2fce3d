#include "verify/dose_examples.hpp"

#include <algorithm>
#include <map>
#include <tuple>

namespace rushlight {
namespace {

constexpr std::int64_t kOne = Decimal::kMicrosPerOne;
constexpr std::int64_t kMonthsPerYear = 12;

std::int64_t grain_of(const Protocol& protocol, const Subject& subject) {
  return grain_of(subject.kind == Subject::Kind::fact ? protocol.facts[subject.index].kind : FactKind::choice);
}

bool is_one_stretch(const CaseLimit& limit) {
  if (limit.intervals.size() != 1 || !limit.options.empty()) return false;
  const Interval& one = limit.intervals.front();
  return one.from && one.up_to && one.with_from && one.with_up_to;
}

// The one limit in which they differ; none when they differ in more.
std::optional<std::size_t> only_other(const Cases& one, const Cases& other) {
  if (one.limits.size() != other.limits.size()) return std::nullopt;
  std::optional<std::size_t> found;
  for (std::size_t i = 0; i < one.limits.size(); ++i) {
    if (one.limits[i] == other.limits[i]) continue;
    if (found || !(one.limits[i].subject == other.limits[i].subject)) return std::nullopt;
    found = i;
  }
  return found;
}

bool joined(CaseLimit& one, const CaseLimit& other, std::int64_t grain) {
  if (!is_one_stretch(one) || !is_one_stretch(other) || one.cant_tell != other.cant_tell) return false;
  Interval& a = one.intervals.front();
  const Interval& b = other.intervals.front();
  if (*b.from > *a.up_to + grain || *a.from > *b.up_to + grain) return false;
  a.from = std::min(*a.from, *b.from);
  a.up_to = std::max(*a.up_to, *b.up_to);
  return true;
}

bool join_any(std::vector<Cases>& regions, const Protocol& protocol) {
  for (std::size_t i = 0; i < regions.size(); ++i) {
    for (std::size_t j = i + 1; j < regions.size(); ++j) {
      const auto at = only_other(regions[i], regions[j]);
      if (!at) continue;
      CaseLimit& limit = regions[i].limits[*at];
      if (!joined(limit, regions[j].limits[*at], grain_of(protocol, limit.subject))) continue;
      regions.erase(regions.begin() + static_cast<std::ptrdiff_t>(j));
      return true;
    }
  }
  return false;
}

Decimal difference_of(const DoseExample& example) {
  const Decimal none = Decimal::whole(0), was = example.was.value_or(none), now = example.now.value_or(none);
  return was < now ? now - was : was - now;
}

// How much of what was given before: a gram less is more for a small child.
bool is_greater(const DoseExample& one, const DoseExample& other) {
  const Decimal a = difference_of(one), b = difference_of(other);
  if (a != b) return b < a;
  const Decimal none = Decimal::whole(0);
  return one.was.value_or(none) < other.was.value_or(none);
}

}  // namespace

std::int64_t roundest_in(std::int64_t least, std::int64_t greatest, bool months, int& roundness) {
  const std::int64_t in_months[] = {kMonthsPerYear, 1}, in_micros[] = {kOne, kOne / 2, kOne / 10};
  roundness = 0;
  const auto try_with = [&](std::int64_t step) {
    const std::int64_t first = (least + step - 1) / step * step;
    ++roundness;
    return first <= greatest ? std::optional(first) : std::nullopt;
  };
  if (months) {
    for (const std::int64_t step : in_months) {
      if (const auto found = try_with(step)) return *found;
    }
  } else {
    for (const std::int64_t step : in_micros) {
      if (const auto found = try_with(step)) return *found;
    }
  }
  ++roundness;
  return least;
}

std::vector<Cases> put_together(std::vector<Cases> regions, const std::vector<CaseLimit>& whole,
                                const Protocol& protocol) {
  while (join_any(regions, protocol)) {}
  for (Cases& region : regions) {
    const auto is_whole = [&](const CaseLimit& limit) {
      return std::find(whole.begin(), whole.end(), limit) != whole.end();
    };
    region.limits.erase(std::remove_if(region.limits.begin(), region.limits.end(), is_whole), region.limits.end());
  }
  return regions;
}

std::vector<std::int64_t> places_in(const DosePieces::Ends& span, std::int64_t number, std::int64_t grain) {
  const std::int64_t width = span.greatest - span.least;
  const bool below_zero = span.greatest <= 0;
  const auto start = [&](std::int64_t j) {
    const std::int64_t from = below_zero ? number - j : j;
    const std::int64_t far = width / (number * number) * from * from / grain * grain;
    return below_zero ? std::max(span.least, span.greatest - far) : span.least + far;
  };
  std::vector<std::int64_t> places;
  for (std::int64_t j = 0; j < number; ++j) {
    const std::int64_t first = start(j), last = j + 1 == number ? span.greatest : std::max(first, start(j + 1) - grain);
    std::optional<std::int64_t> round;
    for (const std::int64_t step : {50 * kOne, 10 * kOne, 5 * kOne}) {
      const std::int64_t place = (first < 0 ? first : first + step - 1) / step * step;
      if (!round && grain > 1 && place >= first && place <= last) round = place;
    }
    int roundness = 0;
    places.push_back(round ? *round : roundest_in(first, last, grain == 1, roundness));
  }
  places.erase(std::unique(places.begin(), places.end()), places.end());
  return places;
}

namespace {

std::vector<DoseExample> told_of(std::vector<DoseExample> all, const std::vector<CaseLimit>& whole,
                                 const Protocol& protocol) {
  int roundest = 9;
  for (const DoseExample& each : all) roundest = std::min(roundest, each.roundness);
  // The same amounts for children who differ in what does not matter here.
  using Alike = std::tuple<std::optional<Decimal>, std::optional<Decimal>, std::string>;
  std::map<Alike, std::vector<Cases>> by_amounts;
  for (const DoseExample& each : all) {
    if (each.roundness == roundest) by_amounts[{each.was, each.now, each.factor}].push_back(each.who);
  }
  std::vector<DoseExample> told;
  for (auto& [alike, regions] : by_amounts) {
    const auto& [was, now, factor] = alike;
    for (Cases& who : put_together(std::move(regions), whole, protocol))
      told.push_back({std::move(who), was, now, roundest, factor});
  }
  return told;
}

}  // namespace

std::vector<DoseExample> telling_ones(std::vector<DoseExample> all, const std::vector<CaseLimit>& whole,
                                      const Protocol& protocol) {
  const auto is_less = [](const DoseExample& each) { return each.was && (!each.now || *each.now < *each.was); };
  const auto more = std::stable_partition(all.begin(), all.end(), is_less);
  std::vector<DoseExample> less = told_of({all.begin(), more}, whole, protocol);
  std::vector<DoseExample> told = told_of({more, all.end()}, whole, protocol);
  if (!less.empty() && !told.empty())
    return {*std::min_element(less.begin(), less.end(), is_greater),
            *std::min_element(told.begin(), told.end(), is_greater)};
  if (told.empty()) told = std::move(less);
  if (told.size() <= 2) return told;
  std::map<Decimal, std::size_t> often;
  for (const DoseExample& each : told) ++often[difference_of(each)];
  const auto greatest = std::min_element(told.begin(), told.end(), is_greater);
  const Decimal usual = std::max_element(often.begin(), often.end(), [](const auto& a, const auto& b) {
                          return a.second < b.second;
                        })->first;
  std::vector<const DoseExample*> usual_ones;
  for (const DoseExample& each : told) {
    if (&each != &*greatest && difference_of(each) == usual) usual_ones.push_back(&each);
  }
  std::vector<DoseExample> chosen{*greatest};
  if (!usual_ones.empty()) chosen.push_back(*usual_ones[usual_ones.size() / 2]);
  return chosen;
}

}  // namespace rushlight
