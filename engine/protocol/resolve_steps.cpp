#include <algorithm>

#include "protocol/resolve_parts.hpp"

namespace rushlight {

namespace {

// A step of this protocol, another protocol and back to a step of this one, or another protocol for good.
void add_ways(Resolver& resolver, const DraftRule& draft, Rule& rule) {
  const auto name = [&](const MaybeWord& word) {
    if (word && !is_id(word->text)) resolver.error(word->where, BadId{word->text});
    if (word && word->text == resolver.protocol.name)
      resolver.error(word->where, WrongUse{"a protocol cannot go over to itself", "go to a step of it with `go`"});
    return word ? word->text : std::string{};
  };
  rule.visits = name(draft.visit);
  rule.hands_over_to = name(draft.hand_over);
  if (draft.hand_over) {
    refuse(resolver, draft.go, "go", "rule that hands over", {"hand-over"});
    refuse(resolver, draft.visit, "visit", "rule that hands over", {"hand-over"});
    return;
  }
  rule.go = id_or_stand_in<StepId>(needed_place_in(resolver, resolver.steps, draft.go, "go", "rule", draft.where));
}

Rule rule_from(Resolver& resolver, const DraftRule& draft, const Step& step, std::size_t number) {
  Rule rule{};
  rule.name = draft.id ? draft.id->text : step.name + "/" + std::to_string(number);
  rule.where = draft.where;
  rule.otherwise = draft.otherwise;
  rule.early = is_yes(resolver, draft.early, "early");
  rule.when = conditions_from(resolver, draft.when, Readable::everything);
  if (draft.otherwise && !draft.when.empty()) {
    resolver.error(draft.when.front().where, UnknownElement{"if", "rule that takes otherwise", {}});
  }
  add_ways(resolver, draft, rule);
  if (draft.resets) {
    for (const Word& word : split(*draft.resets)) {
      rule.resets.push_back(id_or_stand_in<CounterId>(place_in(resolver, resolver.counters, word)));
    }
  }
  if (draft.sets) {
    for (const Word& word : split(*draft.sets)) {
      rule.sets.push_back(id_or_stand_in<MarkId>(place_in(resolver, resolver.marks, word)));
    }
  }
  rule.source = source_from(resolver, draft.source, "rule", rule.name, draft.where, step.source);
  return rule;
}

// Rule names reach the journal and the view: one name, one rule, whatever the step.
void check_rule_names(Resolver& resolver) {
  Names names{"rule", {}, {}};
  const auto add = [&](const DraftRule& rule) {
    if (!rule.id) return;
    if (!is_id(rule.id->text)) resolver.error(rule.id->where, BadId{rule.id->text});
    if (const auto first = names.find(rule.id->text)) {
      resolver.error(rule.id->where, RepeatedId{rule.id->text, "rule"},
                     Because{"the first rule `" + rule.id->text + "`", names.places[*first]});
    }
    names.names.push_back(rule.id->text);
    names.places.push_back(rule.id->where);
  };
  for (const DraftStep& step : resolver.draft.steps) {
    for (const DraftRule& rule : step.rules) add(rule);
  }
}

bool gives_something(const DraftStep& step) {
  constexpr std::string_view kGiving[] = {"by-mouth", "glucagon", "insulin", "fluid"};
  return std::any_of(step.actions.begin(), step.actions.end(), [&](const DraftAction& action) {
    return action.kind && std::find(std::begin(kGiving), std::end(kGiving), action.kind->text) != std::end(kGiving);
  });
}

// A wait of no time asks at once, and only says what follows when nobody answers. Where something is given it is none:
// the child would be measured before anything can work.
void refuse_no_time(Resolver& resolver, ThresholdId lasts, const Word& word, const DraftStep& step) {
  if (step.asks.empty() || !gives_something(step)) return;
  if (lasts.index >= resolver.protocol.thresholds.size() || resolver.protocol[lasts].name != word.text) return;
  for (const Band& band : resolver.protocol[lasts].bands) {
    const auto* time = std::get_if<Duration>(&band.value);
    if (time == nullptr || *time > Duration{0} || is_told(resolver, band.where)) continue;
    resolver.error(word.where, BadNumber{word.text, "a wait for what was given to work is above zero"},
                   Because{"its value", band.where});
    return;
  }
}

Wait wait_from(Resolver& resolver, const DraftWait& draft, const DraftStep& step) {
  const auto time = [&](const MaybeWord& word, const char* attribute) {
    return needed_threshold(resolver, word, {ThresholdKind::time}, attribute, "wait", draft.where)
        .value_or(ThresholdId{0});
  };
  Wait wait{};
  wait.where = draft.where;
  wait.timer =
      id_or_stand_in<TimerId>(needed_place_in(resolver, resolver.timers, draft.timer, "timer", "wait", draft.where));
  wait.lasts = time(draft.lasts, "lasts");
  if (draft.lasts) refuse_no_time(resolver, wait.lasts, *draft.lasts, step);
  if (draft.insulin_again) wait.insulin_again = time(draft.insulin_again, "insulin-again");
  wait.overdue = time(draft.overdue, "overdue");
  wait.go = id_or_stand_in<StepId>(needed_place_in(resolver, resolver.steps, draft.go, "go", "wait", draft.where));
  if (!draft.after) {
    refuse(resolver, draft.start_within, "start-within", "wait without after",
           {"timer", "lasts", "after", "insulin-again", "overdue", "go"});
    return wait;
  }
  wait.start_within = time(draft.start_within, "start-within");
  Names own{"action of this step", {}, {}};
  for (const DraftAction& action : step.actions) own.names.push_back(action.id ? action.id->text : "");
  if (place_in(resolver, own, draft.after)) {
    wait.after = as_id<ActionId>(resolver.actions.find(draft.after->text));
  }
  return wait;
}

void refuse_in_texts(Resolver& resolver, const DraftStep& step, Filler filler, const Kind& kind) {
  refuse_blank(resolver, step.headline, filler, kind);
  for (const DraftAction& action : step.actions) refuse_blank(resolver, action.text, filler, kind);
}

bool gives_micrograms(const Resolver& resolver, const Step& step) {
  return std::any_of(step.actions.begin(), step.actions.end(), [&](ActionId id) {
    const Action& action = resolver.protocol[id];
    return action.kind == ActionKind::glucagon && action.dose &&
           resolver.protocol[*action.dose].unit == Unit::microgram;
  });
}

Step step_from(Resolver& resolver, const DraftStep& draft, StepId id) {
  Step step{};
  step.name = draft.id ? draft.id->text : "";
  step.where = draft.where;
  const Word* urgency = needed(resolver, draft.urgency, "urgency", "step", draft.where);
  if (urgency != nullptr) {
    step.urgency = static_cast<Urgency>(
        place_in_words(resolver, *urgency, "urgency", words::all_of(words::kUrgencies)).value_or(0));
  }
  step.source = source_from(resolver, draft.source, "step", step.name, draft.where);
  step.headline = text_from(resolver, draft.headline, "headline", draft.where);
  if (draft.handles) {
    for (const Word& word : split(*draft.handles)) {
      step.handles.push_back(id_or_stand_in<WatchId>(place_in(resolver, resolver.watches, word)));
    }
  }
  step.counts = as_id<CounterId>(place_in(resolver, resolver.counters, draft.counts));
  step.ends = is_yes(resolver, draft.ends, "ends");
  step.ends_visit = is_yes(resolver, draft.ends_visit, "ends-visit");
  for (const DraftAction& action : draft.actions) {
    step.actions.push_back(ActionId{static_cast<std::uint16_t>(resolver.protocol.actions.size())});
    resolver.protocol.actions.push_back(action_from(resolver, action, id, step.source));
  }
  doubt_headline(resolver, draft.headline, step);
  if (draft.wait) {
    step.wait = wait_from(resolver, *draft.wait, draft);
    if (draft.wait->after) {
      refuse_in_texts(resolver, draft, Filler::until, UntilBeforeStart{step.name, draft.wait->after->text});
    }
  } else {
    refuse_in_texts(resolver, draft, Filler::until, UntilWithoutWait{step.name, "until"});
    refuse_in_texts(resolver, draft, Filler::again, UntilWithoutWait{step.name, "again"});
  }
  if (!gives_micrograms(resolver, step)) {
    refuse_in_texts(resolver, draft, Filler::syringe_mark,
                    BlankUnfilled{"syringe-mark", "no glucagon of this step is in micrograms",
                                  "add a `<do kind=\"glucagon\">` with a dose in ug"});
  }
  step.asks = asks_from(resolver, draft.asks);
  for (const DraftRule& rule : draft.rules)
    step.rules.push_back(rule_from(resolver, rule, step, step.rules.size() + 1));
  return step;
}

}  // namespace

void resolve_watch(Resolver& resolver) {
  for (const DraftWatch& draft : resolver.draft.watch) {
    Watch watch{};
    watch.name = draft.id ? draft.id->text : "";
    watch.where = draft.where;
    watch.when = conditions_from(resolver, draft.when, Readable::everything);
    watch.told = is_yes(resolver, draft.told, "told");
    const auto go = needed_place_in(resolver, resolver.steps, draft.go, "go", "rule", draft.where);
    watch.go = id_or_stand_in<StepId>(go);
    if (draft.when.empty()) resolver.error(draft.where, MissingElement{"if", "rule"});
    if (draft.also) watch.also = text_from(resolver, *draft.also, "rule", draft.where);
    // Without a source of its own it rests on the source of the step it leads to.
    const bool step_has_one = go && *go < resolver.protocol.steps.size();
    watch.source = source_from(resolver, draft.source, "rule", watch.name, draft.where,
                               step_has_one ? resolver.protocol.steps[*go].source : SourceId{0});
    resolver.protocol.watch.push_back(std::move(watch));
  }
}

void resolve_steps(Resolver& resolver) {
  check_rule_names(resolver);
  for (const DraftStep& draft : resolver.draft.steps) {
    const StepId id{static_cast<std::uint16_t>(resolver.protocol.steps.size())};
    resolver.protocol.steps.push_back(step_from(resolver, draft, id));
  }
}

}  // namespace rushlight
