#include "verify/in_unit.hpp"

#include <algorithm>
#include <string>
#include <tuple>

#include "finding/quoted.hpp"
#include "verify/counterparts.hpp"
#include "verify/endings.hpp"
#include "verify/graph.hpp"
#include "verify/in_words.hpp"
#include "verify/readers.hpp"

namespace rushlight {
namespace {

constexpr std::size_t kMostRegions = 200;  // of one difference: a nurse reads a few

constexpr int kNotOnTheWay = 1'000'000;

/// How many steps lie before each, by answers, by what is done and by waiting. A danger may be told anywhere.
std::vector<int> steps_on_the_way(const Protocol& protocol) {
  std::vector<int> steps(protocol.steps.size(), kNotOnTheWay);
  const Graph graph = graph_of(protocol);
  std::vector<StepId> next{protocol.start};
  for (int far = 0; !next.empty(); ++far) {
    for (const StepId step : next) steps[step.index] = far;
    std::vector<StepId> further;
    for (const Way& way : graph.ways) {
      if (steps[way.from.index] == far && steps[way.to.index] > far + 1) {
        steps[way.to.index] = far + 1;
        further.push_back(way.to);
      }
    }
    next = std::move(further);
  }
  return steps;
}

// What is counted or marked no more, and what is set back now, comes to its limit later or never.
bool loses(const OtherTally& tally) {
  const auto lacks = [](const std::vector<Tally>& all, const Tally& one) {
    return std::find(all.begin(), all.end(), one) == all.end();
  };
  const auto is_lost = [&](const Tally& each) {
    return (each.kind == Tally::Kind::counts || each.kind == Tally::Kind::marks) && lacks(tally.now, each);
  };
  const auto is_new = [&](const Tally& each) { return each.kind == Tally::Kind::resets && lacks(tally.was, each); };
  return std::any_of(tally.was.begin(), tally.was.end(), is_lost) ||
         std::any_of(tally.now.begin(), tally.now.end(), is_new);
}

Ending put_in_as_ending(const PutIn& put_in) { return {Ending::Kind::step, put_in.step, {}}; }

}  // namespace

bool same_limits(const std::vector<Cases>& one, const std::vector<Cases>& other) {
  return std::equal(one.begin(), one.end(), other.begin(), other.end(),
                    [](const Cases& a, const Cases& b) { return a.limits == b.limits; });
}

InUnit::InUnit(const SideBySide& sides, const Space& space, const Space* also)
    : sides_(sides),
      protocol_(sides.both),
      space_(space),
      also_(also),
      diagrams_(space_.sizes()),
      in_step_(walked_in_step(sides, space_, diagrams_)),
      steps_to_(steps_on_the_way(protocol_)) {
  for (const Parting& parting : in_step_.partings) add(difference_of(parting), parting.where, parting.within);
  for (const PutIn& put_in : in_step_.put_in) add(put_in);
  for (const OtherTally& tally : in_step_.tallies) add(tally);
  for (const InStepPair& pair : in_step_.pairs) {
    const std::vector<StepChange> changes = step_changes(sides_, space_, diagrams_, pair, doses_);
    if (!changes.empty()) ++steps_changed_;
    for (const StepChange& change : changes) add(change, pair.entered);
  }
  std::vector<std::size_t> order(found_.size());
  for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return found_[a].difference.soon < found_[b].difference.soon; });
  std::vector<Found> sorted;
  sorted.reserve(found_.size());
  for (const std::size_t i : order) sorted.push_back(std::move(found_[i]));
  found_ = std::move(sorted);
  for (std::size_t i = 0; i < found_.size(); ++i)
    found_[i].soonest = soonest_.try_emplace(was_and_now(found_[i].difference), i).first->second;
}

// What concerns everybody in its place needs no case.
bool InUnit::is_much() const {
  const auto cases =
      std::count_if(found_.begin(), found_.end(), [](const Found& each) { return each.where != each.within; });
  return soonest_.size() > kMostInFull || static_cast<std::size_t>(cases) > kMostCasesInFull;
}

std::vector<Difference> InUnit::first_answers() {
  const auto is_answer = [](const Parting& parting) {
    return parting.occasion.kind == Occasion::Kind::begins || parting.occasion.kind == Occasion::Kind::answers;
  };
  Soon first{kNotOnTheWay, 0};
  for (const Parting& each : in_step_.partings) {
    if (is_answer(each)) first = std::min(first, soon(each.occasion));
  }
  std::set<std::uint16_t> behind;  // of the older version
  for (const Parting& each : in_step_.partings) {
    const bool asks = each.was.kind == Ending::Kind::step && protocol_[each.was.step].actions.empty();
    if (is_answer(each) && soon(each.occasion) == first && asks) behind.insert(each.was.step.index);
  }
  std::vector<std::pair<bool, const Parting*>> told;
  for (const Parting& each : in_step_.partings) {
    const bool is_first = first.first < kNotOnTheWay && soon(each.occasion) == first;
    if (is_answer(each) && (is_first || behind.count(each.occasion.from.was.index) > 0))
      told.emplace_back(!is_first, &each);
  }
  // Along the way, and in each place the worst first; of equals what does least now: nobody wants more of a well child.
  const auto order = [&](const std::pair<bool, const Parting*>& each) {
    const auto& [is_behind, parting] = each;
    const Together& from = parting->occasion.from;
    const Loss loss = loss_in(protocol_, from, parting->was, parting->now);
    return std::tuple(is_behind, from.was.index, turn_of(protocol_, from, parting->was, parting->now),
                      -falls_in(protocol_, from, parting->was, parting->now), -loss.urgency, ~loss.left_out,
                      done_in(protocol_, parting->now));
  };
  std::stable_sort(told.begin(), told.end(), [&](const auto& a, const auto& b) { return order(a) < order(b); });
  std::vector<Difference> all;
  const Diagrams::Set fresh = nothing_counted();  // a place that is come to again late in a night is not meant
  for (const auto& [is_behind, parting] : told) {
    const Diagrams::Set where = diagrams_.both(parting->where, fresh);
    if (where == Diagrams::kNone) continue;
    all.push_back(difference_of(*parting));
    name(all.back(), where, diagrams_.both(parting->within, fresh));
  }
  return all;
}

Diagrams::Set InUnit::nothing_counted() {
  Diagrams::Choices none(space_.variables().size());
  for (std::size_t v = 0; v < none.size(); ++v) {
    const Space::Variable& variable = space_.variables()[v];
    if (variable.subject.kind != Subject::Kind::counter) continue;
    none[v].emplace();
    for (const Stretch& stretch : variable.stretches) none[v]->push_back(stretch.value == 0);
  }
  return diagrams_.within(none);
}

std::vector<Difference> InUnit::in_full() {
  Merged merged;
  for (Found& each : found_) {
    name(each.difference, each.where, each.within);
    merged.add(std::move(each.difference));
  }
  return merged.all();
}

std::vector<Difference> InUnit::by_place() {
  using Key = std::tuple<Difference::Turn, std::string, std::string, std::string>;
  std::map<Key, std::size_t> places;
  std::vector<Found> together;
  for (const Found& each : found_) {
    Found one = each;
    Difference& difference = one.difference;
    if (difference.kind == Difference::Kind::leads) {
      difference.outcomes = {{difference.falls, difference.loss, std::move(difference.now)}};
      difference.now.clear();
      const Difference::Place& at = difference.at.front();
      const auto [place, is_new] =
          places.try_emplace(Key{difference.turn, difference.was, at.occasion, at.step}, together.size());
      if (!is_new) {
        Found& known = together[place->second];
        join(known.difference, difference);
        known.where = diagrams_.either(known.where, one.where);
        known.within = diagrams_.either(known.within, one.within);
        continue;
      }
    }
    together.push_back(std::move(one));
  }
  Merged merged;
  for (Found& each : together) {
    name(each.difference, each.where, each.within);
    merged.add(std::move(each.difference));
  }
  return merged.all();
}

std::vector<Difference> InUnit::in_brief() {
  std::vector<std::size_t> places(found_.size());
  std::vector<Difference> all;
  for (std::size_t i = 0; i < found_.size(); ++i) {
    const Found& each = found_[i];
    if (each.soonest == i) {
      places[i] = all.size();
      all.push_back(each.difference);
    } else {
      join(all[places[each.soonest]], each.difference);
    }
  }
  return all;
}

std::optional<Difference::Soonest> InUnit::soonest_of(const Difference& difference) {
  const auto known = soonest_.find(was_and_now(difference));
  if (known == soonest_.end()) return std::nullopt;
  const Found& found = found_[known->second];
  return Difference::Soonest{found.difference.at.front(),
                             named({plainest_region_of(space_, diagrams_, found.where, found.within)})};
}

Whom InUnit::around_all() {
  std::vector<Diagrams::Set> where, within;
  for (const Found& each : found_) {
    if (each.difference.kind == Difference::Kind::words) continue;
    where.push_back(each.where);
    within.push_back(each.within);
  }
  if (where.empty()) return {};
  return named({region_around(space_, diagrams_, where, within)});
}

InUnit::Soon InUnit::soon(const Occasion& occasion) const {
  if (occasion.kind == Occasion::Kind::begins) return {0, 0};
  return {steps_to_[occasion.from.was.index], static_cast<int>(occasion.kind)};
}

Whom InUnit::named(const std::vector<Diagrams::Choices>& regions) const {
  Whom who{cases_of(space_, regions), {}};
  if (also_ != nullptr) who.regions_mmol = cases_of(*also_, regions);
  if (same_limits(who.regions, who.regions_mmol)) who.regions_mmol.clear();
  return who;
}

void InUnit::name(Difference& difference, Diagrams::Set where, Diagrams::Set within) {
  const Named& known = named(where, within);
  difference.too_many = known.too_many;
  difference.regions = known.who.regions;
  difference.regions_mmol = known.who.regions_mmol;
}

// The same cases come to something else on many occasions.
const InUnit::Named& InUnit::named(Diagrams::Set where, Diagrams::Set within) {
  const auto [found, is_new] = named_.try_emplace({where, within});
  Named& known = found->second;
  if (!is_new) return known;
  auto regions = regions_of(space_, diagrams_, where, within, kMostRegions);
  known.too_many = !regions;
  // What is more than a few is told by the region around all of it, never by none.
  if (!regions) regions.emplace(1, region_around(space_, diagrams_, {where}, {within}));
  known.who = named(*regions);
  return known;
}

void InUnit::add(Difference difference, Diagrams::Set where, Diagrams::Set within) {
  found_.push_back({std::move(difference), where, within});
}

const std::string& InUnit::words(const Ending& ending) {
  if (ending.kind != Ending::Kind::step) return other_words_ = words_of(protocol_, ending);
  std::string& words = step_words_[{ending.step.index, ending.calls}];
  if (words.empty()) words = words_of(protocol_, ending);
  return words;
}

Difference InUnit::difference_of(const Parting& parting) {
  Difference difference{};
  const bool together =
      parting.was.kind == parting.now.kind && parting.was.protocol == parting.now.protocol &&
      (parting.was.kind != Ending::Kind::step || stay_together(sides_, parting.was.step, parting.now.step));
  difference.kind = together ? Difference::Kind::call : Difference::Kind::leads;  // on the way to the same step
  const Together& from = parting.occasion.from;
  difference.turn = turn_of(protocol_, from, parting.was, parting.now);
  difference.at = {place_of(protocol_, parting.occasion)};
  difference.soon = soon(parting.occasion);
  difference.was = words(parting.was);
  difference.now = words(parting.now);
  if (difference.turn == Difference::Turn::calmer)
    difference.falls = falls_in(protocol_, from, parting.was, parting.now);
  if (difference.turn == Difference::Turn::less) difference.left_out = left_out_in(protocol_, parting.was, parting.now);
  if (difference.turn <= Difference::Turn::less) difference.loss = loss_in(protocol_, from, parting.was, parting.now);
  // However urgent it is now: sugar that nobody gives any more is told.
  if (difference.turn == Difference::Turn::graver && loses_a_medicine(protocol_, parting.was, parting.now)) {
    difference.left_out = left_out_in(protocol_, parting.was, parting.now);
    difference.loss = loss_in(protocol_, from, parting.was, parting.now);
  }
  return difference;
}

void InUnit::add(const PutIn& put_in) {
  const Step& step = protocol_[put_in.step];
  if (step.actions.empty() && step.asks.empty()) return;  // nobody sees it
  const bool gone = !sides_.is_now(put_in.step);
  Difference difference{};
  difference.kind = Difference::Kind::put_in;
  difference.turn =
      gone && gives(protocol_, put_in_as_ending(put_in)) ? Difference::Turn::less : Difference::Turn::otherwise;
  difference.at = {place_of(protocol_, put_in.occasion)};
  difference.soon = soon(put_in.occasion);
  if (difference.turn == Difference::Turn::less)
    difference.loss =
        loss_in(protocol_, {put_in.step, put_in.step}, put_in_as_ending(put_in), {Ending::Kind::stays, {}, {}});
  (gone ? difference.was : difference.now) = "first " + words_of(protocol_, put_in_as_ending(put_in));
  add(std::move(difference), put_in.where, put_in.within);
}

// What hangs on it, the gravest: " (at 3: `call-and-treat`, Call the clinic now)".
std::string InUnit::read_in_words(const Tally& tally) const {
  const std::optional<Reader> reader = gravest_reader(protocol_, tally);
  return reader ? " (" + words_of(protocol_, *reader) + ")" : "";
}

const std::string& InUnit::tally_words(const std::vector<Tally>& tally) {
  std::string& text = tally_words_[tally];
  if (!text.empty()) return text;
  std::vector<std::string> words;
  for (const Tally& each : tally) {
    if (each.kind == Tally::Kind::marks)
      words.push_back("marks " + quoted(protocol_.marks[each.index].name) + read_in_words(each));
    if (each.kind == Tally::Kind::counts)
      words.push_back("counts " + quoted(protocol_.counters[each.index].name) + read_in_words(each));
    if (each.kind == Tally::Kind::resets)
      words.push_back("sets " + quoted(protocol_.counters[each.index].name) + " back to 0" + read_in_words(each));
  }
  for (const std::string& word : words) text += (text.empty() ? "" : ", ") + word;
  if (text.empty()) text = "counts nothing";
  return text;
}

// By what hangs on what is counted otherwise; at least as urgent as where it happens.
Urgency InUnit::gravest_lost(const OtherTally& tally) const {
  Urgency gravest = protocol_[tally.occasion.from.was].urgency;
  for (const std::vector<Tally>* all : {&tally.was, &tally.now}) {
    const std::vector<Tally>& other = all == &tally.was ? tally.now : tally.was;
    for (const Tally& each : *all) {
      if (std::find(other.begin(), other.end(), each) != other.end()) continue;
      if (const auto reader = gravest_reader(protocol_, each)) gravest = worst(gravest, protocol_[reader->to].urgency);
    }
  }
  return gravest;
}

void InUnit::add(const OtherTally& tally) {
  Difference difference{};
  difference.kind = Difference::Kind::count;
  difference.turn = loses(tally) ? Difference::Turn::less : Difference::Turn::otherwise;
  if (difference.turn == Difference::Turn::less) difference.loss.urgency = static_cast<int>(gravest_lost(tally));
  difference.at = {place_of(protocol_, tally.occasion)};
  difference.soon = soon(tally.occasion);
  difference.was = tally_words(tally.was);
  difference.now = tally_words(tally.now);
  add(std::move(difference), tally.where, tally.within);
}

void InUnit::add(const StepChange& change, Diagrams::Set entered) {
  const std::string &was = protocol_[change.at.was].name, &now = protocol_[change.at.now].name;
  Difference difference{};
  difference.kind = change.kind;
  difference.turn = change.turn;
  difference.at = {{was == now ? "in" : "in what is " + quoted(now) + " now,", was}};
  difference.soon = {steps_to_[change.at.was.index], 0};
  difference.language = change.language;
  difference.was = change.was;
  difference.now = change.now;
  if (change.turn == Difference::Turn::calmer)
    difference.falls =
        static_cast<int>(protocol_[change.at.was].urgency) - static_cast<int>(protocol_[change.at.now].urgency);
  if (change.turn <= Difference::Turn::less)
    difference.loss.urgency = static_cast<int>(protocol_[change.at.was].urgency);
  add(std::move(difference), change.where, entered);
}

}  // namespace rushlight
