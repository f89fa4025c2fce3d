#include "verify/answering.hpp"

#include <algorithm>
#include <set>

#include "verify/step_parts.hpp"

namespace rushlight {
namespace {

constexpr int kMostTries = 4000;  // of one search for answers; no table of a step needs a tenth of it

struct FactOf {
  const Protocol& protocol;
  std::optional<FactId> operator()(const Compares& test) const { return test.fact; }
  std::optional<FactId> operator()(const Is& test) const { return test.fact; }
  std::optional<FactId> operator()(const HasChanged& test) const { return protocol[test.mark].fact; }
  std::optional<FactId> operator()(const CountedAtLeast&) const { return std::nullopt; }
  std::optional<FactId> operator()(const WasGiven&) const { return std::nullopt; }
  std::optional<FactId> operator()(const WithinClock&) const { return std::nullopt; }
};

// The limit as the number that a value of its kind is made of.
struct Border {
  GlucoseUnit unit;
  std::int64_t operator()(const GlucoseLimit& limit) const { return limit.in(unit).micros(); }
  std::int64_t operator()(BloodKetones limit) const { return limit.in(kMillimolePerLitre).micros(); }
  std::int64_t operator()(Duration limit) const { return limit.count(); }
  std::int64_t operator()(int limit) const { return limit; }
  std::int64_t operator()(BodyWeight) const { return 0; }
  std::int64_t operator()(Age) const { return 0; }
  std::int64_t operator()(const Quantity&) const { return 0; }
  std::int64_t operator()(ClockTime) const { return 0; }
};

std::set<std::int64_t> borders_of(const Protocol& protocol, FactId fact, const Context& context, GlucoseUnit unit) {
  std::set<std::int64_t> borders;
  each_leading_condition(protocol, [&](const Condition& condition) {
    const auto* test = std::get_if<Compares>(&condition.test);
    if (test == nullptr || !(test->fact == fact)) return;
    borders.insert(std::visit(Border{unit}, value_in(protocol[test->limit], context)));
  });
  return borders;
}

// One number below, between, above and on each border, in steps that a person would say.
std::vector<std::int64_t> numbers_around(const std::set<std::int64_t>& borders, std::int64_t least,
                                         std::int64_t grain) {
  std::set<std::int64_t> numbers;
  for (auto border = borders.begin(); border != borders.end(); ++border) {
    const auto next = std::next(border);
    numbers.insert(*border);
    if (*border - grain >= least) numbers.insert(*border - grain);
    const std::int64_t middle =
        next == borders.end() ? *border + grain : *border + (*next - *border) / 2 / grain * grain;
    if (middle > *border) numbers.insert(middle);
  }
  if (numbers.empty()) numbers.insert(least);
  return {numbers.begin(), numbers.end()};
}

}  // namespace

std::optional<FactId> fact_of(const Protocol& protocol, const Condition& condition) {
  return std::visit(FactOf{protocol}, condition.test);
}

std::vector<Value> values_to_tell(const Protocol& protocol, FactId id, const Context& context, GlucoseUnit unit) {
  const Fact& fact = protocol[id];
  std::vector<Value> values;
  const auto add_numbers = [&](std::int64_t least, std::int64_t grain, const auto& value_from) {
    const std::set<std::int64_t> borders = borders_of(protocol, id, context, unit);
    for (const std::int64_t number : numbers_around(borders, least, grain)) values.push_back(value_from(number));
  };
  switch (fact.kind) {
    case FactKind::choice:
    case FactKind::ordered_choice:
      for (std::size_t i = 0; i < fact.options.size(); ++i) values.push_back(Chosen{static_cast<std::uint16_t>(i)});
      break;
    case FactKind::count:
      add_numbers(0, 1, [](std::int64_t number) { return Value{Count{static_cast<int>(number)}}; });
      break;
    case FactKind::glucose: {
      const bool whole = unit == GlucoseUnit::mg_per_dl;
      add_numbers(meter_range(unit).least.micros(), whole ? 1'000'000 : 100'000,
                  [&](std::int64_t number) { return Value{Glucose::reading(Decimal::of_micros(number), unit)}; });
      break;
    }
    case FactKind::ketones:
      add_numbers(0, 100'000, [](std::int64_t number) {
        return Value{KetoneReading::reading(BloodKetones{Decimal::of_micros(number), kMillimolePerLitre})};
      });
      break;
    case FactKind::time_since:
      add_numbers(0, 60, [](std::int64_t number) { return Value{Ago{Duration{number}}}; });
      values.push_back(NotLately{});
      break;
    case FactKind::age:
    case FactKind::weight:
    case FactKind::insulin:
      return {};  // the child file's
  }
  values.push_back(CantTell{});
  return values;
}

Answering::Answering(const Protocol& protocol, const Child& child, const Episode& episode, Instant now,
                     std::vector<FactId> questions)
    : protocol_(protocol),
      now_(now),
      questions_(std::move(questions)),
      tried_(episode),
      scene_(scene_at(protocol, child, tried_, now)) {
  for (const FactId fact : questions_) values_.push_back(values_to_tell(protocol, fact, scene_.context, child.unit));
}

std::size_t Answering::decided_at(const Conditions& conditions) const {
  std::size_t last = 0;
  for (const Condition& condition : conditions) {
    const std::optional<FactId> fact = fact_of(protocol_, condition);
    for (std::size_t i = 0; fact && i < questions_.size(); ++i) {
      if (questions_[i] == *fact) last = std::max(last, i + 1);
    }
  }
  return last;
}

std::optional<Answers> Answering::find(const Wanted& wanted, const std::optional<std::pair<FactId, Value>>& fixed) {
  wanted_ = &wanted;
  fixed_ = fixed ? &*fixed : nullptr;
  tries_ = 0;
  unwanted_.clear();
  for (const Conditions* each : wanted.not_as_rules)
    unwanted_.push_back({each, Unanswered::is_cant_tell, decided_at(*each)});
  for (const Conditions* each : wanted.not_as_watch)
    unwanted_.push_back({each, Unanswered::holds_nothing, decided_at(*each)});
  if (!descend(0)) return std::nullopt;
  Answers answers;
  for (const FactId fact : questions_) answers.emplace_back(fact, tried_.facts[fact.index]->value);
  return answers;
}

bool Answering::descend(std::size_t question) {
  if (++tries_ > kMostTries) return false;
  for (const List& list : unwanted_) {
    if (list.decided_at == question && all_hold(scene_, *list.conditions, list.unanswered)) return false;
  }
  for (const Condition& condition : *wanted_->all) {
    if (decided_at({condition}) == question && !holds(scene_, condition, Unanswered::is_cant_tell)) return false;
  }
  if (question == questions_.size()) return true;
  const FactId fact = questions_[question];
  for (const Value& value : values_[question]) {
    if (fixed_ != nullptr && fixed_->first == fact && !(fixed_->second == value)) continue;
    if (wanted_->everything_known && std::holds_alternative<CantTell>(value)) continue;
    tried_.facts[fact.index] = Known{value, now_, tried_.events + 1, false};
    if (descend(question + 1)) return true;
  }
  tried_.facts[fact.index].reset();
  return false;
}

}  // namespace rushlight
