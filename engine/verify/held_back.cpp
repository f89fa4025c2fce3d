#include <algorithm>

#include "finding/quoted.hpp"
#include "verify/dangers.hpp"
#include "verify/in_words.hpp"
#include "verify/properties.hpp"

namespace rushlight {

namespace {

std::optional<FactId> fact_of(const Condition& condition) {
  if (const auto* is = std::get_if<Is>(&condition.test)) return is->fact;
  if (const auto* compares = std::get_if<Compares>(&condition.test)) return compares->fact;
  return std::nullopt;
}

bool is_of_the_child(const Protocol& protocol, const Condition& condition) {
  const auto fact = fact_of(condition);
  return fact && protocol[*fact].from_child && !(*fact == fact_id(ChildFact::protocols_before));
}

/// All conditions of a watch but this one.
std::string others_in_words(const Protocol& protocol, const Watch& watch, const Condition& but) {
  Conditions others;
  for (const Condition& each : watch.when) {
    if (&each != &but) others.push_back(each);
  }
  return in_one_order(protocol, others);
}

/// Whether watches that differ in this condition alone take all children together.
bool all_children_are_taken(const Protocol& protocol, const Watch& watch, const Condition& condition) {
  const auto* here = std::get_if<Is>(&condition.test);
  const auto* compared = std::get_if<Compares>(&condition.test);
  std::uint64_t taken = here != nullptr ? here->options : 0;
  const std::string rest = others_in_words(protocol, watch, condition);
  for (const Watch& other : protocol.watch) {
    for (const Condition& each : other.when) {
      if (fact_of(each) != fact_of(condition) || others_in_words(protocol, other, each) != rest) continue;
      const auto* is = std::get_if<Is>(&each.test);
      const auto* compares = std::get_if<Compares>(&each.test);
      if (is != nullptr) taken |= is->options;
      if (compares != nullptr && compared != nullptr && compares->limit == compared->limit &&
          compares->comparison != compared->comparison)
        return true;
    }
    if (&other != &watch && in_one_order(protocol, other.when) == rest) return true;  // without it
  }
  if (here == nullptr) return false;
  const std::uint64_t all = (std::uint64_t{1} << protocol[here->fact].options.size()) - 1;
  return (taken & all) == all;
}

/// A sign of a child is one whatever pump the child wears, and at every age.
bool no_child_is_left_out(Checking& checking, const Watch& watch) {
  const Protocol& protocol = checking.protocol;
  for (const Condition& condition : watch.when) {
    if (!is_of_the_child(protocol, condition) || watch.when.size() < 2) continue;
    if (all_children_are_taken(protocol, watch, condition)) continue;
    checking.warning(condition.where, WatchHeldBack{watch.name, others_in_words(protocol, watch, condition),
                                                    in_words(protocol, condition)});
    return false;
  }
  return true;
}

/// The watches that fire on this, and whether one of them asks for nothing else. By what they ask for beside it.
struct LookingOut {
  const Watch* nearest = nullptr;
  const Condition* beside = nullptr;  // of the nearest
  int watches = 0;
  bool alone = false, counters_only = true;
};

template <class Sees>
LookingOut looking_out(const Protocol& protocol, Sees sees) {
  LookingOut found;
  for (const Watch& watch : protocol.watch) {
    const auto seen = std::find_if(watch.when.begin(), watch.when.end(), sees);
    if (seen == watch.when.end()) continue;
    ++found.watches;
    const auto beside =
        std::find_if(watch.when.begin(), watch.when.end(), [&](const Condition& each) { return !sees(each); });
    if (beside == watch.when.end()) {
      found.alone = true;
      continue;
    }
    for (const Condition& each : watch.when) {
      if (!sees(each) && !std::holds_alternative<CountedAtLeast>(each.test)) found.counters_only = false;
    }
    // What takes all that is left stands last.
    if (found.nearest == nullptr || watch.when.size() <= found.nearest->when.size()) {
      found.nearest = &watch;
      found.beside = &*beside;
    }
  }
  return found;
}

void tell_held_back(Checking& checking, const LookingOut& found, std::string sees) {
  if (found.alone || found.nearest == nullptr) return;
  // What several share by how far the night has come is their own affair.
  if (found.watches > 1 && found.counters_only) return;
  if (is_of_the_child(checking.protocol, *found.beside)) return;  // told by itself
  checking.warning(found.beside->where,
                   WatchHeldBack{found.nearest->name, std::move(sees), in_words(checking.protocol, *found.beside)});
}

bool is_watched_as_danger(std::string_view fact, std::string_view answer) {
  return std::any_of(std::begin(kDangers), std::end(kDangers),
                     [&](const Danger& danger) { return danger.fact == fact && danger.answer == answer; });
}

void every_sign_is_seen_by_itself(Checking& checking) {
  const Protocol& protocol = checking.protocol;
  for (const Sign& sign : protocol.worse) {
    const Fact& fact = protocol[sign.fact];
    const std::string& answer = fact.options[sign.option].name;
    if (is_watched_as_danger(fact.name, answer)) continue;
    tell_held_back(checking,
                   looking_out(protocol,
                               [&](const Condition& condition) {
                                 const auto* is = std::get_if<Is>(&condition.test);
                                 return is != nullptr && is->fact == sign.fact &&
                                        (is->options >> sign.option & 1U) != 0;
                               }),
                   quoted(fact.name) + " is " + quoted(answer));
  }
}

/// A number that is dangerous wherever it is published: low glucose, and ketones as high as they are an emergency.
void grave_numbers_are_seen_by_themselves(Checking& checking) {
  const Protocol& protocol = checking.protocol;
  for (const FactKind kind : {FactKind::glucose, FactKind::ketones}) {
    const bool low = kind == FactKind::glucose;
    tell_held_back(checking,
                   looking_out(protocol,
                               [&](const Condition& condition) {
                                 const auto* compares = std::get_if<Compares>(&condition.test);
                                 if (compares == nullptr || protocol[compares->fact].kind != kind) return false;
                                 const bool below = compares->comparison == Comparison::below ||
                                                    compares->comparison == Comparison::at_most;
                                 return below == low;
                               }),
                   low ? "a low glucose" : "high ketones");
  }
}

/// "The child wakes and talks": whoever looks out for something else need not have said so.
void no_watch_waits_for_a_good_answer(Checking& checking) {
  const Protocol& protocol = checking.protocol;
  for (const Watch& watch : protocol.watch) {
    for (const Condition& condition : watch.when) {
      const auto* is = std::get_if<Is>(&condition.test);
      if (is == nullptr || watch.when.size() < 2) continue;
      const Fact& fact = protocol[is->fact];
      const bool asks_for_one = std::any_of(std::begin(kDangers), std::end(kDangers), [&](const Danger& danger) {
        return danger.fact == fact.name && is->options == bit_of(fact, danger.answer == "yes" ? "no" : "yes");
      });
      const bool told = std::any_of(checking.findings.begin(), checking.findings.end(),
                                    [&](const Finding& each) { return each.where == condition.where; });
      if (asks_for_one && !told)
        checking.warning(condition.where, WatchHeldBack{watch.name, others_in_words(protocol, watch, condition),
                                                        in_words(protocol, condition)});
    }
  }
}

}  // namespace

void no_watch_is_held_back(Checking& checking) {
  for (const Watch& watch : checking.protocol.watch) no_child_is_left_out(checking, watch);
  every_sign_is_seen_by_itself(checking);
  grave_numbers_are_seen_by_themselves(checking);
  no_watch_waits_for_a_good_answer(checking);
}

}  // namespace rushlight
