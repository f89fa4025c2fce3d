#include "tests/verify/smt_tables.hpp"

#include <algorithm>
#include <map>

#include "measure/ketones.hpp"
#include "tests/verify/smt_words.hpp"

namespace rushlight::tests {

using namespace smt;

namespace {

struct LimitNumber {
  std::string operator()(const GlucoseLimit& limit) const {
    return choose("mg", thousandths(limit.mg_per_dl), thousandths(limit.mmol_per_l));
  }
  std::string operator()(BloodKetones limit) const { return thousandths(limit.in(kMillimolePerLitre)); }
  std::string operator()(Duration limit) const { return number(limit.count()); }
  std::string operator()(int limit) const { return number(limit); }
  std::string operator()(BodyWeight limit) const { return thousandths(limit.in(kKilogram)); }
  std::string operator()(Age limit) const { return number(limit.months()); }
  std::string operator()(const Quantity& limit) const { return thousandths(limit.value); }
  std::string operator()(ClockTime limit) const { return number(limit.minutes()); }
};

class Writer {
 public:
  explicit Writer(const Protocol& protocol) : protocol_(protocol) {
    declare("mg", "Bool");
    declare("clock", "Int");
    require(all_of({call("<=", "0", "clock"), call("<", "clock", "1440")}));
    for (std::size_t i = 0; i < protocol.facts.size(); ++i) add_fact(FactId{static_cast<std::uint16_t>(i)});
    for (std::size_t i = 0; i < protocol.counters.size(); ++i) {
      const std::string name = count_of(CounterId{static_cast<std::uint16_t>(i)});
      declare(name, "Int");
      require(call("<=", "0", name));
    }
    for (std::size_t i = 0; i < protocol.actions.size(); ++i)
      declare(given(ActionId{static_cast<std::uint16_t>(i)}), "Bool");
    for (std::size_t i = 0; i < protocol.marks.size(); ++i) {
      const std::string name = change_of(MarkId{static_cast<std::uint16_t>(i)});
      declare(name, "Int");
      require(all_of({call("<=", "0", name), call("<=", name, "3")}));
    }
  }

  void require(const std::string& what) { facts_ += "(assert " + what + ")\n"; }
  std::string all(const Conditions& when) const {
    std::vector<std::string> parts;
    for (const Condition& each : when) parts.push_back(holds(each));
    return all_of(parts);
  }

  SmtTable table(std::string watched) { return {std::move(names_), std::move(facts_), std::move(watched), {}}; }

 private:
  void declare(const std::string& name, const std::string& sort) {
    names_ += "(declare-const " + name + " " + sort + ")\n";
  }

  void add_fact(FactId id) {
    const Fact& fact = protocol_[id];
    const std::string value = value_of(id);
    declare(value, "Int");
    declare(known(id), "Bool");
    const bool may_be_unknown = !fact.from_child || fact.kind == FactKind::weight || fact.kind == FactKind::insulin;
    if (!may_be_unknown) require(known(id));
    const auto from_to = [&](const std::string& least, const std::string& most) {
      return all_of({call("<=", least, value), call("<=", value, most)});
    };
    if (!fact.options.empty()) {
      require(from_to("0", number(static_cast<std::int64_t>(fact.options.size()) - 1)));
    } else if (fact.kind == FactKind::glucose) {
      const MeterRange mg = meter_range(GlucoseUnit::mg_per_dl), mmol = meter_range(GlucoseUnit::mmol_per_l);
      require(any_of({call("=", value, kLo), call("=", value, kHi),
                      choose("mg", from_to(thousandths(mg.least), thousandths(mg.most)),
                             from_to(thousandths(mmol.least), thousandths(mmol.most)))}));
    } else if (fact.kind == FactKind::ketones) {
      require(
          any_of({call("=", value, kHi), from_to("0", thousandths(largest_ketones_shown().in(kMillimolePerLitre)))}));
    } else {
      require(call("<=", "0", value));
    }
  }

  std::string within(const std::string& from, const std::string& up_to) const {
    const std::string after = call("<=", from, "clock"), before = call("<", "clock", up_to);
    return choose(call("=", from, up_to), "true",
                  choose(call("<", from, up_to), all_of({after, before}), any_of({after, before})));
  }

  std::string is_in(const Band& band) const {
    const std::string age = value_of(fact_id(ChildFact::age));
    const std::string weight = choose(known(fact_id(ChildFact::weight)), value_of(fact_id(ChildFact::weight)), "0");
    std::vector<std::string> parts;
    if (band.age_from) parts.push_back(call("<=", number(band.age_from->months()), age));
    if (band.age_up_to) parts.push_back(call("<", age, number(band.age_up_to->months())));
    if (band.weight_from) parts.push_back(call("<=", LimitNumber{}(*band.weight_from), weight));
    if (band.weight_up_to) parts.push_back(call("<", weight, LimitNumber{}(*band.weight_up_to)));
    if (band.clock_from && band.clock_up_to) {
      parts.push_back(within(number(band.clock_from->minutes()), number(band.clock_up_to->minutes())));
    } else if (band.clock_from) {
      parts.push_back(call("<=", number(band.clock_from->minutes()), "clock"));
    } else if (band.clock_up_to) {
      parts.push_back(call("<", "clock", number(band.clock_up_to->minutes())));
    }
    return all_of(parts);
  }

  std::string limit(ThresholdId id) const {
    const std::vector<Band>& bands = protocol_[id].bands;
    std::string text = std::visit(LimitNumber{}, bands.front().value);
    for (auto band = bands.rbegin(); band != bands.rend() && bands.size() > 1; ++band)
      text = choose(is_in(*band), std::visit(LimitNumber{}, band->value), text);
    return text;
  }

  static std::string one_of(const std::string& value, std::uint64_t bits) {
    std::vector<std::string> parts;
    for (int i = 0; i < 63; ++i) {
      if ((bits >> i & 1U) != 0) parts.push_back(call("=", value, number(i)));
    }
    return any_of(parts);
  }

  std::string holds(const Condition& condition) const {
    if (const auto* test = std::get_if<Compares>(&condition.test)) {
      const std::map<Comparison, std::string> kSigns{{Comparison::below, "<"},
                                                     {Comparison::at_least, ">="},
                                                     {Comparison::above, ">"},
                                                     {Comparison::at_most, "<="}};
      return all_of({known(test->fact), call(kSigns.at(test->comparison), value_of(test->fact), limit(test->limit))});
    }
    if (const auto* test = std::get_if<Is>(&condition.test)) {
      const std::string unknown = (test->options & kUnknownBit) != 0 ? no(known(test->fact)) : "false";
      if (protocol_[test->fact].options.empty()) return unknown;
      return any_of({unknown, all_of({known(test->fact), one_of(value_of(test->fact), test->options)})});
    }
    if (const auto* test = std::get_if<CountedAtLeast>(&condition.test))
      return call(">=", count_of(test->counter), limit(test->limit));
    if (const auto* test = std::get_if<WasGiven>(&condition.test)) return given(test->action);
    if (const auto* test = std::get_if<HasChanged>(&condition.test))
      return one_of(change_of(test->mark), test->changes);
    const auto& test = std::get<WithinClock>(condition.test);
    return within(limit(test.from), limit(test.up_to));
  }

  const Protocol& protocol_;
  std::string names_, facts_;
};

bool asked(const Step& step, FactId fact) {
  return std::any_of(step.asks.begin(), step.asks.end(), [&](const Ask& ask) { return ask.fact == fact; });
}

// A watch takes what was just answered before the rules see it, unless the step handles it.
bool watches_here(const Protocol& protocol, const Step& step, WatchId id) {
  if (protocol[id].told) return false;
  if (std::find(step.handles.begin(), step.handles.end(), id) != step.handles.end()) return false;
  const Conditions& when = protocol[id].when;
  return std::all_of(when.begin(), when.end(), [&](const Condition& condition) {
    const auto* is = std::get_if<Is>(&condition.test);
    const auto* compares = std::get_if<Compares>(&condition.test);
    if (is == nullptr && compares == nullptr) return true;
    const FactId fact = is != nullptr ? is->fact : compares->fact;
    return protocol[fact].from_child || asked(step, fact);
  });
}

}  // namespace

SmtTable smt_of(const Protocol& protocol, const Step& step) {
  Writer writer(protocol);
  std::vector<std::string> watched, questions;
  for (std::size_t i = 0; i < protocol.watch.size(); ++i) {
    const WatchId id{static_cast<std::uint16_t>(i)};
    if (watches_here(protocol, step, id)) watched.push_back(writer.all(protocol[id].when));
  }
  for (const Ask& ask : step.asks) questions.push_back(known(ask.fact));
  SmtTable table = writer.table(any_of(watched));
  for (const Rule& rule : step.rules)
    table.rules.push_back(all_of({writer.all(rule.when), rule.otherwise ? all_of(questions) : "true"}));
  return table;
}

SmtTable smt_of(const Protocol& protocol, const Dose& dose) {
  Writer writer(protocol);
  const FactId daily_dose = fact_id(ChildFact::total_daily_dose);
  const auto glucose = protocol.fact_named("glucose");
  if (dose.insulin) {
    // Without a total daily dose or a reading, no table of insulin is looked at.
    writer.require(known(daily_dose));
    if (glucose) writer.require(known(*glucose));
  }
  SmtTable table = writer.table("false");
  for (const DoseRow& row : dose.rows) {
    std::vector<std::string> parts{writer.all(row.when)};
    if (std::holds_alternative<DoseRow::PerKilogram>(row.cell)) {
      parts.push_back(known(fact_id(ChildFact::weight)));
    } else if (std::holds_alternative<DoseRow::OfDailyDose>(row.cell) || row.most_percent) {
      parts.push_back(known(daily_dose));
    }
    if (std::holds_alternative<DoseRow::Correction>(row.cell)) {
      parts.push_back(call("=", value_of(fact_id(ChildFact::correction_known)), "0"));  // yes
      if (glucose) parts.push_back(known(*glucose));
    }
    table.rules.push_back(all_of(parts));
  }
  return table;
}

}  // namespace rushlight::tests
