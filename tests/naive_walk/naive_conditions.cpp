#include <limits>

#include "naive_walk.hpp"

namespace rushlight::naive {

namespace {

// Everything a threshold can be compared with becomes one number; what is beyond every number stands at an end.
constexpr std::int64_t kBelowAll = std::numeric_limits<std::int64_t>::min();
constexpr std::int64_t kAboveAll = std::numeric_limits<std::int64_t>::max();

std::int64_t number_of(const Value& value) {
  if (const auto* count = std::get_if<Count>(&value)) return count->number;
  if (const auto* ago = std::get_if<Ago>(&value)) return ago->time.count();
  if (std::holds_alternative<NotLately>(value)) return kAboveAll;  // longer ago than anybody asks about
  if (const auto* age = std::get_if<Age>(&value)) return age->months();
  if (const auto* weight = std::get_if<BodyWeight>(&value)) return weight->in(kKilogram).micros();
  if (const auto* ketones = std::get_if<KetoneReading>(&value)) {
    return ketones->number() ? ketones->number()->in(kMillimolePerLitre).micros() : kAboveAll;
  }
  const auto& glucose = std::get<Glucose>(value);
  if (!glucose.mark()) return glucose.number()->micros();
  return *glucose.mark() == MeterMark::lo ? kBelowAll : kAboveAll;
}

// Glucose is compared in the unit of the reading.
std::int64_t number_of(const Limit& limit, const Value& against) {
  if (const auto* count = std::get_if<int>(&limit)) return *count;
  if (const auto* time = std::get_if<Duration>(&limit)) return time->count();
  if (const auto* age = std::get_if<Age>(&limit)) return age->months();
  if (const auto* weight = std::get_if<BodyWeight>(&limit)) return weight->in(kKilogram).micros();
  if (const auto* ketones = std::get_if<BloodKetones>(&limit)) return ketones->in(kMillimolePerLitre).micros();
  const auto& glucose = std::get<GlucoseLimit>(limit);
  return std::get<Glucose>(against).unit() == GlucoseUnit::mg_per_dl ? glucose.mg_per_dl.micros()
                                                                     : glucose.mmol_per_l.micros();
}

bool lies_between(ClockTime time, ClockTime from, ClockTime up_to) {
  // Walk the clock round, minute by minute, from `from` until `up_to` comes.
  int minute = from.minutes();
  do {
    if (minute == time.minutes()) return true;
    minute = (minute + 1) % (24 * 60);
  } while (minute != up_to.minutes());
  return false;
}

bool holds_child(const Band& band, const Context& context) {
  const bool young_enough = !band.age_up_to || context.age < *band.age_up_to;
  const bool old_enough = !band.age_from || context.age >= *band.age_from;
  bool light_enough = !band.weight_up_to, heavy_enough = !band.weight_from;
  if (context.weight) {
    light_enough = light_enough || *context.weight < *band.weight_up_to;
    heavy_enough = heavy_enough || *context.weight >= *band.weight_from;
  } else {
    light_enough = true;  // the lightest child is below every upper edge
  }
  const ClockTime midnight = ClockTime::of_minutes(0);
  bool at_this_hour = true;
  if (band.clock_from || band.clock_up_to) {
    at_this_hour = lies_between(context.clock, band.clock_from.value_or(midnight), band.clock_up_to.value_or(midnight));
  }
  return young_enough && old_enough && light_enough && heavy_enough && at_this_hour;
}

}  // namespace

Context NaiveWalk::context(Instant now) const {
  const Moment wall{now - lost_, offset_};
  return Context{age_on(child_->birth, local_day_of(wall)), child_->weight, clock_time_of(wall)};
}

const Limit& NaiveWalk::limit(ThresholdId id, Instant now) const {
  const Threshold& threshold = p()[id];
  const Context here = context(now);
  for (const Band& band : threshold.bands) {
    if (holds_child(band, here)) return band.value;
  }
  return threshold.bands.front().value;
}

std::optional<Value> NaiveWalk::value(FactId fact, Instant now) const {
  const auto child_option = [](auto option) { return Value{Chosen{static_cast<std::uint16_t>(option)}}; };
  if (fact == fact_id(ChildFact::age)) return Value{context(now).age};
  if (fact == fact_id(ChildFact::weight)) return child_->weight ? Value{*child_->weight} : Value{CantTell{}};
  if (fact == fact_id(ChildFact::total_daily_dose)) {
    return child_->total_daily_dose ? Value{*child_->total_daily_dose} : Value{CantTell{}};
  }
  if (fact == fact_id(ChildFact::delivery)) return child_option(child_->delivery);
  if (fact == fact_id(ChildFact::strips)) return child_option(child_->strips);
  if (fact == fact_id(ChildFact::rescue)) {
    const Day today = local_day_of(Moment{now - lost_, offset_});
    for (const RescueMedicine& medicine : child_->rescue) {
      if (!medicine.expires || *medicine.expires >= today) return child_option(medicine.kind);
    }
    return child_option(child_->rescue.empty() ? 4 : 3);  // none, expired
  }
  const std::optional<Latest> said = latest(fact);
  if (!said) return std::nullopt;
  if (const auto* ago = std::get_if<Ago>(&said->value)) return Value{Ago{ago->time + (now - said->learned)}};
  return said->value;
}

bool NaiveWalk::holds(const Condition& condition, Instant now, bool unanswered_is_unknown) const {
  if (const auto* compares = std::get_if<Compares>(&condition.test)) {
    const std::optional<Value> known = value(compares->fact, now);
    if (!known || std::holds_alternative<CantTell>(*known)) return false;
    const std::int64_t ours = number_of(*known);
    const std::int64_t border = number_of(limit(compares->limit, now), *known);
    switch (compares->comparison) {
      case Comparison::below:
        return ours < border;
      case Comparison::at_least:
        return ours >= border;
      case Comparison::above:
        return ours > border;
      case Comparison::at_most:
        return ours <= border;
    }
  }
  if (const auto* among = std::get_if<Is>(&condition.test)) {
    const std::optional<Value> known = value(among->fact, now);
    if (!known && !unanswered_is_unknown) return false;
    if (!known || std::holds_alternative<CantTell>(*known)) return (among->options & kUnknownBit) != 0;
    const auto* chosen = std::get_if<Chosen>(&*known);
    return chosen != nullptr && ((among->options >> chosen->option) & 1) != 0;
  }
  if (const auto* counts = std::get_if<CountedAtLeast>(&condition.test)) {
    return counted(counts->counter) >= std::get<int>(limit(counts->limit, now));
  }
  if (const auto* given = std::get_if<WasGiven>(&condition.test)) {
    for (const Line& line : diary_) {
      const auto* did = std::get_if<Did>(&line.what);
      if (did != nullptr && did->action == given->action && was_given(*did)) return true;
    }
    return false;
  }
  const auto& clock = std::get<WithinClock>(condition.test);
  return lies_between(context(now).clock, std::get<ClockTime>(limit(clock.from, now)),
                      std::get<ClockTime>(limit(clock.up_to, now)));
}

bool NaiveWalk::holds(const Conditions& conditions, Instant now, bool unanswered_is_unknown) const {
  for (const Condition& condition : conditions) {
    if (!holds(condition, now, unanswered_is_unknown)) return false;
  }
  return true;
}

std::optional<std::size_t> NaiveWalk::rule(Instant now) const {
  std::optional<std::size_t> found;
  for (std::size_t i = 0; i < step().rules.size(); ++i) {
    const Rule& each = step().rules[i];
    bool matches = holds(each.when, now, true);
    if (each.otherwise) {
      for (const Ask& ask : step().asks) {
        const std::optional<Value> known = value(ask.fact, now);
        matches = matches && known && !std::holds_alternative<CantTell>(*known);
      }
    }
    if (!matches) continue;
    found = i;
    if (!is(Variant::last_rule_wins)) return found;
  }
  return found;
}

/// The first early rule all of whose answers were told in this visit to the step.
std::optional<std::size_t> NaiveWalk::early_rule(Instant now) const {
  if (is(Variant::early_rules_wait_too)) return std::nullopt;
  for (std::size_t i = 0; i < step().rules.size(); ++i) {
    const Rule& each = step().rules[i];
    bool matches = each.early && !each.when.empty() && holds(each.when, now, false);
    for (const Condition& condition : each.when) {
      const auto* among = std::get_if<Is>(&condition.test);
      const auto* compares = std::get_if<Compares>(&condition.test);
      const bool here = among != nullptr ? told_here(among->fact) : compares != nullptr && told_here(compares->fact);
      matches = matches && here;
    }
    if (matches) return i;
  }
  return std::nullopt;
}

/// What the watch reads of what the caregiver says.
std::vector<FactId> NaiveWalk::read_by(const Watch& watch) const {
  std::vector<FactId> facts;
  for (const Condition& condition : watch.when) {
    FactId fact{0};
    if (const auto* compares = std::get_if<Compares>(&condition.test)) fact = compares->fact;
    if (const auto* among = std::get_if<Is>(&condition.test)) fact = among->fact;
    if (fact.index >= kChildFacts) facts.push_back(fact);
  }
  return facts;
}

/// A step that is an emergency, or that does nothing but lead on to one.
bool NaiveWalk::is_dangerous(const Watch& watch) const {
  const Step& there = p()[watch.go];
  if (there.urgency == Urgency::emergency) return true;
  return leads_on_only(there) && there.rules.size() == 1 && p()[there.rules[0].go].urgency == Urgency::emergency;
}

bool NaiveWalk::is_of_the_opening(const Watch& watch) const {
  for (const Ask& ask : p().opening) {
    for (const FactId fact : read_by(watch)) {
      if (ask.fact == fact) return true;
    }
  }
  return false;
}

/// Every question the watch reads was told in this step and led nowhere yet; and no opening question is left, or the
/// watch reads one, or it is a danger.
bool NaiveWalk::is_news(const Watch& watch) const {
  if (is(Variant::old_news_is_news)) return true;
  const bool may = opening_left().empty() || is_dangerous(watch) ||
                   (is_of_the_opening(watch) && !is(Variant::opening_answers_wait));
  if (!may) return false;
  for (const FactId fact : read_by(watch)) {
    if (!told_here(fact) || was_noticed(fact)) return false;
  }
  return true;
}

/// By a watch, since it was told.
bool NaiveWalk::was_noticed(FactId fact) const {
  for (std::size_t i = latest(fact)->line; i < diary_.size(); ++i) {
    const auto* noticed = std::get_if<Noticed>(&diary_[i].what);
    if (noticed != nullptr && noticed->fact == fact) return true;
  }
  return false;
}

std::optional<std::size_t> NaiveWalk::watch(Instant now) const {
  for (std::size_t i = 0; i < p().watch.size(); ++i) {
    bool handled = false;
    for (const WatchId handles : step().handles) handled = handled || handles.index == i;
    if (p().watch[i].told && !is_news(p().watch[i])) continue;
    if (!handled && holds(p().watch[i].when, now, is(Variant::unanswered_fires_watch))) return i;
  }
  return std::nullopt;
}

}  // namespace rushlight::naive
