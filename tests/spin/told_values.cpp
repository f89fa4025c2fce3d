#include "tests/spin/told_values.hpp"

#include <algorithm>

#include "measure/ketones.hpp"

namespace rushlight::tests {

namespace {

const Subject kAge{Subject::Kind::fact, fact_id(ChildFact::age).index};
const Subject kWeight{Subject::Kind::fact, fact_id(ChildFact::weight).index};
const Subject kClock{Subject::Kind::clock, 0};

// Numbers are micros, months, seconds, minutes or counts; a meter's LO is below all of them and its HI above.
constexpr std::int64_t kLo = -1, kHi = std::int64_t{1} << 60;

struct Numbers {
  std::int64_t grain;           // no number has more places
  std::int64_t least, most;     // that can be told as a number
  bool lo = false, hi = false;  // what lies outside can be told too
};

Numbers numbers_of(FactKind kind, GlucoseUnit unit) {
  constexpr std::int64_t kThousandth = Decimal::kMicrosPerOne / 1'000;
  const MeterRange meter = meter_range(unit);
  switch (kind) {
    case FactKind::glucose:
      return {kThousandth, meter.least.micros(), meter.most.micros(), true, true};
    case FactKind::ketones:
      return {kThousandth, 0, largest_ketones_shown().in(kMillimolePerLitre).micros(), false, true};
    case FactKind::weight:
    case FactKind::insulin:
      return {kThousandth, 0, kHi};
    default:
      return {1, 0, kHi};
  }
}

std::vector<std::int64_t> cut_at(std::vector<std::int64_t> borders, const Numbers& numbers) {
  std::sort(borders.begin(), borders.end());
  std::vector<std::int64_t> cut;
  const auto add = [&](std::int64_t number) {
    if (cut.empty() || cut.back() < number) cut.push_back(number);
  };
  if (numbers.lo) add(kLo);
  if (borders.empty() || borders.front() > numbers.least) add(numbers.least);
  for (std::size_t i = 0; i < borders.size(); ++i) {
    if (borders[i] >= numbers.least && borders[i] <= numbers.most) add(borders[i]);
    const std::int64_t next = std::max(borders[i] + numbers.grain, numbers.least);
    const std::int64_t end = std::min(i + 1 < borders.size() ? borders[i + 1] : kHi, numbers.most + 1);
    if (next < end) add(next);
  }
  if (numbers.hi) add(kHi);
  return cut;
}

struct NumberIn {
  GlucoseUnit unit;
  std::int64_t operator()(const GlucoseLimit& limit) const { return limit.in(unit).micros(); }
  std::int64_t operator()(BloodKetones ketones) const { return ketones.in(kMillimolePerLitre).micros(); }
  std::int64_t operator()(Duration duration) const { return duration.count(); }
  std::int64_t operator()(int count) const { return count; }
  std::int64_t operator()(BodyWeight weight) const { return weight.in(kKilogram).micros(); }
  std::int64_t operator()(Age age) const { return age.months(); }
  std::int64_t operator()(const Quantity& quantity) const { return quantity.value.micros(); }
  std::int64_t operator()(ClockTime time) const { return time.minutes(); }
};

std::vector<ThresholdId> limits_in(const Condition& condition) {
  if (const auto* test = std::get_if<Compares>(&condition.test)) return {test->limit};
  if (const auto* test = std::get_if<CountedAtLeast>(&condition.test)) return {test->limit};
  if (const auto* test = std::get_if<WithinClock>(&condition.test)) return {test->from, test->up_to};
  return {};
}

std::string both_of(const std::string& a, const std::string& b) {
  if (a.empty()) return b.empty() ? "true" : b;
  return b.empty() || b == "true" ? a : a + " && " + b;
}

}  // namespace

std::string promela_name(const Subject& subject) {
  const std::string index = std::to_string(subject.index);
  switch (subject.kind) {
    case Subject::Kind::fact:
      return "f" + index;
    case Subject::Kind::counter:
      return "c" + index;
    case Subject::Kind::done:
      return "d" + index;
    case Subject::Kind::change:
      return "m" + index;
    case Subject::Kind::clock:
      break;
  }
  return "clock";
}

ToldValues::ToldValues(const Protocol& protocol, const Conditions& stays, GlucoseUnit unit,
                       const std::vector<CounterId>& loose)
    : protocol_(protocol), unit_(unit), loose_(loose) {
  read(stays);
  for (const Watch& watch : protocol.watch) read(watch.when);
  for (const Action& action : protocol.actions) read(action.when);
  for (const Step& step : protocol.steps) {
    for (const Rule& rule : step.rules) read(rule.when);
    for (const Ask& ask : step.asks) borders_[{Subject::Kind::fact, ask.fact.index}];
    if (!step.wait) continue;
    read_bands(step.wait->lasts);
    read_bands(step.wait->overdue);
    if (step.wait->start_within) read_bands(*step.wait->start_within);
  }
  cut();
}

std::int64_t ToldValues::number_of(const Limit& limit) const { return std::visit(NumberIn{unit_}, limit); }

void ToldValues::read(const Conditions& conditions) {
  for (const Condition& condition : conditions) {
    std::vector<std::int64_t>& borders = borders_[subject_of(condition)];
    for (const ThresholdId id : limits_in(condition)) {
      for (const Band& band : protocol_[id].bands) borders.push_back(number_of(band.value));
      read_bands(id);
    }
  }
}

void ToldValues::read_bands(ThresholdId id) {
  for (const Band& band : protocol_[id].bands) {
    for (const auto& edge : {band.age_from, band.age_up_to})
      if (edge) borders_[kAge].push_back(edge->months());
    for (const auto& edge : {band.weight_from, band.weight_up_to})
      if (edge) borders_[kWeight].push_back(edge->in(kKilogram).micros());
    for (const auto& edge : {band.clock_from, band.clock_up_to})
      if (edge) borders_[kClock].push_back(edge->minutes());
  }
}

void ToldValues::cut() {
  constexpr std::int64_t kLastMinute = 24 * 60 - 1;
  for (const auto& [subject, borders] : borders_) {
    TellableValues values;
    const auto places = [&](std::size_t count) {
      for (std::size_t i = 0; i < count; ++i) values.numbers.push_back(static_cast<std::int64_t>(i));
    };
    if (subject.kind == Subject::Kind::done) places(2);
    if (subject.kind == Subject::Kind::change) places(4);
    if (subject.kind == Subject::Kind::counter)
      places(static_cast<std::size_t>(std::max<std::int64_t>(0, *std::max_element(borders.begin(), borders.end()))) +
             1);
    if (subject.kind == Subject::Kind::clock) values.numbers = cut_at(borders, {1, 0, kLastMinute + 1});
    if (subject.kind == Subject::Kind::fact) {
      const Fact& fact = protocol_.facts[subject.index];
      if (!fact.options.empty()) {
        places(fact.options.size());
      } else {
        values.numbers = cut_at(borders, numbers_of(fact.kind, unit_));
      }
      values.unknown = !fact.from_child || fact.kind == FactKind::weight || fact.kind == FactKind::insulin;
    }
    values_[subject] = std::move(values);
  }
}

bool ToldValues::is_told(const Subject& subject) const {
  const auto is_this = [&](CounterId id) { return id.index == subject.index; };
  if (subject.kind == Subject::Kind::counter) return std::any_of(loose_.begin(), loose_.end(), is_this);
  return subject.kind != Subject::Kind::done;
}

std::string ToldValues::is_one_of(const Subject& subject, const std::vector<bool>& places) const {
  if (std::find(places.begin(), places.end(), false) == places.end()) return "true";
  const bool told = is_told(subject);
  const std::string name = promela_name(subject);
  std::string truth;
  for (std::size_t i = 0; i < places.size(); ++i) {
    if (places[i]) truth += (truth.empty() ? "" : " || ") + name + " == " + std::to_string(i + (told ? 1 : 0));
  }
  return truth.empty() ? "false" : "(" + truth + ")";
}

std::vector<ToldValues::Picked> ToldValues::choices_of_bands(const std::vector<ThresholdId>& thresholds) const {
  std::vector<Picked> choices{{}};
  for (const ThresholdId id : thresholds) {
    std::vector<Picked> more;
    for (const Picked& some : choices) {
      for (const Band& band : protocol_[id].bands) {
        more.push_back(some);
        more.back().push_back(&band);
      }
    }
    choices = std::move(more);
  }
  return choices;
}

std::string ToldValues::truth_of_bands(const Picked& picked) const {
  std::string truth;
  const auto between = [&](const Subject& subject, std::optional<std::int64_t> from, std::optional<std::int64_t> up_to,
                           bool passes_midnight) {
    if (!from && !up_to) return;
    const TellableValues& values = values_.at(subject);
    std::vector<bool> places;
    for (const std::int64_t number : values.numbers) {
      const bool after = !from || number >= *from, before = !up_to || number < *up_to;
      places.push_back(passes_midnight ? after || before : after && before);
    }
    // Whose weight nobody knows is taken for the lightest.
    if (values.unknown) places.push_back(!from || *from <= 0);
    truth = both_of(truth, is_one_of(subject, places));
  };
  for (const Band* band : picked) {
    const auto months = [](const std::optional<Age>& age) {
      return age ? std::optional<std::int64_t>(age->months()) : std::nullopt;
    };
    const auto micros = [](const std::optional<BodyWeight>& weight) {
      return weight ? std::optional<std::int64_t>(weight->in(kKilogram).micros()) : std::nullopt;
    };
    const auto minutes = [](const std::optional<ClockTime>& time) {
      return time ? std::optional<std::int64_t>(time->minutes()) : std::nullopt;
    };
    between(kAge, months(band->age_from), months(band->age_up_to), false);
    between(kWeight, micros(band->weight_from), micros(band->weight_up_to), false);
    const auto from = minutes(band->clock_from), up_to = minutes(band->clock_up_to);
    between(kClock, from, up_to, from && up_to && *from >= *up_to);
  }
  return truth.empty() ? "true" : truth;
}

bool ToldValues::holds(const Condition& condition, const Picked& limits, const TellableValues& values,
                       std::size_t place) const {
  const bool unknown = place == values.numbers.size();
  if (const auto* test = std::get_if<Is>(&condition.test)) {
    if (unknown) return (test->options & kUnknownBit) != 0;
    return !protocol_[test->fact].options.empty() && (test->options >> place & 1U) != 0;
  }
  if (unknown) return false;
  if (const auto* test = std::get_if<HasChanged>(&condition.test)) return (test->changes >> place & 1U) != 0;
  if (std::holds_alternative<WasGiven>(condition.test)) return place == 1;
  const std::int64_t number = values.numbers[place], limit = number_of(limits.front()->value);
  if (std::holds_alternative<CountedAtLeast>(condition.test)) return number >= limit;
  if (std::holds_alternative<WithinClock>(condition.test)) {
    const std::int64_t up_to = number_of(limits.back()->value);
    return limit < up_to ? number >= limit && number < up_to : number >= limit || number < up_to;
  }
  switch (std::get<Compares>(condition.test).comparison) {
    case Comparison::below:
      return number < limit;
    case Comparison::at_least:
      return number >= limit;
    case Comparison::above:
      return number > limit;
    case Comparison::at_most:
      break;
  }
  return number <= limit;
}

std::string ToldValues::truth_of(const Condition& condition) const {
  const Subject subject = subject_of(condition);
  const TellableValues& values = values_.at(subject);
  std::string truth;
  for (const Picked& picked : choices_of_bands(limits_in(condition))) {
    std::vector<bool> places;
    for (std::size_t i = 0; i < values.count(); ++i) places.push_back(holds(condition, picked, values, i));
    const std::string one = both_of(truth_of_bands(picked), is_one_of(subject, places));
    truth += (truth.empty() ? "(" : " || (") + one + ")";
  }
  return "(" + truth + ")";
}

std::string ToldValues::is_known(const Subject& subject) const {
  std::vector<bool> places(values_.at(subject).numbers.size(), true);
  if (values_.at(subject).unknown) places.push_back(false);
  return is_one_of(subject, places);
}

std::vector<Subject> ToldValues::bands_read_by(const std::vector<ThresholdId>& thresholds) const {
  bool age = false, weight = false, clock = false;
  for (const ThresholdId id : thresholds) {
    for (const Band& band : protocol_[id].bands) {
      age = age || band.age_from || band.age_up_to;
      weight = weight || band.weight_from || band.weight_up_to;
      clock = clock || band.clock_from || band.clock_up_to;
    }
  }
  std::vector<Subject> read;
  if (age) read.push_back(kAge);
  if (weight) read.push_back(kWeight);
  if (clock) read.push_back(kClock);
  return read;
}

std::vector<Subject> ToldValues::read_by(const Condition& condition) const {
  std::vector<Subject> read = bands_read_by(limits_in(condition));
  const Subject subject = subject_of(condition);
  if (std::find(read.begin(), read.end(), subject) == read.end()) read.push_back(subject);
  return read;
}

std::vector<ToldValues::Times> ToldValues::times_of(const std::vector<ThresholdId>& times) const {
  std::vector<Times> all;
  for (const Picked& picked : choices_of_bands(times)) {
    Times each{truth_of_bands(picked), {}};
    for (const Band* band : picked) each.seconds.push_back(number_of(band->value));
    all.push_back(std::move(each));
  }
  return all;
}

}  // namespace rushlight::tests
