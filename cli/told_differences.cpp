#include "cli/told_differences.hpp"

#include <algorithm>
#include <optional>
#include <set>
#include <tuple>

#include "cli/counted_rest.hpp"
#include "finding/quoted.hpp"
#include "verify/in_words.hpp"

namespace rushlight {
namespace {

constexpr std::size_t kMostHeadlines = 4;  // of more steps in one place each has its id alone
constexpr std::size_t kMostRegions = 3;    // of one place: the plainest
constexpr std::size_t kMostFirst = 12;
constexpr std::size_t kMostFirstInBrief = 2, kMostAlso = 2;  // told in brief
constexpr std::size_t kReadAtOnce = 5;                       // of so few the first need not be said apart

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

std::string ended(std::string words) { return words.back() == '.' || words.back() == '?' ? words : words + "."; }

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
    if (all_.in_brief) {
      tell_in_brief();
    } else {
      for (std::size_t i = 0; i < all_.changes.size(); ++i) {
        if (all_.changes[i].kind != Difference::Kind::number && !is_told_[i]) add_together(i);
      }
    }
    if (all_.gave_up) told_.gave_up = "The search was given up: there may be more differences than these.";
    say_what_is_the_same();
    return std::move(told_);
  }

 private:
  // The same answers at the first reading concern most children, and stand nowhere first among what is worst.
  void tell_first_answers() {
    std::set<std::tuple<std::string, std::string>> outcomes;
    for (const Difference& each : all_.changes) {
      outcomes.insert({each.was, each.now});
      for (const Difference::Outcome& outcome : each.outcomes) outcomes.insert({each.was, outcome.words});
    }
    if (outcomes.size() <= kReadAtOnce) return;
    std::vector<const Difference*> first;
    for (const Difference& each : all_.first_answers) first.push_back(&each);
    if (all_.in_brief)
      std::stable_sort(first.begin(), first.end(), [](const Difference* a, const Difference* b) {
        return std::tuple(a->turn, -a->falls) < std::tuple(b->turn, -b->falls);
      });
    // Where the same step stands in the way of several, one of them says enough.
    const auto same = [](const Difference* a, const Difference* b) { return a->at == b->at && a->was == b->was; };
    if (all_.in_brief) first.erase(std::unique(first.begin(), first.end(), same), first.end());
    first.resize(std::min(first.size(), all_.in_brief ? kMostFirstInBrief : kMostFirst));
    for (const Difference* each : first)
      told_.first.push_back(
          {each->turn, said(*each, each->was), said(*each, each->now), {place_of(*each)}, each->left_out});
  }

  // The worst, each with one case to think through; the rest is counted.
  void tell_in_brief() {
    std::size_t number = 0;
    for (std::size_t i = 0; i < all_.changes.size(); ++i) {
      const Difference& each = all_.changes[i];
      if (each.kind == Difference::Kind::number) continue;
      ++number;
      if (each.is_told) add_worst(i);
    }
    for (std::size_t i = 0; i < all_.changes.size(); ++i) {
      if (all_.changes[i].kind != Difference::Kind::number && !is_told_[i]) rest_.add(all_.changes[i]);
    }
    told_.counted = rest_.counted();
    const char* told = number == 1 ? ", told with one case" : ". Told are the worst, each with one case";
    told_.in_brief = count_of(number, "difference") + told + "; `--all` tells all.";
  }

  // What stood in the way of the same step is told with it: the answers lead to several steps now.
  void add_worst(std::size_t first) {
    const Difference& one = all_.changes[first];
    ToldDifference worst{one.turn, said(one, one.was), said(one, one.now), {}, one.left_out};
    std::vector<std::string> also;
    std::set<std::string> steps;
    for (std::size_t i = first; i < all_.changes.size(); ++i) {
      const Difference& each = all_.changes[i];
      const bool same = each.kind == one.kind && each.turn == one.turn && each.language == one.language &&
                        each.was == one.was && (each.now == one.now || one.kind == Difference::Kind::leads);
      if (!same) continue;
      is_told_[i] = true;
      if (each.now != one.now) also.push_back(head_of(each.now));
      for (const Difference::Place& place : each.at) steps.insert(place.step);
    }
    if (!also.empty()) worst.now = ended(std::move(worst.now)) + also_text(also);
    if (!one.soonest) {
      worst.places.push_back(place_of(one));
    } else {
      worst.places.push_back(places_of({one.soonest->at}) + regions_text(limits_of(one.soonest->who)));
      steps.erase(one.soonest->at.step);
      if (!steps.empty()) worst.places.back() += "; and at other times, in " + count_of(steps.size(), "step");
    }
    told_.differences.push_back(std::move(worst));
  }

  static std::string also_text(const std::vector<std::string>& also) {
    if (also.size() > kMostAlso) return " Or one of " + std::to_string(also.size()) + " others.";
    return " Or: " + joined(also, "; ") + ".";
  }

  void say_what_is_the_same() {
    if (all_.changes.empty()) {
      told_.same = "Nothing changes: " + of_all(all_.steps, "step") + " and " + of_all(all_.ways, "way") +
                   " on from them are the same.";
      return;
    }
    if (all_.in_brief) {
      told_.same = "The same: " + std::to_string(all_.steps - all_.steps_changed) + " of " +
                   count_of(all_.steps, "step") + ", and where " + std::to_string(all_.ways - all_.ways_changed) +
                   " of " + count_of(all_.ways, "way") + " on from them lead.";
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
    if (all_.by_place)
      told_.same += " `--json` lists every case, and who comes to which step where it is one of several.";
  }
  static std::string of_all(std::size_t number, const char* what) {
    return number == 1 ? "the one " + std::string(what) : "all " + count_of(number, what);
  }

  // What every region says need not be said each time.
  void find_what_is_common() {
    bool first = true;
    const auto keep = [&](const Limits& limits) {
      if (first) common_ = limits;
      first = false;
      common_.erase(std::remove_if(common_.begin(), common_.end(),
                                   [&](const std::string& word) {
                                     return std::find(limits.begin(), limits.end(), word) == limits.end();
                                   }),
                    common_.end());
    };
    for (const Limits& limits : limits_of(all_.common)) keep(limits);
    for (const Difference& difference : all_.changes) {
      if (!is_about_a_case(difference) || (all_.in_brief && difference.kind != Difference::Kind::dose)) continue;
      const std::vector<Limits> regions = all_limits(all_, difference);
      if (regions.empty()) return common_.clear();
      for (const Limits& limits : regions) {
        keep(limits);
        if (common_.empty()) return;
      }
    }
  }

  std::string region_text(Limits limits) const {
    const auto is_common = [&](const std::string& word) {
      return std::find(common_.begin(), common_.end(), word) != common_.end();
    };
    limits.erase(std::remove_if(limits.begin(), limits.end(), is_common), limits.end());
    return joined(limits, ", ");
  }

  // An id says little to whoever did not write the file.
  std::string step_in_words(const std::string& name, bool with_headline) const {
    if (!with_headline) return quoted(name);
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
      for (std::size_t i = 0; i < steps.size(); ++i)
        text += (i == 0 ? " " : ", ") + step_in_words(steps[i], i < kMostHeadlines);
    }
    return text;
  }

  static std::string said(const Difference& difference, const std::string& words) {
    const char* in = !difference.language ? "" : *difference.language == Language::es ? "in Spanish: " : "in English: ";
    return in + (words.empty() ? "nothing" : words);
  }

  // What it led to before leads to all of these now, the worst first.
  static std::string now_of(std::vector<Difference::Outcome> outcomes) {
    std::stable_sort(outcomes.begin(), outcomes.end(), [](const auto& a, const auto& b) {
      return std::tuple(-a.falls, b.loss) < std::tuple(-b.falls, a.loss);
    });
    std::string text;
    for (const Difference::Outcome& each : outcomes) {
      if (!text.empty()) text = ended(std::move(text)) + " Or: ";
      text += each.words;
    }
    return text;
  }

  // All that came to the one and now comes to the other.
  void add_together(std::size_t first) {
    const Difference& one = all_.changes[first];
    ToldDifference together{one.turn, said(one, one.was), said(one, one.now), {}, one.left_out};
    std::vector<Difference::Outcome> outcomes;
    for (std::size_t i = first; i < all_.changes.size(); ++i) {
      const Difference& each = all_.changes[i];
      if (each.kind != one.kind || each.turn != one.turn || each.language != one.language || each.was != one.was ||
          each.now != one.now)
        continue;
      is_told_[i] = true;
      together.places.push_back(place_of(each));
      for (const Difference::Outcome& outcome : each.outcomes) {
        const auto same = [&](const Difference::Outcome& known) { return known.words == outcome.words; };
        if (std::none_of(outcomes.begin(), outcomes.end(), same)) outcomes.push_back(outcome);
      }
    }
    if (!outcomes.empty()) together.now = now_of(std::move(outcomes)), together.left_out.clear();
    told_.differences.push_back(std::move(together));
  }

  std::string place_of(const Difference& each) const {
    const std::string more = !each.too_many         ? ""
                             : each.regions.empty() ? ": more cases than can be told apart here"
                                                    : " (not all of them)";
    return places_of(each.at) + regions_text(all_limits(all_, each)) + more;
  }

  std::string regions_text(const std::vector<Limits>& regions) const {
    std::string text;
    const std::size_t told = std::min(regions.size(), all_.in_brief ? 1 : kMostRegions);
    for (std::size_t i = 0; i < told; ++i) {
      const std::string words = region_text(regions[i]);
      if (!words.empty()) text += (text.empty() ? ": " : "; or ") + words;
    }
    if (regions.size() > told) text += "; or " + count_of(regions.size() - told, "more case") + " (--json)";
    return text;
  }

  std::vector<Limits> limits_of(const Whom& who) const {
    return all_limits(all_.sides.both, who.regions, who.regions_mmol);
  }

  const Differences& all_;
  Limits common_;
  std::vector<bool> is_told_;
  CountedRest rest_;
  ToldDifferences told_;
};

}  // namespace

std::vector<std::string> texts_from_regions(const Differences& all, const Difference& difference) {
  std::vector<std::string> texts;
  for (const Limits& limits : all_limits(all, difference))
    texts.push_back(limits.empty() ? "everybody" : joined(limits, ", "));
  return texts;
}

std::string whole_now(const ToldDifference& told) {
  return told.left_out.empty() ? told.now : ended(told.now) + " Left out: " + told.left_out;
}

ToldDifferences told_differences(const Differences& all) { return Telling(all).told(); }

}  // namespace rushlight
