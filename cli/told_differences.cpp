#include "cli/told_differences.hpp"

#include <algorithm>
#include <map>
#include <optional>
#include <set>
#include <tuple>

#include "finding/quoted.hpp"
#include "verify/in_words.hpp"

namespace rushlight {
namespace {

constexpr std::size_t kMostSteps = 4, kMostRegions = 4, kMostPlaces = 8;
constexpr std::size_t kWorst = 20, kPlain = 5, kMostLater = 3;  // told in brief
constexpr std::size_t kMostFirst = 12;
constexpr std::size_t kReadAtOnce = 5;  // of so few the first need not be said apart

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

std::vector<Limits> all_limits(const Protocol& protocol, const std::vector<Cases>& mg, const std::vector<Cases>& mmol) {
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

std::vector<Limits> all_limits(const Differences& all, const Difference& difference) {
  return all_limits(all.sides.both, difference.regions, difference.regions_mmol);
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
    tell_first_answers();
    choose();
    for (std::size_t i = 0; i < all_.changes.size(); ++i) {
      if (all_.changes[i].kind == Difference::Kind::number || is_told_[i]) continue;
      if (is_chosen_[i]) {
        add_together(i);
      } else {
        count(all_.changes[i]);
      }
    }
    say_what_is_counted();
    if (all_.gave_up) told_.gave_up = "The search was given up: there may be more differences than these.";
    say_what_is_the_same();
    return std::move(told_);
  }

 private:
  // The same answers at the first reading concern most children, and stand nowhere first among what is worst.
  void tell_first_answers() {
    std::set<std::tuple<std::string, std::string>> outcomes;
    for (const Difference& each : all_.changes) outcomes.insert({each.was, each.now});
    if (outcomes.size() <= kReadAtOnce) return;
    for (const Difference& each : all_.first_answers) {
      if (told_.first.size() == kMostFirst) break;
      told_.first.push_back({each.turn, said(each, each.was), said(each, each.now), {place_of(each)}, 0});
    }
  }

  // In brief: the worst of what is calmer, and of each turn what a night comes to soonest, of each kind one at least.
  // Words and amounts are few, and no one of them stands for another.
  void choose() {
    is_chosen_.assign(all_.changes.size(), !all_.in_brief);
    if (!all_.in_brief) return;
    std::size_t worst = 0;
    std::vector<std::size_t> soonest;
    for (std::size_t i = 0; i < all_.changes.size(); ++i) {
      const Difference& each = all_.changes[i];
      const bool always = each.kind == Difference::Kind::words || each.kind == Difference::Kind::dose;
      const bool calmer = each.turn == Difference::Turn::calmer && worst < kWorst;
      if (calmer) ++worst;
      is_chosen_[i] = always || calmer;
      if (each.soonest) soonest.push_back(i);
    }
    const auto plainness = [&](std::size_t i) {
      const Difference::Soonest& one = *all_.changes[i].soonest;
      return std::tuple(one.soon, (one.regions.empty() ? one.regions_mmol : one.regions).front().limits.size(), i);
    };
    std::sort(soonest.begin(), soonest.end(),
              [&](std::size_t a, std::size_t b) { return plainness(a) < plainness(b); });
    std::map<Difference::Turn, std::size_t> plain;
    std::set<std::pair<Difference::Turn, Difference::Kind>> kinds;
    for (const std::size_t i : soonest) {
      const Difference& each = all_.changes[i];
      const bool of_a_new_kind = kinds.insert({each.turn, each.kind}).second;
      if (plain[each.turn]++ < kPlain || of_a_new_kind) is_chosen_[i] = true;
    }
  }

  void say_what_is_the_same() {
    if (all_.changes.empty()) {
      told_.same = "Nothing changes: " + of_all(all_.steps, "step") + " and " + of_all(all_.ways, "way") +
                   " on from them are the same.";
      return;
    }
    told_.same = "The same: what is shown, asked and done in " + std::to_string(all_.steps - all_.steps_changed) +
                 " of " + count_of(all_.steps, "step") + " that a night comes to in both; and where " +
                 std::to_string(all_.ways - all_.ways_changed) + " of " + count_of(all_.ways, "way") +
                 " on from them lead.";
    const bool amounts = std::any_of(all_.changes.begin(), all_.changes.end(),
                                     [](const Difference& each) { return each.kind == Difference::Kind::dose; });
    if (amounts) told_.same += " Amounts are not counted here: those that change are told above.";
    if (all_.ways_changed > 0)
      told_.same += " " + count_of(all_.ways_changed, "way") + (all_.ways_changed == 1 ? " leads" : " lead") +
                    " elsewhere now, which is told above.";
  }
  static std::string of_all(std::size_t number, const char* what) {
    return number == 1 ? "the one " + std::string(what) : "all " + count_of(number, what);
  }

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

  // An id says little to whoever did not write the file.
  std::string step_in_words(const std::string& name) const {
    const Protocol& both = all_.sides.both;
    const auto step = both.step_named(name);
    return quoted(name) + (step ? " (" + as_written(both, both[*step].headline) + ")" : "");
  }

  std::string places_of(const std::vector<Difference::Place>& at) const {
    std::vector<std::pair<std::string, std::vector<std::string>>> occasions;
    for (const Difference::Place& place : at) {
      auto known = std::find_if(occasions.begin(), occasions.end(),
                                [&](const auto& each) { return each.first == place.occasion; });
      if (known == occasions.end()) known = occasions.insert(occasions.end(), {place.occasion, {}});
      if (!place.step.empty()) known->second.push_back(place.step);
    }
    std::string text;
    for (const auto& [occasion, steps] : occasions) {
      text += (text.empty() ? "" : "; ") + occasion;
      for (std::size_t i = 0; i < steps.size() && i < kMostSteps; ++i)
        text += (i == 0 ? " " : ", ") + step_in_words(steps[i]);
      if (steps.size() > kMostSteps) text += " and " + count_of(steps.size() - kMostSteps, "more step");
    }
    return text;
  }

  static std::string said(const Difference& difference, const std::string& words) {
    const char* in = !difference.language ? "" : *difference.language == Language::es ? "in Spanish: " : "in English: ";
    return in + (words.empty() ? "nothing" : words);
  }

  // All that came to the one and now comes to the other.
  void add_together(std::size_t first) {
    const Difference& one = all_.changes[first];
    ToldDifference together{one.turn, said(one, one.was), said(one, one.now), {}, 0};
    for (std::size_t i = first; i < all_.changes.size(); ++i) {
      const Difference& each = all_.changes[i];
      if (each.kind != one.kind || each.turn != one.turn || each.language != one.language || each.was != one.was ||
          each.now != one.now)
        continue;
      is_told_[i] = true;
      if (each.soonest) add_soonest(together, each);
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
    told_.in_brief = "Much is different. Told are the " + std::to_string(kWorst) +
                     " worst of what is calmer, and of everything what a night comes to soonest: " +
                     std::to_string(told_.differences.size()) + " in all, each with what all its cases share; " +
                     std::to_string(left) + " more are counted. `--all` tells every difference with its cases.";
  }

  std::string place_of(const Difference& each) const {
    const std::string more = !each.too_many         ? ""
                             : each.regions.empty() ? ": more cases than can be told apart here"
                                                    : " (or less than that)";
    return places_of(each.at) + regions_text(all_limits(all_, each)) + more;
  }

  std::string regions_text(const std::vector<Limits>& regions) const {
    std::string text;
    for (std::size_t i = 0; i < regions.size() && i < kMostRegions; ++i) {
      const std::string words = region_text(regions[i]);
      if (!words.empty()) text += (text.empty() ? ": " : "; or ") + words;
    }
    if (regions.size() > kMostRegions) text += "; or " + count_of(regions.size() - kMostRegions, "more case");
    return text;
  }

  // One case that can be thought through, before what all of them share.
  void add_soonest(ToldDifference& together, const Difference& each) const {
    const Difference::Soonest& soonest = *each.soonest;
    const std::string one =
        places_of({soonest.at}) + regions_text(all_limits(all_.sides.both, soonest.regions, soonest.regions_mmol));
    if (one != place_of(each)) together.places.push_back("first " + one);
  }

  const Differences& all_;
  Limits common_;
  std::vector<bool> is_told_, is_chosen_;
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

std::vector<std::string> texts_from_regions(const Differences& all, const Difference& difference) {
  std::vector<std::string> texts;
  for (const Limits& limits : all_limits(all, difference))
    texts.push_back(limits.empty() ? "everybody" : joined(limits, ", "));
  return texts;
}

ToldDifferences told_differences(const Differences& all) { return Telling(all).told(); }

}  // namespace rushlight
