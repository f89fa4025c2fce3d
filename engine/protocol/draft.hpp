#pragma once

#include <optional>
#include <string>
#include <vector>

#include "finding/finding.hpp"

namespace rushlight {

// A protocol as it is written, before any id is looked up or any number is read: every word with its place.
// protocol_from_xml makes it, resolve turns it into a Protocol. docs/protocol-format.md is the page for both.

/// A word of the file and where it stands (for an attribute: its value between the quote signs).
struct Word {
  std::string text;
  Where where;
};
using MaybeWord = std::optional<Word>;

struct DraftText {
  Where where;  // of the element that holds the texts
  struct Line {
    Word language;
    Word text;
  };
  std::vector<Line> lines;
};

/// `<if>`: every attribute as written.
struct DraftCondition {
  Where where;
  MaybeWord fact, counter, done, clock_from, clock_up_to, change;
  MaybeWord is, below, at_least, above, at_most;
};

struct DraftSource {
  Where where;
  MaybeWord id, publisher, year, title, place, common_practice, from_memory;
};

struct DraftBand {
  Where where;
  MaybeWord age_from, age_up_to, weight_from, weight_up_to, clock_from, clock_up_to;
  MaybeWord value, mg_dl, mmol_l;
};

struct DraftThreshold {
  Where where;
  Word kind;  // the element's name: glucose, time, count, weight, age, carbohydrate, ...
  MaybeWord id, value, mg_dl, mmol_l, least, most, source, pair_exception;
  std::vector<DraftBand> bands;
  DraftText label;
  std::optional<DraftText> note;
};

struct DraftOption {
  Where where;
  MaybeWord id;
  DraftText text;
};

struct DraftFact {
  Where where;
  Word kind;  // yes-no, choice, ordered-choice, count, glucose, ketones, time-since
  MaybeWord id;
  DraftText question;
  std::optional<DraftText> help;
  std::vector<DraftOption> options;
};

struct DraftSign {
  Where where;
  MaybeWord fact, is;
  DraftText text;
};

struct DraftFood {
  Where where;
  MaybeWord kind, unit, carbohydrate, step, source;
  std::vector<DraftCondition> when;
  DraftText name;
};

struct DraftRow {
  Where where;
  MaybeWord fixed, per_kg, over, plus, per_year, percent, correction, dose, during, times, larger_of, withheld;
  MaybeWord least, most, most_percent, most_per_kg, source;
  std::vector<DraftCondition> when;
  std::optional<DraftText> text;  // the reason of a withheld row, the share of a fixed one
};

struct DraftDose {
  Where where;
  MaybeWord id, unit, round, to, no_stacking, floor, fresh;
  DraftText label;
  std::vector<DraftRow> rows;
};

struct DraftTimer {
  Where where;
  MaybeWord id;
  DraftText label;
};

struct DraftCounter {
  Where where;
  MaybeWord id;
};

struct DraftMark {
  Where where;
  MaybeWord id, fact, rise_over;
};

struct DraftHistory {
  Where where;
  MaybeWord low, high, near;
};

struct DraftFluids {
  Where where;
  MaybeWord hourly;
};

struct DraftApprovedFile {
  Where where;
  MaybeWord name, sha256;
};

struct DraftApproval {
  Where where;
  MaybeWord by, role, on, until, key, signature;
  std::vector<DraftApprovedFile> files;
};

struct DraftRule {
  Where where;
  MaybeWord id, go, resets, source, early, sets, visit, hand_over;
  bool otherwise;
  std::vector<DraftCondition> when;
};

struct DraftWatch {
  Where where;
  MaybeWord id, go, source, told;
  std::vector<DraftCondition> when;
  std::optional<DraftText> also;
};

struct DraftOutcome {
  Where where;
  MaybeWord outcome, go, as;
};

struct DraftAction {
  Where where;
  MaybeWord id, kind, dose, source, counts, records, as, starts, lasts, stops, contact, answer_within;
  std::vector<DraftCondition> when;
  DraftText text;
  std::vector<DraftOutcome> outcomes;
};

struct DraftAsk {
  Where where;
  MaybeWord fact, fresh;
};

struct DraftWait {
  Where where;
  MaybeWord timer, lasts, after, start_within, insulin_again, overdue, go;
};

struct DraftStep {
  Where where;
  MaybeWord id, urgency, handles, counts, ends, ends_visit, source;
  DraftText headline;
  std::vector<DraftAction> actions;
  std::optional<DraftWait> wait;
  std::vector<DraftAsk> asks;
  std::vector<DraftRule> rules;
};

struct Draft {
  Where where;
  MaybeWord set, id, version, languages, start, weight_fresh, daily_dose_fresh, insulin_doses;
  std::optional<DraftApproval> approval;
  DraftText title;
  std::vector<DraftText> cautions;
  std::vector<DraftSource> sources;
  std::vector<DraftThreshold> thresholds;
  std::vector<DraftFact> facts;
  std::vector<DraftFood> foods;
  std::vector<DraftDose> doses;
  std::vector<DraftTimer> timers;
  std::vector<DraftCounter> counters;
  std::vector<DraftMark> marks;
  std::optional<DraftHistory> history;
  std::optional<DraftFluids> fluids;
  std::vector<DraftAsk> opening;
  std::vector<DraftSign> worse;
  std::vector<DraftWatch> watch;
  std::vector<DraftStep> steps;
};

}  // namespace rushlight
