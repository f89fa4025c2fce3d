#include "sheet/join_ways.hpp"

#include <algorithm>

#include "sheet/sheet_words.hpp"

namespace rushlight {
namespace {

using Looks = SheetSight::Looks;

/// Readings as numbers; an open end is before or behind all of them.
std::int64_t begin_of(const SheetSight& sight) { return sight.from ? sight.from->number()->micros() : INT64_MIN; }
std::int64_t end_of(const SheetSight& sight) { return sight.to ? sight.to->number()->micros() : INT64_MAX; }

/// Whoever sees `narrow` follows a way of `wide`.
bool takes_in(const SheetSight& wide, const SheetSight& narrow) {
  return wide.no_reading == narrow.no_reading && (wide.looks == Looks::any || wide.looks == narrow.looks) &&
         begin_of(wide) <= begin_of(narrow) && end_of(narrow) <= end_of(wide);
}

/// Cuts a way where another one begins, so that stretches of both looks have the same ends.
void cut_at(std::vector<SheetWay>& ways, const Glucose& from, const Glucose& last_before) {
  const std::int64_t at = from.number()->micros();
  for (std::size_t i = 0; i < ways.size(); ++i) {
    const SheetSight sight = *ways[i].sight;
    if (sight.no_reading || begin_of(sight) >= at || end_of(sight) < at) continue;
    SheetWay above = ways[i];
    ways[i].sight->to = last_before;
    ways[i].sight->below = from;
    above.sight->from = from;
    ways.insert(ways.begin() + static_cast<std::ptrdiff_t>(i) + 1, std::move(above));
  }
}

void cut_alike(std::vector<SheetWay>& ways) {
  std::vector<std::pair<Glucose, Glucose>> borders;
  for (const SheetWay& way : ways) {
    if (way.sight->below) borders.push_back({*way.sight->below, *way.sight->to});
  }
  for (const auto& [from, before] : borders) cut_at(ways, from, before);
}

void say_once_for_both_looks(std::vector<SheetWay>& ways) {
  for (std::size_t i = 0; i < ways.size(); ++i) {
    for (std::size_t j = i + 1; j < ways.size();) {
      const SheetSight &one = *ways[i].sight, &other = *ways[j].sight;
      const bool one_stretch =
          one.no_reading == other.no_reading && begin_of(one) == begin_of(other) && end_of(one) == end_of(other);
      if (one_stretch && lead_alike(ways[i], ways[j])) {
        ways[i].sight->looks = Looks::any;
        ways.erase(ways.begin() + static_cast<std::ptrdiff_t>(j));
      } else {
        ++j;
      }
    }
  }
}

}  // namespace

void fork(std::vector<SheetWay>& ways, const SheetSight& sight, std::size_t said, SheetWay if_low, std::string if_not) {
  const auto way = std::find_if(ways.begin(), ways.end(), [&](const SheetWay& each) {
    return each.sight && each.go == 0 && each.lines.size() > said && takes_in(*each.sight, sight);
  });
  if (way == ways.end()) return;
  const auto behind = way->lines.begin() + static_cast<std::ptrdiff_t>(said);
  SheetWay not_low{std::move(if_not), {behind, way->lines.end()}, 0, way->urgency, {}, true};
  way->lines.erase(behind, way->lines.end());
  if_low.sight.reset();
  if_low.under = true;
  ways.insert(way + 1, {std::move(if_low), std::move(not_low)});
}

bool lead_alike(const SheetWay& one, const SheetWay& other) {
  const auto same_text = [](const SheetLine& a, const SheetLine& b) { return a.text == b.text; };
  return one.go == other.go && one.lines.size() == other.lines.size() &&
         std::equal(one.lines.begin(), one.lines.end(), other.lines.begin(), same_text);
}

std::vector<SheetWay> joined(std::vector<SheetWay> ways, Language language) {
  cut_alike(ways);
  say_once_for_both_looks(ways);
  std::stable_sort(ways.begin(), ways.end(), [](const SheetWay& a, const SheetWay& b) {
    const SheetSight &one = *a.sight, &other = *b.sight;
    if (one.no_reading != other.no_reading) return other.no_reading;
    if (one.looks != other.looks) return one.looks < other.looks;
    return begin_of(one) < begin_of(other);
  });
  for (std::size_t i = 1; i < ways.size();) {
    SheetSight& before = *ways[i - 1].sight;
    const SheetSight& here = *ways[i].sight;
    const bool next_to = before.below && before.below == here.from && before.looks == here.looks && !here.no_reading;
    if (next_to && lead_alike(ways[i - 1], ways[i])) {
      before.to = here.to;
      before.below = here.below;
      ways.erase(ways.begin() + static_cast<std::ptrdiff_t>(i));
    } else {
      ++i;
    }
  }
  for (SheetWay& way : ways) way.when = text_from_sight(*way.sight, language);
  return ways;
}

void refer_to_first(std::vector<SheetWay>& ways, const std::vector<ReadingGroup>& first,
                    const std::vector<ReadingGroup>& again, int number, Language language) {
  const auto places = [](const std::vector<ReadingGroup>& groups) {
    std::vector<std::pair<Looks, std::string>> found;
    for (const ReadingGroup& group : groups) {
      if (group.sight.no_reading) found.push_back({group.sight.looks, group.landing.step});
    }
    return found;
  };
  if (places(first) != places(again)) return;
  const auto blind = [](const SheetWay& way) { return way.sight && way.sight->no_reading; };
  const auto same = std::find_if(ways.begin(), ways.end(), blind);
  if (same == ways.end()) return;
  SheetWay back{sheet_say(SheetWord::no_reading, language), {}, number, same->urgency, SheetSight{}};
  back.sight->no_reading = true;
  *same = std::move(back);
  ways.erase(std::remove_if(same + 1, ways.end(), blind), ways.end());
}

}  // namespace rushlight
