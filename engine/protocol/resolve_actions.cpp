#include <algorithm>

#include "protocol/resolve_parts.hpp"

namespace rushlight {

namespace {

// What may follow an action of this kind: what it has to cover, and for calls how they went.
std::vector<std::string> outcomes_allowed(ActionKind kind) {
  std::vector<std::string> names;
  for (const Outcome outcome : outcomes_to_cover(kind)) names.emplace_back(name_of(outcome));
  if (is_call(kind)) {
    for (const Outcome outcome : {Outcome::reached, Outcome::no_answer, Outcome::told})
      names.emplace_back(name_of(outcome));
  }
  return names;
}

void add_outcomes(Resolver& resolver, const DraftAction& draft, Action& action) {
  const std::vector<std::string> allowed = outcomes_allowed(action.kind);
  const std::string what = "outcome of " + std::string(name_of(action.kind));
  for (const DraftOutcome& on : draft.outcomes) {
    std::optional<StepId> go;
    if (on.go) {
      refuse(resolver, on.as, "as", "on", {"outcome", "go"});
      go = id_or_stand_in<StepId>(place_in(resolver, resolver.steps, on.go));
    } else if (on.as) {
      place_in_words(resolver, *on.as, "outcome to count as", {"given"});
    } else {
      resolver.error(on.where, MissingAttribute{"go", "on"});
    }
    const Word* outcome = needed(resolver, on.outcome, "outcome", "on", on.where);
    if (outcome == nullptr || !place_in_words(resolver, *outcome, what.c_str(), allowed)) continue;
    auto& rule = action.on[words::place_of(words::kOutcomes, outcome->text).value_or(0)];
    if (rule)
      resolver.error(outcome->where, RepeatedId{outcome->text, "outcome"}, Because{"it is already told", rule->where});
    if (!rule) rule = OutcomeRule{go, on.where};
  }
  for (const Outcome outcome : outcomes_to_cover(action.kind)) {
    if (action.on[static_cast<std::size_t>(outcome)]) continue;
    resolver.error(draft.where,
                   MissingOutcome{action.name, std::string(name_of(action.kind)), std::string(name_of(outcome))});
  }
}

void add_record(Resolver& resolver, const DraftAction& draft, Action& action) {
  if (!draft.records) {
    refuse(resolver, draft.as, "as", "do", {"records"});
    return;
  }
  const auto place = place_in(resolver, resolver.facts, draft.records);
  const Word* as = needed(resolver, draft.as, "as", "do", draft.where);
  if (!place) return;
  const Fact& fact = resolver.protocol.facts[*place];
  if (fact.from_child) {
    resolver.error(draft.records->where, UnknownId{fact.name, "question", {}},
                   Because{"the child file answers `" + fact.name + "`", {}});
  } else if (fact.options.empty()) {
    resolver.error(draft.records->where, WrongFactKind{fact.name, std::string(word_of(fact.kind)), "records"});
  } else if (as != nullptr) {
    const FactId id{*place};
    action.records = Action::Records{id, option_from(resolver, id, *as).value_or(0)};
  }
}

void add_timers(Resolver& resolver, const DraftAction& draft, Action& action) {
  if (draft.starts) {
    const auto timer = place_in(resolver, resolver.timers, draft.starts);
    const auto lasts = needed_threshold(resolver, draft.lasts, {ThresholdKind::time}, "lasts", "do", draft.where);
    action.starts = Action::Starts{id_or_stand_in<TimerId>(timer), lasts.value_or(ThresholdId{0})};
  } else {
    refuse(resolver, draft.lasts, "lasts", "do", {"starts"});
  }
  action.stops = as_id<TimerId>(place_in(resolver, resolver.timers, draft.stops));
}

void add_call(Resolver& resolver, const DraftAction& draft, Action& action) {
  // An insulin dose that is the clinic's to say opens the call to the clinic.
  const bool calls_for_the_dose = action.kind == ActionKind::insulin && (draft.contact || draft.answer_within);
  if (!is_call(action.kind) && !calls_for_the_dose) {
    const std::string element = "do of kind " + std::string(name_of(action.kind));
    refuse(resolver, draft.contact, "contact", element, {"id", "kind", "source"});
    refuse(resolver, draft.answer_within, "answer-within", element, {"id", "kind", "source"});
    return;
  }
  const Word* contact = needed(resolver, draft.contact, "contact", "do", draft.where);
  const auto within =
      needed_threshold(resolver, draft.answer_within, {ThresholdKind::time}, "answer-within", "do", draft.where);
  if (contact == nullptr) return;
  const std::vector<std::string> allowed = action.kind == ActionKind::call_emergency
                                               ? std::vector<std::string>{"emergency"}
                                               : std::vector<std::string>{"clinic", "on-call"};
  if (!place_in_words(resolver, *contact, "contact", allowed)) return;
  const auto place = words::place_of(words::kContacts, contact->text).value_or(0);
  action.call = Action::Call{static_cast<Contact>(place), within.value_or(ThresholdId{0})};
}

bool may_have_dose(ActionKind kind) {
  return kind == ActionKind::by_mouth || kind == ActionKind::glucagon || kind == ActionKind::insulin ||
         kind == ActionKind::fluid;
}

std::vector<Unit> units_of(ActionKind kind) {
  switch (kind) {
    case ActionKind::insulin:
      return {Unit::insulin_unit};
    case ActionKind::glucagon:
      return {Unit::milligram, Unit::microgram};
    case ActionKind::fluid:
      return {Unit::millilitre};
    case ActionKind::by_mouth:
      return {Unit::gram, Unit::millilitre};
    default:
      return {};
  }
}

// What is measured in units of insulin goes by the limits of insulin, and nothing else does.
void refuse_other_unit(Resolver& resolver, const DraftAction& draft, const Action& action) {
  if (!action.dose) return;
  const Dose& dose = resolver.protocol[*action.dose];
  const std::vector<Unit> its_units = units_of(action.kind);
  if (its_units.empty() || std::find(its_units.begin(), its_units.end(), dose.unit) != its_units.end()) return;
  std::string in;
  for (const Unit unit : its_units) in += (in.empty() ? "" : " or ") + std::string(ucum(unit));
  resolver.error(draft.dose->where,
                 WrongUse{"`" + dose.name + "` is in " + std::string(ucum(dose.unit)) + ", which is not how " +
                              std::string(name_of(action.kind)) + " is given",
                          "name a dose in " + in},
                 Because{"the dose", dose.where});
}

}  // namespace

Action action_from(Resolver& resolver, const DraftAction& draft, StepId step, SourceId step_source) {
  const std::size_t found_before = resolver.findings.size();
  Action action{};
  action.name = draft.id ? draft.id->text : "";
  action.where = draft.where;
  action.step = step;
  action.text = text_from(resolver, draft.text, "do", draft.where);
  action.when = conditions_from(resolver, draft.when, Readable::what_is_given);
  action.source = source_from(resolver, draft.source, "do", action.name, draft.where, step_source);
  action.counts = as_id<CounterId>(place_in(resolver, resolver.counters, draft.counts));
  add_record(resolver, draft, action);
  add_timers(resolver, draft, action);
  action.dose = as_id<DoseId>(place_in(resolver, resolver.doses, draft.dose));
  const Word* kind = needed(resolver, draft.kind, "kind", "do", draft.where);
  const auto place = kind == nullptr
                         ? std::nullopt
                         : place_in_words(resolver, *kind, "kind of action", words::all_of(words::kActionKinds));
  if (!place) {
    action.kind = ActionKind::note;  // what its kind asks for cannot be told
    return action;
  }
  action.kind = static_cast<ActionKind>(*place);
  if (!may_have_dose(action.kind)) {
    refuse(resolver, draft.dose, "dose", "do of kind " + kind->text, {"id", "kind", "source"});
  }
  refuse_other_unit(resolver, draft, action);
  add_call(resolver, draft, action);
  add_outcomes(resolver, draft, action);
  if (resolver.findings.size() == found_before) doubt_action(resolver, draft, action);
  return action;
}

}  // namespace rushlight
