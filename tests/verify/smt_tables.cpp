#include "tests/verify/smt_tables.hpp"

#include <algorithm>
#include <map>

#include "measure/ketones.hpp"
#include "protocol/words.hpp"

namespace rushlight::tests {

namespace {

// Numbers are in thousandths, the finest that a meter, a scale or a file has; ages in months, times in seconds.
constexpr const char* kLo = "(- 1)";
constexpr const char* kHi = "1000000000";

std::string call(const std::string& what, const std::string& a, const std::string& b) {
  return "(" + what + " " + a + " " + b + ")";
}
std::string no(const std::string& a) { return "(not " + a + ")"; }
std::string all_of(const std::vector<std::string>& parts) {
  std::string text = "(and true";
  for (const std::string& part : parts) text += " " + part;
  return text + ")";
}
std::string any_of(const std::vector<std::string>& parts) {
  std::string text = "(or false";
  for (const std::string& part : parts) text += " " + part;
  return text + ")";
}
std::string choose(const std::string& which, const std::string& yes, const std::string& otherwise) {
  return "(ite " + which + " " + yes + " " + otherwise + ")";
}
std::string number(std::int64_t value) { return std::to_string(value); }
std::string thousandths(Decimal value) { return number(value.micros() / 1'000); }

std::string value_of(FactId fact) { return "v" + std::to_string(fact.index); }
std::string known(FactId fact) { return "k" + std::to_string(fact.index); }
std::string count_of(CounterId counter) { return "c" + std::to_string(counter.index); }
std::string given(ActionId action) { return "d" + std::to_string(action.index); }
std::string change_of(MarkId mark) { return "g" + std::to_string(mark.index); }

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

namespace {

std::vector<std::string> words_in(const std::string& text, const std::string& between) {
  std::vector<std::string> words;
  std::size_t from = 0;
  for (std::size_t at = 0; (at = text.find(between, from)) != std::string::npos; from = at + between.size())
    words.push_back(text.substr(from, at - from));
  words.push_back(text.substr(from));
  return words;
}

template <class Thing>
std::optional<std::size_t> place_named(const std::vector<Thing>& things, const std::string& name) {
  for (std::size_t i = 0; i < things.size(); ++i) {
    if (things[i].name == name) return i;
  }
  return std::nullopt;
}

std::optional<std::int64_t> thousandths_in(const std::string& text) {
  const auto read = decimal_from_text(text);
  const auto* value = std::get_if<Decimal>(&read);
  if (value == nullptr) return std::nullopt;
  return value->micros() / 1'000;
}

// "4 years", "2 years 6 months", "under 1 month"
std::optional<std::int64_t> months_of(const std::vector<std::string>& words) {
  if (words == std::vector<std::string>{"under", "1", "month"}) return 0;
  std::int64_t months = 0;
  for (std::size_t i = 0; i < words.size(); i += 2) {
    const auto count = thousandths_in(words[i]);
    if (!count || i + 1 == words.size()) return std::nullopt;
    const std::string& unit = words[i + 1];
    if (unit == "year" || unit == "years") {
      months += *count / 1'000 * 12;
    } else if (unit == "month" || unit == "months") {
      months += *count / 1'000;
    } else {
      return std::nullopt;
    }
  }
  return months;
}

std::optional<std::int64_t> seconds_of(const std::string& text) {
  const auto read = quantity_from_text(text);
  const auto* quantity = std::get_if<Quantity>(&read);
  const auto duration = quantity != nullptr ? duration_from_quantity(*quantity) : std::nullopt;
  if (!duration) return std::nullopt;
  return duration->count();
}

class Part {
 public:
  Part(const Protocol& protocol, const std::string& text)
      : protocol_(protocol), text_(text), words_(words_in(text, " ")) {}

  std::optional<std::string> truth() const {
    if (const std::size_t colon = text_.find(": "); colon != std::string::npos)
      return answer(text_.substr(0, colon), text_.substr(colon + 2));
    if (words_.size() == 2 && words_[0] == "at") return clock(words_[1]);
    if (words_.size() == 4 && words_[0] == "counter") return counter(words_[1], words_[3]);
    if (words_.back() == "given") return was_given(words_.front(), words_.size() == 2);
    if (words_.size() > 2 && words_[1] == "has") return change(words_.back());
    return measured();
  }

 private:
  std::optional<FactId> fact_named(const std::string& name) const { return protocol_.fact_named(name); }

  std::optional<std::string> answer(const std::string& name, const std::string& said) const {
    const auto fact = fact_named(name);
    if (!fact) return std::nullopt;
    if (said == "can't tell") return no(known(*fact));
    const auto option = place_named(protocol_[*fact].options, said);
    if (!option) return std::nullopt;
    return all_of({known(*fact), call("=", value_of(*fact), number(static_cast<std::int64_t>(*option)))});
  }

  std::optional<std::string> clock(const std::string& time) const {
    const auto read = clock_time_from_text(time);
    if (!read) return std::nullopt;
    return call("=", "clock", number(read->minutes()));
  }

  std::optional<std::string> counter(const std::string& name, const std::string& at) const {
    const auto place = place_named(protocol_.counters, name);
    if (!place) return std::nullopt;
    return call("=", count_of(CounterId{static_cast<std::uint16_t>(*place)}), at);
  }

  std::optional<std::string> was_given(const std::string& name, bool yes) const {
    const auto place = place_named(protocol_.actions, name);
    if (!place) return std::nullopt;
    const std::string truth = given(ActionId{static_cast<std::uint16_t>(*place)});
    return yes ? truth : no(truth);
  }

  std::optional<std::string> change(const std::string& mark) const {
    const auto place = place_named(protocol_.marks, mark);
    if (!place) return std::nullopt;
    const auto which = words::place_of(words::kChanges, words_[2]);
    return call("=", change_of(MarkId{static_cast<std::uint16_t>(*place)}),
                number(which ? static_cast<std::int64_t>(*which) : 3));
  }

  std::optional<std::string> measured() const {
    const auto fact = fact_named(words_.front());
    if (!fact || words_.size() < 2) return std::nullopt;
    const FactKind kind = protocol_[*fact].kind;
    std::vector<std::string> truths{known(*fact)};
    std::optional<std::int64_t> value;
    if (words_[1] == "LO" || words_[1] == "HI") {
      truths.push_back(call("=", value_of(*fact), words_[1] == "LO" ? kLo : kHi));
      return all_of(truths);
    }
    if (kind == FactKind::age) {
      value = months_of({words_.begin() + 1, words_.end()});
    } else if (kind == FactKind::time_since) {
      value = seconds_of(text_.substr(words_.front().size() + 1));
    } else {
      value = thousandths_in(words_[1]);
      if (value && kind == FactKind::count) *value /= 1'000;
      if (kind == FactKind::glucose) truths.push_back(words_.back() == "mg/dL" ? "mg" : no("mg"));
    }
    if (!value) return std::nullopt;
    truths.push_back(call("=", value_of(*fact), number(*value)));
    return all_of(truths);
  }

  const Protocol& protocol_;
  const std::string& text_;
  std::vector<std::string> words_;
};

}  // namespace

std::optional<std::string> smt_from_example(const Protocol& protocol, const std::string& example) {
  std::vector<std::string> truths;
  if (example == "any answer") return "true";
  for (const std::string& part : words_in(example, ", ")) {
    const auto truth = Part(protocol, part).truth();
    if (!truth) return std::nullopt;
    truths.push_back(*truth);
  }
  return all_of(truths);
}

namespace {

// A region names numbers as the model keeps them; here they are in thousandths, or whole.
std::string in_interval(const std::string& value, const Interval& interval, bool in_micros) {
  const auto bound = [&](std::int64_t border) { return number(in_micros ? border / 1'000 : border); };
  std::vector<std::string> parts;
  if (interval.from) parts.push_back(call(interval.with_from ? ">=" : ">", value, bound(*interval.from)));
  if (interval.up_to) parts.push_back(call(interval.with_up_to ? "<=" : "<", value, bound(*interval.up_to)));
  return all_of(parts);
}

std::string in_limit(const Protocol& protocol, const CaseLimit& limit) {
  const std::uint16_t index = limit.subject.index;
  std::string value, is_known = "true";
  bool in_micros = false;
  switch (limit.subject.kind) {
    case Subject::Kind::clock:
      value = "clock";
      break;
    case Subject::Kind::counter:
      value = count_of(CounterId{index});
      break;
    case Subject::Kind::done:
      value = choose(given(ActionId{index}), "1", "0");
      break;
    case Subject::Kind::change:
      value = change_of(MarkId{index});
      break;
    case Subject::Kind::fact: {
      const FactKind kind = protocol.facts[index].kind;
      value = value_of(FactId{index});
      is_known = known(FactId{index});
      in_micros = kind == FactKind::glucose || kind == FactKind::ketones || kind == FactKind::weight ||
                  kind == FactKind::insulin;
      break;
    }
  }
  std::vector<std::string> values;
  for (const Interval& each : limit.intervals) values.push_back(in_interval(value, each, in_micros));
  for (const std::uint16_t option : limit.options) values.push_back(call("=", value, number(option)));
  const std::string told = all_of({is_known, any_of(values)});
  return limit.cant_tell ? any_of({told, no(is_known)}) : told;
}

}  // namespace

std::string smt_from_cases(const Protocol& protocol, const Cases& cases) {
  std::vector<std::string> truths;
  for (const CaseLimit& limit : cases.limits) truths.push_back(in_limit(protocol, limit));
  return all_of(truths);
}

}  // namespace rushlight::tests
