#include "cli/told_differences.hpp"

#include <algorithm>
#include <optional>

#include "finding/quoted.hpp"

namespace rushlight {
namespace {

constexpr std::size_t kMostSteps = 6, kMostRegions = 4, kMostPlaces = 8;
constexpr std::size_t kWorst = 20, kMostLater = 3;  // told in brief

using Limits = std::vector<std::string>;  // of one region, in words

bool is_glucose(const Protocol& protocol, const CaseLimit& limit) {
  return limit.subject.kind == Subject::Kind::fact && protocol.facts[limit.subject.index].kind == FactKind::glucose;
}

// The same region but for what the meter shows.
bool same_but_glucose(const Protocol& protocol, const Cases& one, const Cases& other) {
  return std::equal(one.limits.begin(), one.limits.end(), other.limits.begin(), other.limits.end(),
                    [&](const CaseLimit& a, const CaseLimit& b) {
                      return a == b || (a.subject == b.subject && is_glucose(protocol, a) &&
                                        a.intervals.size() == b.intervals.size() && a.cant_tell == b.cant_tell);
                    });
}

Limits limits_of(const Protocol& protocol, const Cases& region, const Cases* in_mmol) {
  Limits words;
  for (std::size_t i = 0; i < region.limits.size(); ++i) {
    std::string text = in_words(protocol, region.limits[i], region.unit);
    if (in_mmol != nullptr && is_glucose(protocol, region.limits[i]) && !region.limits[i].intervals.empty())
      text += " (" + value_words(protocol, in_mmol->limits[i], GlucoseUnit::mmol_per_l) + ")";
    words.push_back(std::move(text));
  }
  return words;
}

std::vector<Limits> all_limits(const Differences& all, const Difference& difference) {
  const Protocol& protocol = all.sides.both;
  const std::vector<Cases>&mg = difference.regions, &mmol = difference.regions_mmol;
  bool pairs = mg.size() == mmol.size();
  for (std::size_t i = 0; pairs && i < mg.size(); ++i) pairs = same_but_glucose(protocol, mg[i], mmol[i]);
  std::vector<Limits> found;
  for (std::size_t i = 0; i < mg.size(); ++i) found.push_back(limits_of(protocol, mg[i], pairs ? &mmol[i] : nullptr));
  if (pairs) return found;
  for (const Cases& region : mmol) {
    found.push_back(limits_of(protocol, region, nullptr));
    found.back().emplace_back("on a meter in mmol/L");
  }
  return found;
}

std::string joined(const std::vector<std::string>& words, const char* by) {
  std::string text;
  for (const std::string& word : words) text += (text.empty() ? "" : by) + word;
  return text;
}

std::string count_of(std::size_t number, const char* what) {
  return std::to_string(number) + " " + what + (number == 1 ? "" : "s");
}

bool is_about_a_case(const Difference& difference) {
  return difference.kind != Difference::Kind::number && difference.kind != Difference::Kind::other &&
         difference.kind != Difference::Kind::words;
}

class Telling {
 public:
  explicit Telling(const Differences& all) : all_(all) { find_what_is_common(); }

  ToldDifferences told() {
    is_told_.assign(all_.changes.size(), false);
    for (const Difference& each : all_.changes) {
      if (each.kind != Difference::Kind::number) continue;
      told_.numbers.push_back(each.at.front().occasion + ": was " + each.was + ", now " + each.now);
    }
    if (!common_.empty()) told_.common = "All of it is for " + joined(common_, ", ") + ".";
    for (std::size_t i = 0; i < all_.changes.size(); ++i) {
      if (all_.changes[i].kind == Difference::Kind::number || is_told_[i]) continue;
      if (all_.in_brief && told_.differences.size() == kWorst) {
        count(all_.changes[i]);
      } else {
        add_together(i);
      }
    }
    say_what_is_counted();
    if (all_.gave_up) told_.gave_up = "The search was given up: there may be more differences than these.";
    told_.same = (all_.changes.empty() ? "Nothing changes: " : "The same: ") +
                 count_of(all_.steps - all_.steps_changed, "step") + " of " + std::to_string(all_.steps) + ", and " +
                 count_of(all_.ways - all_.ways_changed, "way") + " on of " + std::to_string(all_.ways) + ".";
    return std::move(told_);
  }

 private:
  // What every region says need not be said each time.
  void find_what_is_common() {
    bool first = true;
    for (const Difference& difference : all_.changes) {
      if (!is_about_a_case(difference)) continue;
      const std::vector<Limits> regions = all_limits(all_, difference);
      if (regions.empty()) return common_.clear();
      for (const Limits& limits : regions) {
        if (first) common_ = limits;
        first = false;
        common_.erase(std::remove_if(common_.begin(), common_.end(),
                                     [&](const std::string& word) {
                                       return std::find(limits.begin(), limits.end(), word) == limits.end();
                                     }),
                      common_.end());
        if (common_.empty()) return;
      }
    }
  }

  std::string region_text(const Limits& limits) const {
    std::vector<std::string> words;
    for (const std::string& word : limits) {
      if (std::find(common_.begin(), common_.end(), word) == common_.end()) words.push_back(word);
    }
    return joined(words, ", ");
  }

  std::string places_of(const Difference& difference) const {
    std::vector<std::pair<std::string, std::vector<std::string>>> occasions;
    for (const Difference::Place& place : difference.at) {
      auto known = std::find_if(occasions.begin(), occasions.end(),
                                [&](const auto& each) { return each.first == place.occasion; });
      if (known == occasions.end()) known = occasions.insert(occasions.end(), {place.occasion, {}});
      if (!place.step.empty()) known->second.push_back(rushlight::quoted(place.step));
    }
    std::string text;
    for (const auto& [occasion, steps] : occasions) {
      text += (text.empty() ? "" : "; ") + occasion;
      for (std::size_t i = 0; i < steps.size() && i < kMostSteps; ++i) text += (i == 0 ? " " : ", ") + steps[i];
      if (steps.size() > kMostSteps) text += " and " + count_of(steps.size() - kMostSteps, "more step");
    }
    return text;
  }

  // All that came to the one and now comes to the other.
  void add_together(std::size_t first) {
    const Difference& one = all_.changes[first];
    ToldDifference together{
        one.turn, one.was.empty() ? "nothing" : one.was, one.now.empty() ? "nothing" : one.now, {}, 0};
    for (std::size_t i = first; i < all_.changes.size(); ++i) {
      const Difference& each = all_.changes[i];
      if (each.kind != one.kind || each.turn != one.turn || each.was != one.was || each.now != one.now) continue;
      is_told_[i] = true;
      if (together.places.size() < kMostPlaces) {
        together.places.push_back(place_of(each));
      } else {
        ++together.more_places;
      }
    }
    told_.differences.push_back(std::move(together));
  }

  // Of the rest: by where the same answers led, or by what it is about.
  void count(const Difference& each) {
    const bool leads = each.kind == Difference::Kind::leads;
    const std::string was = leads ? "was " + head_of(each.was) : about(each.kind);
    const auto same = [&](const Rest& rest) { return rest.turn == each.turn && rest.was == was; };
    auto found = std::find_if(rest_.begin(), rest_.end(), same);
    if (found == rest_.end()) found = rest_.insert(rest_.end(), {each.turn, was, {}, 0});
    ++found->number;
    if (leads) found->now.push_back(head_of(each.now));
  }

  // Without the headline.
  static std::string head_of(const std::string& outcome) {
    return outcome.empty() ? "nothing" : outcome.substr(0, outcome.find(": "));
  }

  static const char* about(Difference::Kind kind) {
    switch (kind) {
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
      case Difference::Kind::leads:
      case Difference::Kind::number:
      case Difference::Kind::other:
        break;
    }
    return "other parts of the file";
  }

  void say_what_is_counted() {
    for (const Rest& rest : rest_) {
      if (told_.counted.empty() || told_.counted.back().turn != rest.turn) told_.counted.push_back({rest.turn, 0, {}});
      CountedDifferences& counted = told_.counted.back();
      counted.number += rest.number;
      // What is calmer is named to the last.
      const std::size_t most = rest.turn == Difference::Turn::calmer ? rest.now.size() : kMostLater;
      std::string text = rest.was + ": ";
      for (std::size_t i = 0; i < rest.now.size() && i < most; ++i) text += (i == 0 ? "now " : "; ") + rest.now[i];
      if (rest.now.empty()) text += std::to_string(rest.number);
      if (rest.now.size() > most) text += "; and " + std::to_string(rest.now.size() - most) + " more";
      counted.lines.push_back(std::move(text));
    }
    if (!all_.in_brief) return;
    std::size_t left = 0;
    for (const CountedDifferences& each : told_.counted) left += each.number;
    told_.in_brief = "Much is different. The worst " + std::to_string(told_.differences.size()) +
                     " are told, each with what all its cases have in common; " + std::to_string(left) +
                     " more are counted. `--all` tells every difference with its cases.";
  }

  std::string place_of(const Difference& each) const {
    const std::vector<Limits> regions = all_limits(all_, each);
    std::string text;
    for (std::size_t i = 0; i < regions.size() && i < kMostRegions; ++i) {
      const std::string words = region_text(regions[i]);
      if (!words.empty()) text += (text.empty() ? ": " : "; or ") + words;
    }
    if (regions.size() > kMostRegions) text += "; or " + count_of(regions.size() - kMostRegions, "more case");
    if (each.too_many) text += regions.empty() ? ": more cases than can be told apart here" : " (or less than that)";
    return places_of(each) + text;
  }

  const Differences& all_;
  Limits common_;
  std::vector<bool> is_told_;
  struct Rest {
    Difference::Turn turn;
    std::string was;
    std::vector<std::string> now;
    std::size_t number;
  };
  std::vector<Rest> rest_;
  ToldDifferences told_;
};

}  // namespace

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

std::vector<std::string> texts_from_regions(const Differences& all, const Difference& difference) {
  std::vector<std::string> texts;
  for (const Limits& limits : all_limits(all, difference))
    texts.push_back(limits.empty() ? "everybody" : joined(limits, ", "));
  return texts;
}

ToldDifferences told_differences(const Differences& all) { return Telling(all).told(); }

}  // namespace rushlight
