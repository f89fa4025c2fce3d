#pragma once

#include "protocol/protocol.hpp"

namespace rushlight::parts {

// The members of everything a protocol is made of, in the order in which they are written. For protocol_model.cpp only.
// A binding names every member, so that one more in a struct does not compile until it stands here.

template <class Way>
void go(Way& way, GlucoseLimit& limit) {
  auto& [mg_per_dl, mmol_per_l] = limit;
  way(mg_per_dl, mmol_per_l);
}
template <class Way>
void go(Way& way, Quantity& quantity) {
  auto& [value, unit] = quantity;
  way(value, unit);
}
template <class Way>
void go(Way& way, Text& text) {
  auto& [line] = text;
  for (Template& one : line) way(one);
}
template <class Way>
void go(Way& way, Source& source) {
  auto& [name, publisher, year, title, place, common_practice, from_memory, where] = source;
  way(name, publisher, year, title, place, common_practice, from_memory, where);
}
template <class Way>
void go(Way& way, Band& band) {
  auto& [age_from, age_up_to, weight_from, weight_up_to, clock_from, clock_up_to, value, where] = band;
  way(age_from, age_up_to, weight_from, weight_up_to, clock_from, clock_up_to, value, where);
}
template <class Way>
void go(Way& way, Range& range) {
  auto& [least, most] = range;
  way(least, most);
}
template <class Way>
void go(Way& way, Threshold& threshold) {
  auto& [name, kind, bands, least, most, label, note, source, where, range] = threshold;
  way(name, kind, bands, least, most, label, note, source, where, range);
}
template <class Way>
void go(Way& way, Option& option) {
  auto& [name, text, where] = option;  // its place is for the check, which has been passed
  way(name, text);
}
template <class Way>
void go(Way& way, Fact& fact) {
  auto& [name, kind, yes_no, from_child, options, question, help, where] = fact;
  way(name, kind, yes_no, from_child, options, question, help, where);
}
template <class Way>
void go(Way& way, Food& food) {
  auto& [kind, name, unit, carbohydrate, step, when, source, where] = food;
  way(kind, name, unit, carbohydrate, step, when, source, where);
}

template <class Way>
void go(Way& way, Compares& compares) {
  auto& [fact, comparison, limit] = compares;
  way(fact, comparison, limit);
}
template <class Way>
void go(Way& way, Is& is) {
  auto& [fact, options] = is;
  way(fact, options);
}
template <class Way>
void go(Way& way, CountedAtLeast& counted) {
  auto& [counter, limit] = counted;
  way(counter, limit);
}
template <class Way>
void go(Way& way, WasGiven& given) {
  auto& [action] = given;
  way(action);
}
template <class Way>
void go(Way& way, WithinClock& clock) {
  auto& [from, up_to] = clock;
  way(from, up_to);
}
template <class Way>
void go(Way& way, HasChanged& changed) {
  auto& [mark, changes] = changed;
  way(mark, changes);
}
template <class Way>
void go(Way& way, Condition& condition) {
  auto& [test, where] = condition;
  way(test, where);
}

template <class Way>
void go(Way& way, DoseRow::Fixed& fixed) {
  auto& [amount, share] = fixed;
  way(amount, share);
}
template <class Way>
void go(Way& way, DoseRow::PerKilogram& per_kilogram) {
  auto& [amount, over, plus] = per_kilogram;
  way(amount, over, plus);
}
template <class Way>
void go(Way& way, DoseRow::PerYear& per_year) {
  auto& [amount] = per_year;
  way(amount);
}
template <class Way>
void go(Way& way, DoseRow::OfDailyDose& of_daily_dose) {
  auto& [percent] = of_daily_dose;
  way(percent);
}
template <class Way>
void go(Way& way, DoseRow::Correction& correction) {
  auto& [target, times] = correction;
  way(target, times);
}
template <class Way>
void go(Way& way, DoseRow::OfDose& of_dose) {
  auto& [dose, during, times] = of_dose;
  way(dose, during, times);
}
template <class Way>
void go(Way& way, DoseRow::LargerOf& larger_of) {
  auto& [one, other] = larger_of;
  way(one, other);
}
template <class Way>
void go(Way& way, DoseRow::Withheld& withheld) {
  auto& [reason] = withheld;
  way(reason);
}
template <class Way>
void go(Way& way, DoseRow& row) {
  auto& [cell, least, most, most_percent, most_per_kg, when, source, where] = row;
  way(cell, least, most, most_percent, most_per_kg, when, source, where);
}
template <class Way>
void go(Way& way, InsulinLimits& limits) {
  auto& [no_stacking, floor, fresh] = limits;
  way(no_stacking, floor, fresh);
}
template <class Way>
void go(Way& way, Dose& dose) {
  auto& [name, label, unit, round, to, insulin, rows, where] = dose;
  way(name, label, unit, round, to, insulin, rows, where);
}

template <class Way>
void go(Way& way, Timer& timer) {
  auto& [name, label, where] = timer;
  way(name, label, where);
}
template <class Way>
void go(Way& way, Counter& counter) {
  auto& [name, where] = counter;
  way(name, where);
}
template <class Way>
void go(Way& way, Mark& mark) {
  auto& [name, fact, rise_over, where] = mark;
  way(name, fact, rise_over, where);
}
template <class Way>
void go(Way& way, Ask& ask) {
  auto& [fact, fresh, where] = ask;
  way(fact, fresh, where);
}
template <class Way>
void go(Way& way, Sign& sign) {
  auto& [fact, option, text, where] = sign;
  way(fact, option, text, where);
}
template <class Way>
void go(Way& way, Watch& watch) {
  auto& [name, when, to, source, where, also, told] = watch;
  way(name, when, to, source, where, also, told);
}

template <class Way>
void go(Way& way, OutcomeRule& rule) {
  auto& [to, where] = rule;
  way(to, where);
}
template <class Way>
void go(Way& way, Action::Records& records) {
  auto& [fact, option] = records;
  way(fact, option);
}
template <class Way>
void go(Way& way, Action::Starts& starts) {
  auto& [timer, lasts] = starts;
  way(timer, lasts);
}
template <class Way>
void go(Way& way, Action::Call& call) {
  auto& [contact, answer_within] = call;
  way(contact, answer_within);
}
template <class Way>
void go(Way& way, Action& action) {
  auto& [name, kind, step, text, when, dose, on, counts, records, starts, stops, call, source, where] = action;
  way(name, kind, step, text, when, dose);
  for (auto& outcome : on) way(outcome);
  way(counts, records, starts, stops, call, source, where);
}
template <class Way>
void go(Way& way, Wait& wait) {
  auto& [timer, lasts, after, start_within, insulin_again, overdue, to, where] = wait;
  way(timer, lasts, after, start_within, insulin_again, overdue, to, where);
}
template <class Way>
void go(Way& way, Rule& rule) {
  auto& [name, when, otherwise, to, resets, source, where, early, sets, visits, hands_over_to, enters] = rule;
  way(name, when, otherwise, to, resets, source, where, early, sets, visits, hands_over_to, enters);
}
template <class Way>
void go(Way& way, Step& step) {
  auto& [name, urgency, headline, actions, asks, wait, rules, handles, counts, ends, source, where, ends_visit] = step;
  way(name, urgency, headline, actions, asks, wait, rules, handles, counts, ends, source, where, ends_visit);
}

template <class Way>
void go(Way& way, PastLimits& past) {
  auto& [low, high, near] = past;
  way(low, high, near);
}
template <class Way>
void go(Way& way, ApprovedFile& file) {
  auto& [name, sha256] = file;
  way(name, sha256);
}
template <class Way>
void go(Way& way, Approval& approval) {
  auto& [by, role, on, until, files, key, signature, standing] = approval;
  way(by, role, on, until, files, key, signature, standing);
}
template <class Way>
void go(Way& way, Part& part) {
  auto& [name, start, opening, first_step, steps, first_watch, watches, daily_dose_fresh, past, hourly_fluid,
         insulin_doses, approval] = part;
  way(name, start, opening, first_step, steps, first_watch, watches, daily_dose_fresh, past, hourly_fluid,
      insulin_doses, approval);
}
template <class Way>
void go(Way& way, Protocol& protocol) {
  auto& [set, name, version, languages, title, cautions, sources, thresholds, facts, foods, doses, timers, counters,
         marks, opening, worse, watch, actions, steps, start, weight_fresh, parts, where] = protocol;
  way(set, name, version, languages, title, cautions, sources, thresholds, facts, foods, doses, timers, counters, marks,
      opening, worse, watch, actions, steps, start, weight_fresh, parts, where);
}

}  // namespace rushlight::parts
