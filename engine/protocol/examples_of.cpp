#include "protocol/examples_of.hpp"

#include <algorithm>

#include "protocol/names_of.hpp"

namespace rushlight {

namespace {

/// The longest that an example may go on: calls come up again every few minutes, and each is walked. Common practice, no
/// source.
constexpr Duration kLongest = std::chrono::hours{7 * 24};

std::string text_or_nothing(const MaybeWord& word) { return word ? word->text : std::string{}; }

template <class Enum, std::size_t N>
Enum one_of(const MaybeWord& word, const std::array<std::string_view, N>& words, Enum otherwise) {
  const auto place = word ? words::place_of(words, word->text) : std::nullopt;
  return place ? static_cast<Enum>(*place) : otherwise;
}

Duration time_from(Resolver& resolver, const MaybeWord& word) {
  const std::optional<Limit> limit = word ? limit_from_word(resolver, ThresholdKind::time, *word) : std::nullopt;
  const auto* time = limit ? std::get_if<Duration>(&*limit) : nullptr;
  return time != nullptr ? *time : Duration{0};
}

std::optional<InsulinDose> insulin_from(Resolver& resolver, const MaybeWord& word) {
  const auto quantity = word ? quantity_from_word(resolver, *word, {Unit::insulin_unit}) : std::nullopt;
  return quantity ? std::optional(InsulinDose{quantity->value, kInsulinUnit}) : std::nullopt;
}

std::optional<CorrectionFactor> factor_from(Resolver& resolver, const MaybeWord& word) {
  const auto fall = word ? quantity_from_word(resolver, *word, {Unit::mg_per_dl, Unit::mmol_per_l}) : std::nullopt;
  if (!fall) return std::nullopt;
  const auto unit = fall->unit == Unit::mg_per_dl ? GlucoseUnit::mg_per_dl : GlucoseUnit::mmol_per_l;
  if (fall->value >= least_correction_factor(unit) && fall->value <= greatest_correction_factor(unit))
    return CorrectionFactor{fall->value, unit};
  const auto text = [&](Decimal value) { return text_from_quantity(Quantity{value, fall->unit}); };
  resolver.error(word->where, OutOfRange{"correction-factor", word->text, text(least_correction_factor(unit)),
                                         text(greatest_correction_factor(unit))});
  return std::nullopt;
}

void look_at_ranges(Resolver& resolver, const DraftExampleChild& draft, const ExampleChild& child) {
  if (draft.age && child.age > kOldestChild)
    resolver.error(draft.age->where, OutOfRange{"age", draft.age->text, "", text_from_age(kOldestChild)});
  if (child.weight && (*child.weight < kLightestChild || *child.weight > kHeaviestChild))
    resolver.error(draft.weight->where,
                   OutOfRange{"weight", draft.weight->text, text_from_quantity(kLightestChild.quantity()),
                              text_from_quantity(kHeaviestChild.quantity())});
  const auto& daily = child.total_daily_dose;
  if (daily && (*daily < kLeastDailyDose || *daily > kMostDailyDose))
    resolver.error(draft.total_daily_dose->where, OutOfRange{"total-daily-dose", draft.total_daily_dose->text,
                                                             text_from_quantity(kLeastDailyDose.quantity()),
                                                             text_from_quantity(kMostDailyDose.quantity())});
}

ExampleChild child_from(Resolver& resolver, const DraftExampleChild& draft) {
  ExampleChild child{};
  child.name = text_or_nothing(draft.id);
  if (draft.age) child.age = age_from_word(resolver, *draft.age).value_or(child.age);
  if (draft.weight) child.weight = weight_from_word(resolver, *draft.weight);
  child.total_daily_dose = insulin_from(resolver, draft.total_daily_dose);
  child.insulin_step = insulin_from(resolver, draft.insulin_step);
  child.correction_factor = factor_from(resolver, draft.correction_factor);
  child.delivery = one_of(draft.delivery, words::kDeliveries, Delivery::injections);
  const auto rescue = draft.rescue ? words::place_of(words::kRescueKinds, draft.rescue->text) : std::nullopt;
  if (rescue) child.rescue = static_cast<RescueKind>(*rescue);
  child.rescue_expired = draft.rescue && draft.rescue->text == "expired";
  child.strips = one_of(draft.strips, words::kStrips, Strips::none);
  child.unit = draft.unit && draft.unit->text == "mmol/L" ? GlucoseUnit::mmol_per_l : GlucoseUnit::mg_per_dl;
  child.mini_dose_kit = draft.mini_dose_kit && draft.mini_dose_kit->text == "yes";
  look_at_ranges(resolver, draft, child);
  return child;
}

/// Names, order and numbers that stand in this file alone.
class Alone {
 public:
  Alone(const ExamplesDraft& draft, const std::vector<std::string>& protocols)
      : draft_(draft), protocols_(protocols), resolver_{kNoDraft} {}

  std::vector<Finding> findings() {
    for (const DraftSource& source : draft_.sources) add_name(sources_, "source", source.id);
    for (const DraftExampleChild& child : draft_.children) {
      add_name(children_, "child", child.id);
      child_from(resolver_, child);
    }
    for (const DraftWorkedExample& example : draft_.examples) look_at(example);
    return std::move(resolver_.findings);
  }

 private:
  void add_name(std::vector<Word>& names, const char* what, const MaybeWord& id) {
    if (!id) return;
    for (const Word& name : names) {
      if (name.text == id->text)
        return resolver_.error(id->where, RepeatedId{id->text, what}, Because{"it is named here", name.where});
    }
    names.push_back(*id);
  }

  void look_for(const MaybeWord& word, const char* what, const std::vector<std::string>& known) {
    if (!word || std::find(known.begin(), known.end(), word->text) != known.end()) return;
    resolver_.error(word->where, UnknownId{word->text, what, known});
  }

  static std::vector<std::string> texts_of(const std::vector<Word>& words) {
    std::vector<std::string> texts;
    for (const Word& word : words) texts.push_back(word.text);
    return texts;
  }

  void look_at(const DraftWorkedExample& example) {
    add_name(examples_, "example", example.id);
    look_for(example.source, "source", texts_of(sources_));
    look_for(example.child, "child", texts_of(children_));
    look_for(example.protocol, "protocol", protocols_);
    if (example.begins) clock_from_word(resolver_, *example.begins);
    bool expects = false;
    std::optional<Duration> before;
    for (const DraftMoment& moment : example.moments) {
      const std::size_t told = resolver_.findings.size();
      const Duration after = time_from(resolver_, moment.after);
      if (before && after < *before && told == resolver_.findings.size())
        resolver_.error(moment.after->where, OutOfRange{"after", moment.after->text, text_from_duration(*before), ""});
      if (after > kLongest)
        resolver_.error(moment.after->where, OutOfRange{"after", moment.after->text, "", text_from_duration(kLongest)});
      before = std::max(before.value_or(after), after);
      for (const auto& line : moment.lines) {
        const auto* expect = std::get_if<DraftExpect>(&line);
        if (expect == nullptr) continue;
        expects = true;
        look_at(*expect);
      }
    }
    if (!expects) resolver_.error(example.where, MissingElement{"expect", "example"});
  }

  void look_at(const DraftExpect& expect) {
    if (!expect.step && !expect.urgency && !expect.dose)
      resolver_.error(expect.where, MissingAttribute{"step", "expect"});
    if (expect.dose && !expect.amount && !expect.withheld)
      resolver_.error(expect.where, MissingAttribute{"amount", "expect"});
    for (const MaybeWord& of_dose : {expect.amount, expect.withheld}) {
      if (of_dose && !expect.dose) resolver_.error(expect.where, MissingAttribute{"dose", "expect"});
    }
    if (expect.protocol && !expect.step) resolver_.error(expect.where, MissingAttribute{"step", "expect"});
  }

  const ExamplesDraft& draft_;
  const std::vector<std::string>& protocols_;
  Resolver resolver_;
  std::vector<Word> sources_, children_, examples_;
};

/// The examples of one protocol; what was told of the file alone is not told again.
class OfProtocol {
 public:
  OfProtocol(const ExamplesDraft& draft, const Protocol& whole)
      : draft_(draft), whole_(whole), resolver_(resolver_of(whole)) {}

  Read<std::vector<WorkedExample>> read() {
    std::vector<WorkedExample> examples;
    for (const DraftWorkedExample& example : draft_.examples) {
      if (example.protocol && example.protocol->text == resolver_.protocol.name) add(examples, example);
    }
    if (has_error(resolver_.findings)) return {std::nullopt, std::move(resolver_.findings)};
    return {std::move(examples), std::move(resolver_.findings)};
  }

 private:
  void add(std::vector<WorkedExample>& examples, const DraftWorkedExample& draft) {
    Resolver told{kNoDraft};  // told already
    const auto child = std::find_if(draft_.children.begin(), draft_.children.end(), [&](const DraftExampleChild& each) {
      return each.id && draft.child && each.id->text == draft.child->text;
    });
    if (child == draft_.children.end()) return;
    WorkedExample example{
        text_or_nothing(draft.id), child_from(told, *child), ClockTime::of_minutes(0), {}, draft.where};
    if (draft.begins) example.begins = clock_from_word(told, *draft.begins).value_or(example.begins);
    for (const DraftMoment& moment : draft.moments) {
      ExampleMoment at{time_from(told, moment.after), {}};
      for (const auto& line : moment.lines) {
        if (const auto* expect = std::get_if<DraftExpect>(&line)) {
          at.lines.emplace_back(expectation_from(*expect));
        } else {
          add(at.lines, std::get<DraftHappening>(line));
        }
      }
      example.moments.push_back(std::move(at));
    }
    examples.push_back(std::move(example));
  }

  // Answers that stand together are told together.
  void add(std::vector<ExampleLine>& happens, const DraftHappening& draft) {
    const std::string& kind = draft.kind.text;
    if (kind == "answer" || kind == "worse") {
      const bool worse = kind == "worse";
      const auto fact = place_in(resolver_, resolver_.facts, draft.fact);
      if (!fact || !draft.is) return;
      auto* last = happens.empty() ? nullptr : std::get_if<ExampleAnswers>(&happens.back());
      if (last == nullptr || last->worse != worse) {
        happens.emplace_back(ExampleAnswers{{}, worse});
        last = std::get_if<ExampleAnswers>(&happens.back());
      }
      last->answers.emplace_back(FactId{*fact}, *draft.is);
    } else if (kind == "done") {
      const auto action = place_in(resolver_, resolver_.actions, draft.action);
      if (!action) return;
      ExampleDeed deed{
          ActionId{*action}, one_of(draft.outcome, words::kOutcomes, Outcome::given), {}, draft.kind.where};
      if (draft.amount) deed.amount = amount_from(*draft.amount, whole_[deed.action].dose);
      happens.emplace_back(std::move(deed));
    } else if (kind == "all-done") {
      happens.emplace_back(ExampleAllDone{draft.kind.where});
    } else {
      happens.emplace_back(ExampleCall{one_of(draft.contact, words::kContacts, Contact::clinic),
                                       one_of(draft.outcome, words::kOutcomes, Outcome::reached), draft.kind.where});
    }
  }

  std::optional<Quantity> amount_from(const Word& word, std::optional<DoseId> dose) {
    if (dose) return quantity_from_word(resolver_, word, {resolver_.protocol[*dose].unit});
    return quantity_from_word(resolver_, word,
                              {Unit::gram, Unit::millilitre, Unit::milligram, Unit::microgram, Unit::insulin_unit});
  }

  Expectation expectation_from(const DraftExpect& draft) {
    Expectation expect{draft.protocol, draft.step, draft.dose, draft.withheld, {}, {}, draft.where};
    place_in(resolver_, resolver_.steps, draft.step);
    const auto dose = place_in(resolver_, resolver_.doses, draft.dose);
    look_for_protocol(draft);
    if (draft.urgency)
      expect.urgency = std::pair{one_of(draft.urgency, words::kUrgencies, Urgency::home), draft.urgency->where};
    if (draft.amount && dose) {
      if (const auto amount = amount_from(*draft.amount, DoseId{*dose}))
        expect.amount = std::pair{*amount, draft.amount->where};
    }
    return expect;
  }

  // A step of that protocol.
  void look_for_protocol(const DraftExpect& draft) {
    if (!draft.protocol) return;
    std::vector<std::string> parts, steps;
    for (const Part& part : whole_.parts) {
      parts.push_back(part.name);
      for (std::size_t i = 0; i < part.steps && part.name == draft.protocol->text; ++i)
        steps.push_back(whole_.steps[part.first_step + i].name);
    }
    if (std::find(parts.begin(), parts.end(), draft.protocol->text) == parts.end())
      return resolver_.error(draft.protocol->where, UnknownId{draft.protocol->text, "protocol", parts});
    if (draft.step && std::find(steps.begin(), steps.end(), draft.step->text) == steps.end() &&
        resolver_.steps.find(draft.step->text))
      resolver_.error(draft.step->where, UnknownId{draft.step->text, "step", steps});
  }

  const ExamplesDraft& draft_;
  const Protocol& whole_;
  Resolver resolver_;
};

}  // namespace

std::vector<Finding> examples_findings(const ExamplesDraft& draft, const std::vector<std::string>& protocols) {
  return Alone(draft, protocols).findings();
}

Read<std::vector<WorkedExample>> worked_examples_of(const ExamplesDraft& draft, const Protocol& whole) {
  return OfProtocol(draft, whole).read();
}

}  // namespace rushlight
