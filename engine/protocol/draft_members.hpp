#pragma once

#include "protocol/draft.hpp"
#include "protocol/examples_draft.hpp"
#include "protocol/safety_draft.hpp"

namespace rushlight::parts {

// The members of everything a draft is made of, in the order in which they stand. For whoever goes through all of a
// draft: to write it down (wire/draft_model), or to move its places (read/moved_places). A binding names every member,
// so that one more in a struct does not compile until it stands here.

template <class Way>
void go(Way& way, Word& word) {
  auto& [text, where] = word;
  way(text, where);
}
template <class Way>
void go(Way& way, DraftText::Line& line) {
  auto& [language, text] = line;
  way(language, text);
}
template <class Way>
void go(Way& way, DraftText& text) {
  auto& [where, lines] = text;
  way(where, lines);
}
template <class Way>
void go(Way& way, DraftCondition& condition) {
  auto& [where, fact, counter, done, clock_from, clock_up_to, change, is, below, at_least, above, at_most] = condition;
  way(where, fact, counter, done, clock_from, clock_up_to, change, is, below, at_least, above, at_most);
}
template <class Way>
void go(Way& way, DraftSource& source) {
  auto& [where, id, publisher, year, title, place, common_practice, from_memory] = source;
  way(where, id, publisher, year, title, place, common_practice, from_memory);
}
template <class Way>
void go(Way& way, DraftBand& band) {
  auto& [where, age_from, age_up_to, weight_from, weight_up_to, clock_from, clock_up_to, value, mg_dl, mmol_l] = band;
  way(where, age_from, age_up_to, weight_from, weight_up_to, clock_from, clock_up_to, value, mg_dl, mmol_l);
}
template <class Way>
void go(Way& way, DraftThreshold& threshold) {
  auto& [where, kind, id, value, mg_dl, mmol_l, least, most, source, pair_exception, bands, label, note] = threshold;
  way(where, kind, id, value, mg_dl, mmol_l, least, most, source, pair_exception, bands, label, note);
}
template <class Way>
void go(Way& way, DraftOption& option) {
  auto& [where, id, text] = option;
  way(where, id, text);
}
template <class Way>
void go(Way& way, DraftFact& fact) {
  auto& [where, kind, id, question, help, options] = fact;
  way(where, kind, id, question, help, options);
}
template <class Way>
void go(Way& way, DraftSign& sign) {
  auto& [where, fact, is, text] = sign;
  way(where, fact, is, text);
}
template <class Way>
void go(Way& way, DraftFood& food) {
  auto& [where, kind, unit, carbohydrate, step, source, when, name] = food;
  way(where, kind, unit, carbohydrate, step, source, when, name);
}
template <class Way>
void go(Way& way, DraftRow& row) {
  auto& [where, fixed, per_kg, over, plus, per_year, percent, correction, dose, during, times, larger_of, withheld,
         least, most, most_percent, most_per_kg, source, when, text] = row;
  way(where, fixed, per_kg, over, plus, per_year, percent, correction, dose, during, times, larger_of, withheld,
      least, most, most_percent, most_per_kg, source, when, text);
}
template <class Way>
void go(Way& way, DraftDose& dose) {
  auto& [where, id, unit, round, to, no_stacking, floor, fresh, label, rows] = dose;
  way(where, id, unit, round, to, no_stacking, floor, fresh, label, rows);
}
template <class Way>
void go(Way& way, DraftTimer& timer) {
  auto& [where, id, label] = timer;
  way(where, id, label);
}
template <class Way>
void go(Way& way, DraftCounter& counter) {
  auto& [where, id] = counter;
  way(where, id);
}
template <class Way>
void go(Way& way, DraftMark& mark) {
  auto& [where, id, fact, rise_over] = mark;
  way(where, id, fact, rise_over);
}
template <class Way>
void go(Way& way, DraftHistory& history) {
  auto& [where, low, high, near] = history;
  way(where, low, high, near);
}
template <class Way>
void go(Way& way, DraftFluids& fluids) {
  auto& [where, hourly] = fluids;
  way(where, hourly);
}
template <class Way>
void go(Way& way, DraftApprovedFile& approved_file) {
  auto& [where, name, sha256] = approved_file;
  way(where, name, sha256);
}
template <class Way>
void go(Way& way, DraftApproval& approval) {
  auto& [where, by, role, on, until, key, signature, files] = approval;
  way(where, by, role, on, until, key, signature, files);
}
template <class Way>
void go(Way& way, DraftRule& rule) {
  auto& [where, id, go, resets, source, early, sets, visit, hand_over, otherwise, when] = rule;
  way(where, id, go, resets, source, early, sets, visit, hand_over, otherwise, when);
}
template <class Way>
void go(Way& way, DraftWatch& watch) {
  auto& [where, id, go, source, told, when, also] = watch;
  way(where, id, go, source, told, when, also);
}
template <class Way>
void go(Way& way, DraftOutcome& one) {
  auto& [where, outcome, go, as] = one;
  way(where, outcome, go, as);
}
template <class Way>
void go(Way& way, DraftAction& action) {
  auto& [where, id, kind, dose, source, counts, records, as, starts, lasts, stops, contact, answer_within, when, text,
         outcomes] = action;
  way(where, id, kind, dose, source, counts, records, as, starts, lasts, stops, contact, answer_within, when, text,
      outcomes);
}
template <class Way>
void go(Way& way, DraftAsk& ask) {
  auto& [where, fact, fresh] = ask;
  way(where, fact, fresh);
}
template <class Way>
void go(Way& way, DraftWait& wait) {
  auto& [where, timer, lasts, after, start_within, insulin_again, overdue, go] = wait;
  way(where, timer, lasts, after, start_within, insulin_again, overdue, go);
}
template <class Way>
void go(Way& way, DraftStep& step) {
  auto& [where, id, urgency, handles, counts, ends, ends_visit, source, headline, actions, wait, asks, rules] = step;
  way(where, id, urgency, handles, counts, ends, ends_visit, source, headline, actions, wait, asks, rules);
}
template <class Way>
void go(Way& way, Draft& draft) {
  auto& [where, set, id, version, languages, start, weight_fresh, daily_dose_fresh, insulin_doses, approval, title,
         cautions, sources, thresholds, facts, foods, doses, timers, counters, marks, history, fluids, opening, worse,
         watch, steps] = draft;
  way(where, set, id, version, languages, start, weight_fresh, daily_dose_fresh, insulin_doses, approval, title,
      cautions, sources, thresholds, facts, foods, doses, timers, counters, marks, history, fluids, opening, worse,
      watch, steps);
}

template <class Way>
void go(Way& way, DraftNever& never) {
  auto& [where, id, protocol, does, calmer_than, source, when] = never;
  way(where, id, protocol, does, calmer_than, source, when);
}
template <class Way>
void go(Way& way, DraftWithin& within) {
  auto& [where, id, protocol, come_to, at_once, late, source, stays] = within;
  way(where, id, protocol, come_to, at_once, late, source, stays);
}
template <class Way>
void go(Way& way, DraftLook& look) {
  auto& [where, id, protocol, after, urgency, at_least, at_most, source] = look;
  way(where, id, protocol, after, urgency, at_least, at_most, source);
}
template <class Way>
void go(Way& way, DraftMonotone& monotone) {
  auto& [where, id, protocol, fact, worse, source, when] = monotone;
  way(where, id, protocol, fact, worse, source, when);
}
template <class Way>
void go(Way& way, DraftReading& reading) {
  auto& [where, language, grade_at_most, ease_at_least, source] = reading;
  way(where, language, grade_at_most, ease_at_least, source);
}
template <class Way>
void go(Way& way, SafetyDraft& safety_draft) {
  auto& [where, set, approval, sources, never, within, look, monotone, reading] = safety_draft;
  way(where, set, approval, sources, never, within, look, monotone, reading);
}

template <class Way>
void go(Way& way, DraftExampleChild& example_child) {
  auto& [where, id, age, weight, total_daily_dose, insulin_step, correction_factor, delivery, rescue, strips, unit,
         mini_dose_kit] = example_child;
  way(where, id, age, weight, total_daily_dose, insulin_step, correction_factor, delivery, rescue, strips, unit,
      mini_dose_kit);
}
template <class Way>
void go(Way& way, DraftHappening& happening) {
  auto& [kind, fact, is, action, outcome, amount, contact] = happening;
  way(kind, fact, is, action, outcome, amount, contact);
}
template <class Way>
void go(Way& way, DraftExpect& expect) {
  auto& [where, protocol, step, urgency, dose, amount, withheld] = expect;
  way(where, protocol, step, urgency, dose, amount, withheld);
}
template <class Way>
void go(Way& way, DraftMoment& moment) {
  auto& [where, after, lines] = moment;
  way(where, after, lines);
}
template <class Way>
void go(Way& way, DraftWorkedExample& worked_example) {
  auto& [where, id, protocol, child, begins, source, moments] = worked_example;
  way(where, id, protocol, child, begins, source, moments);
}
template <class Way>
void go(Way& way, ExamplesDraft& examples_draft) {
  auto& [where, set, sources, children, examples] = examples_draft;
  way(where, set, sources, children, examples);
}

}  // namespace rushlight::parts
