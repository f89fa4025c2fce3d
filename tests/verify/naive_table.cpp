#include "tests/verify/naive_table.hpp"

#include <algorithm>
#include <map>
#include <optional>

namespace rushlight::tests {

namespace {

// One child at one moment: what a family could answer. A fact without a value is "can't tell".
struct Moment {
  std::map<std::uint16_t, Glucose> glucose;
  std::map<std::uint16_t, std::int64_t> numbers;  // counts, options, age in months, weight in micros
  int counter = 0;
  bool done = false;
  int clock = 0;
};

Context context_of(const Moment& moment) {
  Context context{Age::of_months(0), std::nullopt, ClockTime::of_minutes(moment.clock)};
  const auto age = moment.numbers.find(fact_id(ChildFact::age).index);
  if (age != moment.numbers.end()) context.age = Age::of_months(static_cast<int>(age->second));
  const auto weight = moment.numbers.find(fact_id(ChildFact::weight).index);
  if (weight != moment.numbers.end()) context.weight = BodyWeight{Decimal::of_micros(weight->second), kKilogram};
  return context;
}

// -1, 0 or 1 as the fact is below, at or above the limit; empty for "can't tell".
std::optional<int> against(const Protocol& protocol, const Moment& moment, FactId fact, const Limit& limit) {
  const auto sign = [](std::int64_t a, std::int64_t b) { return a < b ? -1 : a > b ? 1 : 0; };
  if (protocol[fact].kind == FactKind::glucose) {
    const auto reading = moment.glucose.find(fact.index);
    if (reading == moment.glucose.end()) return std::nullopt;
    return compare(reading->second, std::get<GlucoseLimit>(limit));
  }
  const auto number = moment.numbers.find(fact.index);
  if (number == moment.numbers.end()) return std::nullopt;
  if (const auto* count = std::get_if<int>(&limit)) return sign(number->second, *count);
  if (const auto* age = std::get_if<Age>(&limit)) return sign(number->second, age->months());
  return sign(number->second, std::get<BodyWeight>(limit).in(kKilogram).micros());
}

bool holds(const Protocol& protocol, const Moment& moment, const Condition& condition) {
  const auto value = [&](ThresholdId id) { return value_in(protocol[id], context_of(moment)); };
  if (const auto* test = std::get_if<Compares>(&condition.test)) {
    const std::optional<int> order = against(protocol, moment, test->fact, value(test->limit));
    if (!order) return false;
    switch (test->comparison) {
      case Comparison::below:
        return *order < 0;
      case Comparison::at_least:
        return *order >= 0;
      case Comparison::above:
        return *order > 0;
      case Comparison::at_most:
        return *order <= 0;
    }
  }
  if (const auto* test = std::get_if<Is>(&condition.test)) {
    const bool glucose = protocol[test->fact].kind == FactKind::glucose;
    const auto number = moment.numbers.find(test->fact.index);
    const bool known = glucose ? moment.glucose.count(test->fact.index) != 0 : number != moment.numbers.end();
    if (!known) return (test->options & kUnknownBit) != 0;
    if (protocol[test->fact].options.empty()) return false;
    return (test->options & std::uint64_t{1} << number->second) != 0;
  }
  if (const auto* test = std::get_if<CountedAtLeast>(&condition.test))
    return moment.counter >= std::get<int>(value(test->limit));
  if (std::holds_alternative<WasGiven>(condition.test)) return moment.done;
  const auto& test = std::get<WithinClock>(condition.test);
  return within(ClockTime::of_minutes(moment.clock), std::get<ClockTime>(value(test.from)),
                std::get<ClockTime>(value(test.up_to)));
}

bool all_hold(const Protocol& protocol, const Moment& moment, const Conditions& when) {
  return std::all_of(when.begin(), when.end(), [&](const Condition& each) { return holds(protocol, moment, each); });
}

// Every value near which something could change: all borders and edges of the protocol, one step below and above each.
class Values {
 public:
  explicit Values(const Protocol& protocol) : protocol_(protocol) {}

  std::vector<std::int64_t> near(ThresholdKind kind, std::int64_t grain) const {
    std::set<std::int64_t> values{0};
    const auto add = [&](std::int64_t value) {
      for (const std::int64_t each : {value - grain, value, value + grain}) {
        if (each >= 0) values.insert(each);
      }
    };
    // A band holds from its edge on: nothing changes just above it.
    const auto add_edge = [&](std::int64_t value) { values.insert({std::max<std::int64_t>(value - grain, 0), value}); };
    for (const Threshold& threshold : protocol_.thresholds) {
      for (const Band& band : threshold.bands) {
        if (kind == ThresholdKind::count && threshold.kind == kind) add(std::get<int>(band.value));
        if (kind == ThresholdKind::age && threshold.kind == kind) add(std::get<Age>(band.value).months());
        if (kind == ThresholdKind::clock && threshold.kind == kind) add_edge(std::get<ClockTime>(band.value).minutes());
        for (const auto& edge : {band.age_from, band.age_up_to}) {
          if (edge && kind == ThresholdKind::age) add_edge(edge->months());
        }
        for (const auto& edge : {band.weight_from, band.weight_up_to}) {
          if (edge && kind == ThresholdKind::weight) add_edge(edge->in(kKilogram).micros());
        }
        for (const auto& edge : {band.clock_from, band.clock_up_to}) {
          if (edge && kind == ThresholdKind::clock) add_edge(edge->minutes());
        }
      }
    }
    return {values.begin(), values.end()};
  }

  std::vector<Glucose> glucose() const {
    std::vector<Glucose> readings;
    for (const GlucoseUnit unit : {GlucoseUnit::mg_per_dl, GlucoseUnit::mmol_per_l}) {
      std::set<std::int64_t> values;
      for (const Threshold& threshold : protocol_.thresholds) {
        if (threshold.kind != ThresholdKind::glucose) continue;
        for (const Band& band : threshold.bands) {
          const std::int64_t border = std::get<GlucoseLimit>(band.value).in(unit).micros();
          for (const std::int64_t step : {-1'000, 0, 1'000}) values.insert(border + step);
        }
      }
      for (const std::int64_t value : values) readings.push_back(Glucose::reading(Decimal::of_micros(value), unit));
      readings.push_back(Glucose::lo(unit));
      readings.push_back(Glucose::hi(unit));
    }
    return readings;
  }

 private:
  const Protocol& protocol_;
};

// What no rule and no band looks at stays as it is: trying it would only repeat the same combinations.
struct Reads {
  std::set<std::uint16_t> child_facts;
  bool counter = false, clock = false, done = false;
};

void add_bands(const Protocol& protocol, ThresholdId id, Reads& reads) {
  for (const Band& band : protocol[id].bands) {
    if (band.age_from || band.age_up_to) reads.child_facts.insert(fact_id(ChildFact::age).index);
    if (band.weight_from || band.weight_up_to) reads.child_facts.insert(fact_id(ChildFact::weight).index);
    if (band.clock_from || band.clock_up_to) reads.clock = true;
  }
}

Reads what_is_read(const Protocol& protocol) {
  Reads reads;
  const auto add_fact = [&](FactId fact) {
    if (protocol[fact].from_child) reads.child_facts.insert(fact.index);
  };
  for (const Rule& rule : protocol.steps.front().rules) {
    for (const Condition& condition : rule.when) {
      if (const auto* compares = std::get_if<Compares>(&condition.test)) {
        add_fact(compares->fact);
        add_bands(protocol, compares->limit, reads);
      } else if (const auto* is = std::get_if<Is>(&condition.test)) {
        add_fact(is->fact);
      } else if (const auto* counted = std::get_if<CountedAtLeast>(&condition.test)) {
        reads.counter = true;
        add_bands(protocol, counted->limit, reads);
      } else if (const auto* within_clock = std::get_if<WithinClock>(&condition.test)) {
        reads.clock = true;
        add_bands(protocol, within_clock->from, reads);
        add_bands(protocol, within_clock->up_to, reads);
      } else {
        reads.done = true;
      }
    }
  }
  return reads;
}

class Judge {
 public:
  explicit Judge(const Protocol& protocol) : protocol_(protocol), step_(protocol.steps.front()), values_(protocol) {
    for (const Ask& ask : step_.asks) facts_.push_back(ask.fact.index);
    verdict_.rule_matches.assign(step_.rules.size(), false);
    const Reads reads = what_is_read(protocol);
    for (const std::uint16_t child : reads.child_facts) facts_.push_back(child);
    counts_ = reads.counter ? values_.near(ThresholdKind::count, 1) : std::vector<std::int64_t>{0};
    clocks_ = reads.clock ? values_.near(ThresholdKind::clock, 1) : std::vector<std::int64_t>{0};
    dones_ = reads.done ? std::vector<bool>{false, true} : std::vector<bool>{false};
  }

  Verdict judge() {
    choose(0);
    return verdict_;
  }

 private:
  void choose(std::size_t place) {
    if (place == facts_.size()) return choose_frame();
    const std::uint16_t fact = facts_[place];
    const Fact& named = protocol_.facts[fact];
    if (named.kind == FactKind::glucose) {
      for (const Glucose& reading : values_.glucose()) {
        moment_.glucose.insert_or_assign(fact, reading);
        choose(place + 1);
      }
      moment_.glucose.erase(fact);
    } else {
      for (const std::int64_t value : numbers_of(named)) {
        moment_.numbers[fact] = value;
        choose(place + 1);
      }
      moment_.numbers.erase(fact);
    }
    const bool may_be_unknown = !named.from_child || named.kind == FactKind::weight;
    if (may_be_unknown) choose(place + 1);
  }

  std::vector<std::int64_t> numbers_of(const Fact& fact) const {
    if (fact.kind == FactKind::age) return values_.near(ThresholdKind::age, 1);
    if (fact.kind == FactKind::weight) return values_.near(ThresholdKind::weight, 1'000);
    if (fact.kind == FactKind::count) return counts_;
    std::vector<std::int64_t> options;
    for (std::size_t i = 0; i < fact.options.size(); ++i) options.push_back(static_cast<std::int64_t>(i));
    return options;
  }

  void choose_frame() {
    for (const std::int64_t counter : counts_) {
      for (const std::int64_t clock : clocks_) {
        for (const bool done : dones_) {
          moment_.counter = static_cast<int>(counter);
          moment_.clock = static_cast<int>(clock);
          moment_.done = done;
          judge_moment();
        }
      }
    }
  }

  bool is_known(std::uint16_t fact) const { return moment_.glucose.count(fact) + moment_.numbers.count(fact) > 0; }

  void judge_moment() {
    ++verdict_.combinations;
    std::vector<std::uint16_t> unknown;
    for (const std::uint16_t fact : facts_) {
      if (!is_known(fact)) unknown.push_back(fact);
    }
    bool taken = false;
    for (std::size_t i = 0; i < step_.rules.size() && !taken; ++i) {
      const Rule& rule = step_.rules[i];
      const bool all_asked_known =
          std::all_of(step_.asks.begin(), step_.asks.end(), [&](const Ask& ask) { return is_known(ask.fact.index); });
      taken = all_hold(protocol_, moment_, rule.when) && (!rule.otherwise || all_asked_known);
      if (taken) verdict_.rule_matches[i] = true;
    }
    if (taken) return;
    for (std::size_t i = 0; i < protocol_.watch.size(); ++i) {
      const WatchId id{static_cast<std::uint16_t>(i)};
      const bool handled = std::find(step_.handles.begin(), step_.handles.end(), id) != step_.handles.end();
      if (!handled && is_asked(protocol_[id].when) && all_hold(protocol_, moment_, protocol_[id].when)) return;
    }
    verdict_.gap = true;
    if (unknown.empty()) verdict_.gap_when_all_is_known = true;
    if (unknown.size() == 1) verdict_.gap_when_only_this_is_unknown.insert(protocol_.facts[unknown.front()].name);
  }

  // A watch on a fact nobody has answered yet stays silent.
  bool is_asked(const Conditions& when) const {
    return std::all_of(when.begin(), when.end(), [&](const Condition& condition) {
      const auto* test = std::get_if<Is>(&condition.test);
      return test == nullptr || std::find(facts_.begin(), facts_.end(), test->fact.index) != facts_.end();
    });
  }

  const Protocol& protocol_;
  const Step& step_;
  Values values_;
  std::vector<std::uint16_t> facts_;
  std::vector<std::int64_t> counts_, clocks_;
  std::vector<bool> dones_;
  Moment moment_;
  Verdict verdict_;
};

}  // namespace

Verdict naive_verdict(const Protocol& protocol) { return Judge(protocol).judge(); }

}  // namespace rushlight::tests
