#include "episode/scene.hpp"

#include <algorithm>

#include "episode/dose_result.hpp"
#include "episode/fold.hpp"

namespace rushlight {
namespace {

/// What is known of a fact, and how long ago it was said; no value when nobody has answered. Nothing is copied here: a
/// rule table asks for the same few facts again and again.
struct Said {
  const Value* value;
  Duration ago;
};

Said said_of(const Scene& scene, FactId fact) {
  if (fact.index < kChildFacts) return {&scene.child_facts[fact.index], Duration{0}};
  const std::optional<Known>& known = scene.episode.facts[fact.index];
  return known ? Said{&known->value, scene.now - known->learned} : Said{nullptr, Duration{0}};
}

template <class Number>
bool satisfies(Number number, Comparison comparison, Number border) {
  switch (comparison) {
    case Comparison::below:
      return number < border;
    case Comparison::at_least:
      return number >= border;
    case Comparison::above:
      return number > border;
    case Comparison::at_most:
      return number <= border;
  }
  return false;
}

/// Whether a value compares so with a limit of its own kind: never without a number ("can't tell"), nor with another kind.
struct ComparesSo {
  Comparison comparison;
  const Limit& limit;
  Duration since_said;

  template <class Number>
  bool with(Number number) const {
    const auto* border = std::get_if<Number>(&limit);
    return border != nullptr && satisfies(number, comparison, *border);
  }
  template <class Border, class Reading>
  bool reading_with(const Reading& reading) const {
    const auto* border = std::get_if<Border>(&limit);
    return border != nullptr && satisfies(compare(reading, *border), comparison, 0);
  }

  bool operator()(const Glucose& glucose) const { return reading_with<GlucoseLimit>(glucose); }
  bool operator()(const KetoneReading& ketones) const { return reading_with<BloodKetones>(ketones); }
  bool operator()(Count count) const { return with(count.number); }
  bool operator()(Ago ago) const { return with(ago.time + since_said); }
  bool operator()(NotLately) const { return with(Duration::max()); }  // longer ago than every limit
  bool operator()(Age age) const { return with(age); }
  bool operator()(BodyWeight weight) const { return with(weight); }
  bool operator()(CantTell) const { return false; }
  bool operator()(Chosen) const { return false; }
  bool operator()(InsulinDose) const { return false; }
};

bool is_in_date(const RescueMedicine& medicine, Day today) { return !medicine.expires || today <= *medicine.expires; }

/// The kits in date, by kind, in the order of the child file.
std::vector<std::uint16_t> kits_in_date(const Child& child, Day today) {
  std::vector<std::uint16_t> kinds;
  for (const RescueMedicine& medicine : child.rescue) {
    if (is_in_date(medicine, today)) kinds.push_back(static_cast<std::uint16_t>(medicine.kind));
  }
  return kinds;
}

std::uint16_t first_kit(const Child& child, Day today) {
  constexpr std::uint16_t kExpired = 3;
  constexpr std::uint16_t kNone = 4;
  if (child.rescue.empty()) return kNone;
  for (const RescueMedicine& medicine : child.rescue) {
    if (is_in_date(medicine, today)) return static_cast<std::uint16_t>(medicine.kind);
  }
  return kExpired;
}

bool reads_rescue(const Dose& dose) {
  return std::any_of(dose.rows.begin(), dose.rows.end(), [](const DoseRow& row) {
    return std::any_of(row.when.begin(), row.when.end(), [](const Condition& condition) {
      const auto* is = std::get_if<Is>(&condition.test);
      return is != nullptr && is->fact == fact_id(ChildFact::rescue);
    });
  });
}

/// Of several kits the first that can be given: a kit for older children must not hide one for this child.
void choose_kit(Scene& scene) {
  if (scene.child.rescue.size() < 2) return;
  const std::vector<std::uint16_t> kinds = kits_in_date(scene.child, scene.today);
  if (kinds.size() < 2) return;
  Value& rescue = scene.child_facts[fact_id(ChildFact::rescue).index];
  for (const std::uint16_t kind : kinds) {
    rescue = Chosen{kind};
    for (const Action& action : scene.protocol.actions) {
      if (action.kind != ActionKind::glucagon || !action.dose || !reads_rescue(scene.protocol[*action.dose])) continue;
      if (dose_for(scene, *action.dose, Language::en).amount) return;
    }
  }
  rescue = Chosen{kinds.front()};
}

Value yes_or_no(bool yes) { return Chosen{static_cast<std::uint16_t>(yes ? 0 : 1)}; }

std::array<Value, kChildFacts> child_facts_of(const Child& child, Age age, Day today) {
  std::array<Value, kChildFacts> facts;  // "can't tell" where nothing is put
  const auto put = [&](ChildFact fact, const Value& value) { facts[fact_id(fact).index] = value; };
  put(ChildFact::age, age);
  if (child.weight) put(ChildFact::weight, *child.weight);
  if (child.total_daily_dose) put(ChildFact::total_daily_dose, *child.total_daily_dose);
  put(ChildFact::delivery, Chosen{static_cast<std::uint16_t>(child.delivery)});
  put(ChildFact::rescue, Chosen{first_kit(child, today)});
  put(ChildFact::strips, Chosen{static_cast<std::uint16_t>(child.strips)});
  put(ChildFact::mini_dose_kit, yes_or_no(mini_dose_kit(child, today) != nullptr));
  put(ChildFact::correction_known, yes_or_no(child.correction_factor.has_value()));
  for (const ChildFact past : kPastFacts) put(past, Count{0});
  return facts;
}

/// What this night has come through; and what the journal and it count, where the step's protocol says what counts.
void add_past(Scene& scene) {
  const bool came_from_another = scene.episode.visit || scene.episode.handed_over;
  scene.child_facts[fact_id(ChildFact::protocols_before).index] = Count{came_from_another ? 1 : 0};
  const Part* part = scene.protocol.part_of(scene.episode.step);
  if (part == nullptr || !part->past) return;
  const auto* near = std::get_if<Duration>(&value_in(scene.protocol[part->past->near], scene.context));
  const auto* high = std::get_if<GlucoseLimit>(&value_in(scene.protocol[part->past->high], scene.context));
  if (near == nullptr || high == nullptr) return;
  const auto put = [&](ChildFact fact, int count) { scene.child_facts[fact_id(fact).index] = Count{count}; };
  put(ChildFact::lows_in_a_day, lows_in_a_day(scene.episode, scene.protocol, *near, scene.now));
  put(ChildFact::days_low_at_this_hour, days_low_at_this_hour(scene.episode, scene.protocol, *near, scene.now));
  put(ChildFact::days_high_at_this_hour, days_high_at_this_hour(scene.episode, *high, *near, scene.now));
}

struct Holds {
  const Scene& scene;
  Unanswered unanswered;

  bool operator()(const Compares& test) const {
    const Said said = said_of(scene, test.fact);
    const Limit& limit = value_in(scene.protocol[test.limit], scene.context);
    return said.value != nullptr && std::visit(ComparesSo{test.comparison, limit, said.ago}, *said.value);
  }
  bool operator()(const Is& test) const {
    const Said said = said_of(scene, test.fact);
    if (said.value == nullptr) return unanswered == Unanswered::is_cant_tell && (test.options & kUnknownBit) != 0;
    if (std::holds_alternative<CantTell>(*said.value)) return (test.options & kUnknownBit) != 0;
    const auto* chosen = std::get_if<Chosen>(said.value);
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

bool asks(const std::vector<Ask>& questions, FactId fact) {
  return std::any_of(questions.begin(), questions.end(), [&](const Ask& ask) { return ask.fact == fact; });
}

bool has_watch(const Part& part, WatchId id) {
  return id.index >= part.first_watch && id.index < part.first_watch + part.watches;
}

/// While opening questions are open nothing is news but their own answers and a danger: whether the child wakes comes
/// first. What led to a visit is news to the protocol that is visited, and no more to the one that goes there.
bool is_news(const Scene& scene, const Part* here, WatchId id) {
  const Episode& episode = scene.episode;
  const Watch& watch = scene.protocol[id];
  const bool of_the_caller = here != nullptr && episode.visit && !has_watch(*here, id);
  for (const Condition& condition : watch.when) {
    const std::optional<FactId> fact = question_in(scene.protocol, condition);
    if (!fact) continue;
    if (!is_told_since(episode, *fact, episode.entered) || episode.facts[fact->index]->noticed) return false;
    if (of_the_caller && episode.facts[fact->index]->told_by <= episode.visit->begun_by) return false;
  }
  return episode.opening.empty() || reads_the_opening(scene.protocol, watch) || leads_to_danger(scene.protocol, watch);
}

/// `here` is the part that the episode stands in; null where the protocol is of one piece.
bool is_live_in(const Scene& scene, const Part* here, WatchId id) {
  if (here == nullptr || has_watch(*here, id)) return true;
  if (!scene.episode.visit) return false;
  const Step& from = scene.protocol[scene.episode.visit->from];
  const Part* caller = scene.protocol.part_of(scene.episode.visit->from);
  if (caller == nullptr || !has_watch(*caller, id)) return false;
  if (std::find(from.handles.begin(), from.handles.end(), id) != from.handles.end()) return false;
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
    if (medicine.kind == RescueKind::injection && is_in_date(medicine, today) && medicine.concentration)
      return &medicine;
  }
  return nullptr;
}

bool reads_the_opening(const Protocol& protocol, const Watch& watch) {
  return std::any_of(watch.when.begin(), watch.when.end(), [&](const Condition& condition) {
    const std::optional<FactId> fact = question_in(protocol, condition);
    return fact && asks(protocol.opening, *fact);
  });
}

bool only_leads_on(const Step& step) { return step.asks.empty() && step.actions.empty() && !step.wait; }

bool leads_to_danger(const Protocol& protocol, const Watch& watch) {
  const Step& step = protocol[watch.go];
  const bool on = only_leads_on(step) && step.rules.size() == 1 && !step.rules.front().enters;
  return step.urgency == Urgency::emergency || (on && protocol[step.rules.front().go].urgency == Urgency::emergency);
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
    const Change change = by(*before->number(), *after->number());
    const std::optional<ThresholdId>& over = scene.protocol[id].rise_over;
    const auto* noise = over ? std::get_if<BloodKetones>(&value_in(scene.protocol[*over], scene.context)) : nullptr;
    const auto number = [](BloodKetones value) { return value.in(kMillimolePerLitre); };
    const bool by_chance = noise != nullptr && number(*after->number()) <= number(*before->number()) + number(*noise);
    return change == Change::risen && by_chance ? Change::stayed : change;
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

std::uint16_t rescue_option(const Scene& scene) {
  return std::get<Chosen>(scene.child_facts[fact_id(ChildFact::rescue).index]).option;
}

std::uint16_t rescue_option(const Protocol& protocol, const Child& child, Moment at) {
  const Episode beginning = begun(protocol, child, at);
  return rescue_option(scene_at(protocol, child, beginning, at.utc));
}

Moment wall(const EpisodeClock& clock, Instant instant) { return shown_at_offset(instant - clock.lost, clock.offset); }

Scene scene_at(const Protocol& protocol, const Child& child, const Episode& episode, Instant now) {
  const Moment moment = wall(episode.clock, now);
  const Day today = local_day_of(moment);
  const Age age = age_on(child.birth, today);
  Scene scene{protocol, child, episode, Context{age, child.weight, clock_time_of(moment)},
              today,    now,   child_facts_of(child, age, today)};
  add_past(scene);
  choose_kit(scene);
  return scene;
}

std::optional<Value> value_of(const Scene& scene, FactId fact) {
  const Said said = said_of(scene, fact);
  if (said.value == nullptr) return std::nullopt;
  if (const auto* ago = std::get_if<Ago>(said.value)) return Ago{ago->time + said.ago};
  return *said.value;
}

bool holds(const Scene& scene, const Condition& condition, Unanswered unanswered) {
  return std::visit(Holds{scene, unanswered}, condition.test);
}

bool all_hold(const Scene& scene, const Conditions& conditions, Unanswered unanswered) {
  for (const Condition& condition : conditions) {
    if (!holds(scene, condition, unanswered)) return false;
  }
  return true;
}

std::optional<std::uint16_t> first_match(const Scene& scene, const Step& step) {
  std::uint16_t place = 0;
  for (const Rule& rule : step.rules) {
    const bool matches = all_hold(scene, rule.when, Unanswered::is_cant_tell);
    if (matches && (!rule.otherwise || every_question_is_known(scene, step))) return place;
    ++place;
  }
  return std::nullopt;
}

std::optional<FactId> question_in(const Protocol& protocol, const Condition& condition) {
  std::optional<FactId> fact;
  if (const auto* compares = std::get_if<Compares>(&condition.test)) fact = compares->fact;
  if (const auto* is = std::get_if<Is>(&condition.test)) fact = is->fact;
  return fact && !protocol[*fact].from_child ? fact : std::nullopt;
}

bool is_told_since(const Episode& episode, FactId fact, Instant since) {
  const std::optional<Known>& known = episode.facts[fact.index];
  if (!known || known->told_by < episode.entered_by || known->used) return false;
  return known->told_again.value_or(known->learned) >= since;
}

std::vector<WatchId> watches_met(const Scene& scene, const Step& step) {
  std::vector<WatchId> met;
  for (const WatchId id : step.handles) {
    const Watch& watch = scene.protocol[id];
    if (&scene.protocol[watch.go] != &step && all_hold(scene, watch.when, Unanswered::holds_nothing)) met.push_back(id);
  }
  return met;
}

bool is_live(const Scene& scene, WatchId id) {
  if (scene.protocol.parts.size() < 2) return true;
  return is_live_in(scene, scene.protocol.part_of(scene.episode.step), id);
}

std::optional<std::uint16_t> watch_that_fires(const Scene& scene, const Step& step) {
  const Part* here = scene.protocol.parts.size() < 2 ? nullptr : scene.protocol.part_of(scene.episode.step);
  for (std::size_t place = 0; place < scene.protocol.watch.size(); ++place) {
    const WatchId id{static_cast<std::uint16_t>(place)};
    const Watch& watch = scene.protocol.watch[place];
    if (watch.told && !is_news(scene, here, id)) continue;
    // Hardly a watch holds: whether it counts here is asked of those alone.
    if (!all_hold(scene, watch.when, Unanswered::holds_nothing)) continue;
    if (std::find(step.handles.begin(), step.handles.end(), id) == step.handles.end() && is_live_in(scene, here, id))
      return id.index;
  }
  return std::nullopt;
}

}  // namespace rushlight
