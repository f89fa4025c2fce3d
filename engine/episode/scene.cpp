#include "episode/scene.hpp"

#include <algorithm>

namespace rushlight {
namespace {

int sign(std::int64_t difference) { return difference < 0 ? -1 : (difference > 0 ? 1 : 0); }

template <class Amount>
int sign_of(Amount a, Amount b) {
  return a < b ? -1 : (b < a ? 1 : 0);
}

/// How a value stands to a limit of its own kind; empty when it has no number ("can't tell") or the kinds differ.
std::optional<int> standing(const Value& value, const Limit& limit) {
  if (const auto* glucose = std::get_if<Glucose>(&value)) {
    const auto* border = std::get_if<GlucoseLimit>(&limit);
    return border ? std::optional<int>(compare(*glucose, *border)) : std::nullopt;
  }
  if (const auto* ketones = std::get_if<KetoneReading>(&value)) {
    const auto* border = std::get_if<BloodKetones>(&limit);
    return border ? std::optional<int>(compare(*ketones, *border)) : std::nullopt;
  }
  if (const auto* count = std::get_if<Count>(&value)) {
    const auto* border = std::get_if<int>(&limit);
    return border ? std::optional<int>(sign(std::int64_t{count->number} - *border)) : std::nullopt;
  }
  if (const auto* ago = std::get_if<Ago>(&value)) {
    const auto* border = std::get_if<Duration>(&limit);
    return border ? std::optional<int>(sign((ago->time - *border).count())) : std::nullopt;
  }
  if (std::holds_alternative<NotLately>(value)) {
    return std::holds_alternative<Duration>(limit) ? std::optional<int>(1) : std::nullopt;
  }
  if (const auto* age = std::get_if<Age>(&value)) {
    const auto* border = std::get_if<Age>(&limit);
    return border ? std::optional<int>(sign_of(*age, *border)) : std::nullopt;
  }
  if (const auto* weight = std::get_if<BodyWeight>(&value)) {
    const auto* border = std::get_if<BodyWeight>(&limit);
    return border ? std::optional<int>(sign_of(*weight, *border)) : std::nullopt;
  }
  return std::nullopt;
}

bool satisfies(int standing, Comparison comparison) {
  switch (comparison) {
    case Comparison::below:
      return standing < 0;
    case Comparison::at_least:
      return standing >= 0;
    case Comparison::above:
      return standing > 0;
    case Comparison::at_most:
      return standing <= 0;
  }
  return false;
}

Value yes_or_no(bool yes) { return Chosen{static_cast<std::uint16_t>(yes ? 0 : 1)}; }

/// A protocol that names no limits for the past sees none.
int counted_from_the_past(const Scene& scene, ChildFact fact) {
  const Part* part = scene.protocol.part_of(scene.episode.step);
  if (part == nullptr || !part->past) return 0;
  const auto* near = std::get_if<Duration>(&value_in(scene.protocol[part->past->near], scene.context));
  const auto* high = std::get_if<GlucoseLimit>(&value_in(scene.protocol[part->past->high], scene.context));
  if (near == nullptr || high == nullptr) return 0;
  if (fact == ChildFact::lows_in_a_day) return lows_in_a_day(scene.episode, scene.protocol, *near, scene.now);
  if (fact == ChildFact::days_low_at_this_hour)
    return days_low_at_this_hour(scene.episode, scene.protocol, *near, scene.now);
  return days_high_at_this_hour(scene.episode, *high, *near, scene.now);
}

std::optional<Value> child_value(const Scene& scene, ChildFact fact) {
  switch (fact) {
    case ChildFact::age:
      return scene.context.age;
    case ChildFact::weight:
      return scene.child.weight ? Value{*scene.child.weight} : Value{CantTell{}};
    case ChildFact::total_daily_dose:
      return scene.child.total_daily_dose ? Value{*scene.child.total_daily_dose} : Value{CantTell{}};
    case ChildFact::delivery:
      return Chosen{static_cast<std::uint16_t>(scene.child.delivery)};
    case ChildFact::rescue:
      return Chosen{rescue_option(scene.child, scene.today)};
    case ChildFact::strips:
      return Chosen{static_cast<std::uint16_t>(scene.child.strips)};
    case ChildFact::mini_dose_kit:
      return yes_or_no(mini_dose_kit(scene.child, scene.today) != nullptr);
    case ChildFact::correction_known:
      return yes_or_no(scene.child.correction_factor.has_value());
    case ChildFact::lows_in_a_day:
    case ChildFact::days_low_at_this_hour:
    case ChildFact::days_high_at_this_hour:
      return Count{counted_from_the_past(scene, fact)};
  }
  return std::nullopt;
}

/// The value of a fact where it is kept, or `made` where it has to be worked out: nothing is copied on the common path.
const Value* look_up(const Scene& scene, FactId fact, std::optional<Value>& made) {
  if (fact.index < kChildFacts) {
    made = child_value(scene, static_cast<ChildFact>(fact.index));
    return made ? &*made : nullptr;
  }
  const std::optional<Known>& known = scene.episode.facts[fact.index];
  if (!known) return nullptr;
  if (const auto* ago = std::get_if<Ago>(&known->value)) {
    made = Ago{ago->time + (scene.now - known->learned)};
    return &*made;
  }
  return &known->value;
}

struct Holds {
  const Scene& scene;
  Unanswered unanswered;

  bool operator()(const Compares& test) const {
    std::optional<Value> made;
    const Value* value = look_up(scene, test.fact, made);
    if (value == nullptr) return false;
    const std::optional<int> where = standing(*value, value_in(scene.protocol[test.limit], scene.context));
    return where && satisfies(*where, test.comparison);
  }
  bool operator()(const Is& test) const {
    std::optional<Value> made;
    const Value* value = look_up(scene, test.fact, made);
    if (value == nullptr) return unanswered == Unanswered::is_cant_tell && (test.options & kUnknownBit) != 0;
    if (std::holds_alternative<CantTell>(*value)) return (test.options & kUnknownBit) != 0;
    const auto* chosen = std::get_if<Chosen>(&*value);
    return chosen != nullptr && (test.options >> chosen->option & 1U) != 0;
  }
  bool operator()(const CountedAtLeast& test) const {
    const Limit& limit = value_in(scene.protocol[test.limit], scene.context);
    const int* border = std::get_if<int>(&limit);
    return border != nullptr && scene.episode.counted[test.counter.index] >= *border;
  }
  bool operator()(const WasGiven& test) const {
    return std::any_of(scene.episode.given.begin(), scene.episode.given.end(), [&](const Given& given) {
      return given.action == test.action && (given.outcome == Outcome::given || given.outcome == Outcome::part);
    });
  }
  bool operator()(const HasChanged& test) const {
    return (test.changes >> static_cast<unsigned>(change_since(scene, test.mark)) & 1U) != 0;
  }
  bool operator()(const WithinClock& test) const {
    const auto* from = std::get_if<ClockTime>(&value_in(scene.protocol[test.from], scene.context));
    const auto* up_to = std::get_if<ClockTime>(&value_in(scene.protocol[test.up_to], scene.context));
    return from != nullptr && up_to != nullptr && within(scene.context.clock, *from, *up_to);
  }
};

bool has_watch(const Part& part, WatchId id) {
  return id.index >= part.first_watch && id.index < part.first_watch + part.watches;
}

/// The watch of the protocol one is in; in a visit the caller's too, unless the visited one has its own of that name.
bool is_live(const Scene& scene, WatchId id) {
  if (scene.protocol.parts.size() < 2) return true;
  const Part* here = scene.protocol.part_of(scene.episode.step);
  if (here == nullptr || has_watch(*here, id)) return true;
  const Part* caller = scene.episode.returns_to ? scene.protocol.part_of(*scene.episode.returns_to) : nullptr;
  if (caller == nullptr || !has_watch(*caller, id)) return false;
  for (std::uint16_t own = here->first_watch; own < here->first_watch + here->watches; ++own) {
    if (scene.protocol.watch[own].name == scene.protocol[id].name) return false;
  }
  return true;
}

bool every_question_is_known(const Scene& scene, const Step& step) {
  return std::all_of(step.asks.begin(), step.asks.end(), [&](const Ask& ask) {
    const std::optional<Value> value = value_of(scene, ask.fact);
    return value && !std::holds_alternative<CantTell>(*value);
  });
}

}  // namespace

const RescueMedicine* mini_dose_kit(const Child& child, Day today) {
  for (const RescueMedicine& medicine : child.rescue) {
    const bool in_date = !medicine.expires || today <= *medicine.expires;
    if (medicine.kind == RescueKind::injection && in_date && medicine.concentration) return &medicine;
  }
  return nullptr;
}

Change change_since(const Scene& scene, MarkId id) {
  const std::optional<Value>& then = scene.episode.marks[id.index];
  const std::optional<Value> now = value_of(scene, scene.protocol[id].fact);
  if (!then || !now) return Change::unknown;
  const auto by = [](auto before, auto after) {
    return after < before ? Change::fallen : before < after ? Change::risen : Change::stayed;
  };
  if (const auto* before = std::get_if<KetoneReading>(&*then)) {
    const auto* after = std::get_if<KetoneReading>(&*now);
    if (after == nullptr || (!before->number() && !after->number())) return Change::unknown;  // HI and HI
    if (!before->number()) return Change::fallen;
    if (!after->number()) return Change::risen;
    return by(*before->number(), *after->number());
  }
  if (const auto* before = std::get_if<Chosen>(&*then)) {
    const auto* after = std::get_if<Chosen>(&*now);
    return after == nullptr ? Change::unknown : by(before->option, after->option);
  }
  if (const auto* before = std::get_if<Count>(&*then)) {
    const auto* after = std::get_if<Count>(&*now);
    return after == nullptr ? Change::unknown : by(before->number, after->number);
  }
  return Change::unknown;
}

std::uint16_t rescue_option(const Child& child, Day today) {
  constexpr std::uint16_t kExpired = 3;
  constexpr std::uint16_t kNone = 4;
  if (child.rescue.empty()) return kNone;
  for (const RescueMedicine& medicine : child.rescue) {
    if (!medicine.expires || today <= *medicine.expires) return static_cast<std::uint16_t>(medicine.kind);
  }
  return kExpired;
}

Moment wall(const EpisodeClock& clock, Instant instant) { return shown_at_offset(instant - clock.lost, clock.offset); }

Scene scene_at(const Protocol& protocol, const Child& child, const Episode& episode, Instant now) {
  const Moment moment = wall(episode.clock, now);
  const Day today = local_day_of(moment);
  return Scene{protocol, child, episode, Context{age_on(child.birth, today), child.weight, clock_time_of(moment)},
               today,    now};
}

std::optional<Value> value_of(const Scene& scene, FactId fact) {
  std::optional<Value> made;
  const Value* value = look_up(scene, fact, made);
  return value != nullptr ? std::optional<Value>(*value) : std::nullopt;
}

bool holds(const Scene& scene, const Condition& condition, Unanswered unanswered) {
  return std::visit(Holds{scene, unanswered}, condition.test);
}

bool all_hold(const Scene& scene, const Conditions& conditions, Unanswered unanswered) {
  return std::all_of(conditions.begin(), conditions.end(),
                     [&](const Condition& condition) { return holds(scene, condition, unanswered); });
}

std::optional<std::uint16_t> first_match(const Scene& scene, const Step& step) {
  for (std::size_t place = 0; place < step.rules.size(); ++place) {
    const Rule& rule = step.rules[place];
    if (!all_hold(scene, rule.when, Unanswered::is_cant_tell)) continue;
    if (!rule.otherwise || every_question_is_known(scene, step)) return static_cast<std::uint16_t>(place);
  }
  return std::nullopt;
}

std::optional<std::uint16_t> watch_that_fires(const Scene& scene, const Step& step) {
  for (std::size_t place = 0; place < scene.protocol.watch.size(); ++place) {
    const WatchId id{static_cast<std::uint16_t>(place)};
    if (std::find(step.handles.begin(), step.handles.end(), id) != step.handles.end()) continue;
    if (!is_live(scene, id)) continue;
    if (all_hold(scene, scene.protocol.watch[place].when, Unanswered::holds_nothing)) return id.index;
  }
  return std::nullopt;
}

}  // namespace rushlight
