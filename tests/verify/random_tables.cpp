#include "tests/verify/random_tables.hpp"

#include "tests/protocol/small_protocol.hpp"

namespace rushlight::tests {

Protocol RandomTables::next() {
  protocol_ = resolved();
  protocol_.thresholds.clear();
  protocol_.doses.clear();  // they name thresholds, and the rules are what is looked at
  protocol_.watch.clear();
  Step step = protocol_.steps.front();
  step.asks.clear();
  step.rules.clear();
  step.handles.clear();
  facts_.clear();
  add_thresholds();
  beside_ = {6 + below(6), 6 + below(6)};
  for (const char* name : {"glucose", "awake", "symptoms"}) {
    if (below(3) == 0 && !(std::string(name) == "glucose" && facts_.empty())) continue;
    const FactId fact = *protocol_.fact_named(name);
    step.asks.push_back(Ask{fact, std::nullopt, {}});
    facts_.push_back(fact);
  }
  const std::size_t rules = 2 + below(5);
  for (std::size_t i = 0; i < rules; ++i) step.rules.push_back(rule(i + 1 == rules));
  if (below(4) == 0) {
    const FactId awake = *protocol_.fact_named("awake");
    protocol_.watch.push_back(Watch{"w", {Condition{Is{awake, 1 + below(7)}, {}}}, StepId{0}, SourceId{0}, {}});
    if (below(3) == 0) step.handles.push_back(WatchId{0});
  }
  for (Step& other : protocol_.steps) other.handles.clear();
  protocol_.steps = {step};
  for (Action& action : protocol_.actions) {  // of steps that are gone
    action.step = StepId{0};
    for (std::optional<OutcomeRule>& rule : action.on) {
      if (rule && rule->go) rule->go = StepId{0};
    }
  }
  return protocol_;
}

void RandomTables::add(ThresholdKind kind, Limit value) {
  Threshold threshold{};
  threshold.name = "t" + std::to_string(protocol_.thresholds.size());
  threshold.kind = kind;
  Band band{};
  band.value = value;
  threshold.bands.push_back(band);
  if (below(5) == 0) split(threshold);
  protocol_.thresholds.push_back(threshold);
}

Limit RandomTables::glucose() {
  const auto value = static_cast<std::int64_t>(60 + 3 * below(4));
  const Decimal mg = Decimal::whole(value);
  // Sometimes a tenth beside it: borders that are one in mg/dL may be two in mmol/L, and the other way round.
  const Decimal beside = Decimal::of_micros(100'000 * (static_cast<std::int64_t>(below(3)) - 1));
  return GlucoseLimit{mg, other_value(mg, GlucoseUnit::mg_per_dl) + beside};
}

// Two bands: by age, weight or clock.
void RandomTables::split(Threshold& threshold) {
  Band second = threshold.bands.front();
  if (threshold.kind == ThresholdKind::glucose) second.value = glucose();
  if (threshold.kind == ThresholdKind::count) second.value = static_cast<int>(1 + below(3));
  Band& first = threshold.bands.front();
  switch (below(3)) {
    case 0:
      first.age_up_to = second.age_from = Age::of_years(6);
      break;
    case 1:
      first.weight_up_to = second.weight_from = BodyWeight{Decimal::whole(25), kKilogram};
      break;
    default:
      first.clock_from = second.clock_up_to = ClockTime::of_minutes(22 * 60);
      first.clock_up_to = second.clock_from = ClockTime::of_minutes(6 * 60);
  }
  threshold.bands.push_back(second);
}

// Places 0 and 1 are glucose, 2 counts, 3 an age, 4 and 5 clock times.
void RandomTables::add_thresholds() {
  add(ThresholdKind::glucose, glucose());
  add(ThresholdKind::glucose, glucose());
  add(ThresholdKind::count, static_cast<int>(1 + below(3)));
  add(ThresholdKind::age, Age::of_years(static_cast<int>(5 + below(3))));
  add(ThresholdKind::clock, ClockTime::of_minutes(22 * 60));
  add(ThresholdKind::clock, ClockTime::of_minutes(static_cast<int>(60 * below(24))));
}

Condition RandomTables::condition() {
  const auto threshold = [](std::uint64_t place) { return ThresholdId{static_cast<std::uint16_t>(place)}; };
  const auto comparison = static_cast<Comparison>(below(4));
  // Each table has two subjects beside its questions, so that its combinations can be tried one by one.
  switch (facts_.empty() || below(3) == 0 ? beside_[below(2)] : 0) {
    case 6:
      return {Compares{fact_id(ChildFact::age), comparison, threshold(3)}, {}};
    case 7:
      return {CountedAtLeast{CounterId{0}, threshold(2)}, {}};
    case 8:
      return {WasGiven{ActionId{0}}, {}};
    case 9:
      return {WithinClock{threshold(4), threshold(5)}, {}};
    case 10:
      return {Is{fact_id(ChildFact::delivery), 1 + below(7)}, {}};
    case 11:
      return {Is{fact_id(ChildFact::weight), kUnknownBit}, {}};
    default:
      break;
  }
  const FactId fact = facts_[below(facts_.size())];
  const std::uint64_t unknown = below(2) == 0 ? kUnknownBit : 0;
  if (protocol_[fact].kind == FactKind::glucose) {
    if (below(4) == 0) return {Is{fact, kUnknownBit}, {}};
    return {Compares{fact, comparison, threshold(below(2))}, {}};
  }
  const std::uint64_t all = (std::uint64_t{1} << protocol_[fact].options.size()) - 1;
  return {Is{fact, (1 + below(all)) | unknown}, {}};
}

Rule RandomTables::rule(bool last) {
  Rule rule{};
  rule.name = "r";
  rule.otherwise = below(last ? 2 : 8) == 0;
  const std::uint64_t count = rule.otherwise ? 0 : below(last ? 2 : 4);
  for (std::uint64_t i = 0; i < count; ++i) rule.when.push_back(condition());
  return rule;
}

}  // namespace rushlight::tests
