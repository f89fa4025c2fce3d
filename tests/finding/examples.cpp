#include "finding/examples.hpp"

#include "finding/number_words.hpp"

namespace rushlight::tests {
namespace {

void add_bytes(std::vector<Example>& rows) {
  rows.push_back({NotReadable{"there is no file of this name"}, "not-readable",
                  "this file cannot be read: there is no file of this name", ""});
  rows.push_back({TooLarge{"depth", 65, 64}, "too-large", "the limit for depth is 64, and here it is 65",
                  "bring depth down to 64 or less"});
  rows.push_back({NotUtf8{}, "not-utf8", "this is not text in UTF-8", "save the file as UTF-8 in your editor"});
  rows.push_back({ForbiddenCharacter{"the character U+0000"}, "forbidden-character",
                  "the character U+0000 cannot stand in a file", "delete it"});
  rows.push_back({NotXml{"a `&` stands alone", "write `&amp;`"}, "not-xml", "this is not XML: a `&` stands alone",
                  "write `&amp;`"});
  rows.push_back({NotJson{"a quote sign is missing"}, "not-json", "this is not JSON: a quote sign is missing", ""});
  rows.push_back(
      {RepeatedKey{"weight"}, "repeated-key", "`weight` is written twice", "keep one `weight` and delete the other"});
  rows.push_back({UnknownKey{"wieght", "the child file", {"name", "weight"}}, "unknown-key",
                  "`wieght` is not known in the child file", "write `weight`"});
  rows.push_back({MissingKey{"unit", "the child file"}, "missing-key", "the child file has no `unit`",
                  "add `unit` to the child file"});
  rows.push_back({WrongType{"name", "a text"}, "wrong-type", "`name` is not a text", "write a text"});
}

void add_words(std::vector<Example>& rows) {
  rows.push_back({UnknownElement{"sep", "steps", {"step"}}, "unknown-element", "`<sep>` is not known inside `<steps>`",
                  "write `<step>`"});
  rows.push_back({MissingElement{"headline", "step"}, "missing-element", "`<step>` has no `<headline>`",
                  "add `<headline>` inside `<step>`"});
  rows.push_back({RepeatedElement{"headline", "step"}, "repeated-element",
                  "`<headline>` stands more than once inside `<step>`", "keep one `<headline>` and delete the others"});
  rows.push_back({MisplacedElement{"sources", "protocol", "thresholds"}, "misplaced-element",
                  "`<sources>` stands too late inside `<protocol>`", "move it before `<thresholds>`"});
  rows.push_back({UnknownAttribute{"lest", "glucose", {"id", "least", "most"}}, "unknown-attribute",
                  "`lest` is not known on `<glucose>`", "write `least`"});
  rows.push_back({MissingAttribute{"urgency", "step"}, "missing-attribute", "`<step>` has no `urgency`",
                  "add `urgency=\"...\"` to `<step>`, with `home`, `clinic`, `clinic-now` or `emergency`"});
  rows.push_back({WrongWord{"soon", "urgency", {"home", "clinic", "clinic-now", "emergency"}}, "wrong-word",
                  "`soon` is not a known urgency", "write `home`, `clinic`, `clinic-now` or `emergency`"});
  rows.push_back({StrayText{"give sugar", "steps"}, "stray-text",
                  "`give sugar` stands inside `<steps>`, where no text belongs",
                  "delete it, or move it into a text such as `<en>`"});
  rows.push_back(
      {UnknownId{"lwo", "threshold", {"low", "recheck"}}, "unknown-id", "no threshold is called `lwo`", "write `low`"});
  rows.push_back({UnusedName{"lwo", "threshold", "low", 48}, "unused-name",
                  "the threshold `lwo` is used nowhere, and 48 places ask for `low`, which is not there",
                  "write `low` here"});
  rows.push_back({NobodyUses{"threshold", "honey-age"}, "nobody-uses",
                  "nothing in this file uses the threshold `honey-age`",
                  "look for the line that named `honey-age`: it may be lost, or names another now; take this out only when neither is so"});
  rows.push_back({NobodyUses{"counter", "rounds"}, "nobody-uses", "no rule reads the counter `rounds`",
                  "look for the line that named `rounds`: it may be lost, or names another now; take this out only when neither is so"});
  rows.push_back({RepeatedId{"low", "threshold"}, "repeated-id", "the name of the threshold `low` is already taken",
                  "give this threshold a name of its own"});
  rows.push_back({BadId{"Very Low"}, "bad-id", "`Very Low` is not a name of lower-case words joined by hyphens",
                  "write `very-low`"});
}

void add_numbers(std::vector<Example>& rows) {
  rows.push_back({bad_number("3,9", NumberMistake::comma_not_point), "bad-number",
                  "`3,9` cannot be used: the decimal mark in a file is the point", "write `3.9`"});
  rows.push_back({MissingUnit{"70", "70 mg/dL"}, "missing-unit", "`70` has no unit", "write it like `70 mg/dL`"});
  rows.push_back({WrongUnit{"0.3 g", "g/kg"}, "wrong-unit", "`0.3 g` has the wrong unit", "write it in g/kg"});
  rows.push_back({OutOfRange{"low", "40 mg/dL", "60 mg/dL", "100 mg/dL"}, "out-of-range",
                  "`low` is 40 mg/dL, outside 60 mg/dL to 100 mg/dL", "write a value from 60 mg/dL to 100 mg/dL"});
  rows.push_back({ValuesDisagree{"low", "100", "5.7", "5.6", "103"}, "values-disagree",
                  "the two values of `low`, 100 mg/dL and 5.7 mmol/L, are not the same glucose",
                  "write `mmol-l=\"5.6\"` or `mg-dl=\"103\"`, or name in `pair-exception` the source that prints this "
                  "pair"});
  rows.push_back({ValuesDisagree{"low", "66", "3.9", "3.7", "70", true}, "values-disagree",
                  "the two values of `low`, 66 mg/dL and 3.9 mmol/L, are not the same glucose",
                  "write `66 mg/dL, 3.7 mmol/L` or `70 mg/dL, 3.9 mmol/L`"});
  rows.push_back({BandsGap{"low", "a child of 6 a at 22:00"}, "bands-gap",
                  "no band of `low` holds a child of 6 a at 22:00",
                  "let each band begin where the band before it ends, the first and the last open"});
  rows.push_back({BandsOverlap{"low", "a child of 6 a at 22:00"}, "bands-overlap",
                  "two bands of `low` hold a child of 6 a at 22:00",
                  "let each band begin where the band before it ends, the first and the last open"});
  rows.push_back({ImplausibleValue{"weight", "44 kg", "is it 44 lb, which is 20 kg?"}, "implausible-value",
                  "the weight `44 kg` is unusual: is it 44 lb, which is 20 kg?", ""});
  rows.push_back({BadDate{"birth date", "2026-02-30"}, "bad-date", "the birth date `2026-02-30` is not in the calendar",
                  "write year, month and day like `2026-03-01`"});
}

void add_meanings(std::vector<Example>& rows) {
  rows.push_back({WrongFactKind{"swallow", "yes-no", "at-least"}, "wrong-fact-kind",
                  "`at-least` cannot be asked of `swallow`, which is a `yes-no`", "compare it with `is`"});
  rows.push_back({WrongThresholdKind{"recheck", "time", "glucose"}, "wrong-threshold-kind",
                  "`recheck` is of the kind time, and this place takes glucose",
                  "name a threshold of the kind glucose"});
  rows.push_back({MissingSource{"glucose", "low"}, "missing-source", "`<glucose>` `low` names no source",
                  "add `source=\"...\"` with the id of a `<source>`"});
  rows.push_back({MissingOutcome{"sugar", "by-mouth", "refused"}, "missing-outcome",
                  "`sugar` (by-mouth) does not say what follows `refused`",
                  "add `<on outcome=\"refused\" go=\"...\"/>` to `sugar`"});
  rows.push_back({FactNotAsked{"glucose", "treat"}, "fact-not-asked",
                  "a rule of step `treat` reads `glucose`, which the step does not ask",
                  "add `<ask fact=\"glucose\"/>` to step `treat`"});
  rows.push_back({UnknownNotCovered{"treat", "glucose"}, "unknown-not-covered",
                  "step `treat` has no rule for when nobody can tell `glucose`",
                  "write `unknown` into the rule that takes the gravest answer, or add a rule with `<if fact=\"glucose\" "
                  "is=\"unknown\"/>`"});
  rows.push_back({ValuesNotCovered{"treat", "a `glucose` of 70 mg/dL"}, "values-not-covered",
                  "no rule of step `treat` takes a `glucose` of 70 mg/dL",
                  "add a rule to step `treat` that takes a `glucose` of 70 mg/dL"});
  rows.push_back({RuleNeverMatches{3, "recheck", 1}, "rule-never-matches", "rule 3 of step `recheck` can never match",
                  "move rule 3 above rule 1, or delete it"});
  rows.push_back({RuleNeverMatches{0, "recheck", 0}, "rule-never-matches",
                  "step `recheck` ends the night, so its rules can never match",
                  "take `ends` off step `recheck`, or its rules"});
  rows.push_back({NeverCounted{2, "treat", "visits"}, "never-counted",
                  "rule 2 of step `treat` waits for `visits`, which nothing counts",
                  "write `counts=\"visits\"` on the step that it counts"});
  rows.push_back({ThresholdsCrossed{"very-low", "72 mg/dL", "low", "70 mg/dL"}, "thresholds-crossed",
                  "`very-low`, 72 mg/dL, is not below `low`, 70 mg/dL",
                  "bring `very-low` below 70 mg/dL, or raise `low` above 72 mg/dL"});
}

void add_paths(std::vector<Example>& rows) {
  rows.push_back({StepUnreachable{"bedtime"}, "step-unreachable", "nothing leads to step `bedtime`",
                  "let a rule, or `start`, lead to `bedtime`: the one that did may be lost; delete it only if no child has to come there"});
  rows.push_back({DeadEnd{"bedtime"}, "dead-end", "step `bedtime` neither ends nor leads on",
                  "add a rule to step `bedtime`: the one that led on may be lost; write `ends=\"yes\"` only if the night is over there"});
  rows.push_back({LoopWithoutWait{{"treat", "measure"}}, "loop-without-wait",
                  "the steps `treat`, `measure` go round without a wait", "add a `<wait>` to one of these steps"});
  rows.push_back({LoopWithoutLimit{{"treat", "measure"}}, "loop-without-limit",
                  "the steps `treat`, `measure` can go round for ever",
                  "count one of these steps with `counts`, and add a rule that leaves when the count is reached"});
  rows.push_back({LoopWithoutLimit{{"treat", "measure"}, "", "rounds"}, "loop-without-limit",
                  "the steps `treat`, `measure` can go round for ever",
                  "add a rule with `<if counter=\"rounds\" at-least=\"...\"/>` above the one that leads back"});
  rows.push_back({LoopWithoutLimit{{"treat", "measure"}, "rounds"}, "loop-without-limit",
                  "the steps `treat`, `measure` can go round for ever: `rounds` is set back on the way",
                  "take `rounds` out of `resets` of the rules that lead round"});
  rows.push_back({WatchNotHandled{"emergency", "will-not-wake"}, "watch-not-handled",
                  "watch `will-not-wake` leads to step `emergency`, which does not handle it",
                  "add `will-not-wake` to `handles` of step `emergency`"});
  rows.push_back({WatchNotHandled{"treat", "will-not-wake", "emergency"}, "watch-not-handled",
                  "watch `will-not-wake` leads to step `treat`, which does not handle it",
                  "let it lead to a step that handles it, such as `emergency`; or add `will-not-wake` to `handles` of "
                  "step `treat`"});
  rows.push_back({CalmerThanWatch{"treat", "will-not-wake"}, "calmer-than-watch",
                  "step `treat` handles watch `will-not-wake` but is calmer than where the watch leads",
                  "make step `treat` as urgent, or take `will-not-wake` out of its `handles`"});
  rows.push_back({WatchMissing{"will not wake", "<if fact=\"awake\" is=\"no unknown\"/>"}, "watch-missing",
                  "no watch looks out for a child who will not wake",
                  "add a `<rule>` with `<if fact=\"awake\" is=\"no unknown\"/>` inside `<watch>`"});
  rows.push_back({WatchByTimeAlone{"bedtime"}, "watch-by-time-alone",
                  "watch `bedtime` waits for the time alone, and nobody looks at it when that time comes",
                  "add an answer to its conditions, or let a `<wait>` lead there when the time comes"});
  rows.push_back({MouthWhileDanger{"emergency", "sugar"}, "mouth-while-danger",
                  "`sugar` of step `emergency` gives by mouth to a child who may not be awake or able to swallow",
                  "take `sugar` out of step `emergency`"});
  rows.push_back({TooCalm{"emergency", "will-not-wake"}, "too-calm",
                  "step `emergency` meets the danger of watch `will-not-wake` and is no emergency",
                  "write `urgency=\"emergency\"` on step `emergency`"});
  rows.push_back({InsulinWithGlucagon{"rescue"}, "insulin-with-glucagon",
                  "step `rescue` shows insulin and glucagon on one screen: one can be drawn up for the other",
                  "give glucagon in a step of its own, before or after step `rescue`"});
  rows.push_back({EmergencyLeft{"emergency", "well", "will not wake", "awake"}, "emergency-left",
                  "step `emergency` goes over to `well`, which is no emergency, with a child who will not wake",
                  "ask `awake` in step `emergency`, and let only an answer that ends the danger lead to `well`"});
  rows.push_back({EmergencyNotCalled{"emergency", "will-not-wake"}, "emergency-not-called",
                  "step `emergency` meets the danger of watch `will-not-wake` and does not call for help",
                  "add a `<do kind=\"call-emergency\">` without an `<if>` to step `emergency`"});
  rows.push_back({CallsClinicOnly{"ambulance", "phone"}, "calls-clinic-only",
                  "step `ambulance` is an emergency, and `phone` calls the clinic and nobody else",
                  "write `kind=\"call-emergency\"` and `contact=\"emergency\"` on `phone`, or add such an action"});
  rows.push_back({SignMissing{"has a seizure", "seizure", "yes"}, "sign-missing",
                  "during a wait nobody can say that the child has a seizure: `<worse>` has no such line",
                  "add `<sign fact=\"seizure\" is=\"yes\">` inside `<worse>`"});
  rows.push_back({OpeningLacks{"awake"}, "opening-lacks",
                  "`<opening>` does not ask `awake`, so nobody looks at the child first",
                  "add `<ask fact=\"awake\"/>` inside `<opening>`"});
  rows.push_back({DeedAnswers{"on-side", "awake"}, "deed-answers",
                  "`on-side` answers `awake` by being done, and nobody has looked at the child",
                  "take `records` off `on-side`, and ask `awake`"});
  rows.push_back({LateAndCalm{"treat", "recovered", false}, "late-and-calm",
                  "when nobody answers in step `treat`, `recovered` follows, and nobody is called",
                  "let the `<wait>` of step `treat` go to a step that calls"});
  rows.push_back({InsulinFloorLow{"extra-insulin", "insulin-floor", "60 mg/dL", "70 mg/dL"}, "insulin-floor-low",
                  "insulin `extra-insulin` can be given down to `insulin-floor`, 60 mg/dL, where the child is low",
                  "write 70 mg/dL or more for `insulin-floor`, or name another `floor`"});
  rows.push_back({InsulinWithoutDose{"pen"}, "insulin-without-dose",
                  "`pen` is insulin without a dose: nothing holds it back when the glucose is low",
                  "give `pen` a `dose` in [iU]"});
  rows.push_back(
      {InsulinStacked{"extra-insulin", "no-stacking", "20 min", "2 h"}, "insulin-stacked",
       "insulin `extra-insulin` can be given again after `no-stacking`, 20 min, while the dose before still works",
       "name a time of 2 h or more, or raise `no-stacking`"});
  rows.push_back({WatchReadsNumber{"low-told", "glucose"}, "watch-reads-number",
                  "watch `low-told` looks at the number `glucose` in every step, however old it is: it goes on firing "
                  "until another number is told",
                  "add `told=\"yes\"` to watch `low-told`: it then fires once, on a new number"});
  rows.push_back({WatchUntold{"breathes-hard", "breathing", "deep"}, "watch-untold",
                  "watch `breathes-hard` looks out for `breathing`: `deep`, and during a wait nobody can say so: "
                  "`<worse>` has no such line",
                  "add `<sign fact=\"breathing\" is=\"deep\">` inside `<worse>`"});
  rows.push_back(
      {SignUnwatched{"other-worry", "yes"}, "sign-unwatched",
       "it can be said that `other-worry` is `yes`, and no watch leads anywhere then",
       "add a `<rule>` with `<if fact=\"other-worry\" is=\"yes\"/>` inside `<watch>`: the one that was there may be "
       "lost, or changed"});
  rows.push_back(
      {WatchLeadsBack{"rescue", "will-not-wake", "emergency", "emergency"}, "watch-leads-back",
       "step `rescue` does not handle watch `will-not-wake`, which may still be true where `emergency` leads "
       "to it: before anything is shown it leads back to `emergency`",
       "add `will-not-wake` to `handles` of step `rescue`"});
  rows.push_back({WatchCalms{"rescue", "worry-said", "worry", "clinic-now"}, "watch-calms",
                  "watch `worry-said` leads from step `rescue` to `worry`, which is calmer",
                  "add `worry-said` to `handles` of step `rescue`, or make `worry` as urgent"});
  rows.push_back({WatchHeldBack{"acts-confused", "awake: confused", "delivery: pump"}, "watch-held-back",
                  "watch `acts-confused` looks out for this: awake: confused; and it fires only with delivery: pump too",
                  "take this `<if>` out of watch `acts-confused`, or add a watch without it below: one may be lost there"});
  rows.push_back({OddWay{"nobody-checked", "a rule of step `treat`", "waits that nobody answered", 27}, "odd-way",
                  "a rule of step `treat` leads to `nobody-checked`, and the 27 other ways there are all waits that "
                  "nobody answered",
                  "look whether another step was meant in `go`"});
  rows.push_back({DrinksApart{"round", "water", false}, "drinks-apart",
                  "`water` tells to give water or sugar-free drinks, and another text of step `round` sugary drinks",
                  "write the same drink in all texts of the step: sugary below the border of the glucose, sugar-free above "
                  "it"});
  rows.push_back({HeadlineAlone{"round", "sip"}, "headline-alone",
                  "the headline of step `round` tells the amount `{sip}`, and nothing in the step gives it",
                  "put the action with `dose=\"sip\"` back into step `round`: it may be lost"});
  rows.push_back({CalmEnd{"bedtime", "well", "low-told", "bedtime: no, glucose 69 mg/dL"}, "calm-end",
                  "step `bedtime` ends the night at `well` with bedtime: no, glucose 69 mg/dL, and watch `low-told` "
                  "looks out for that",
                  "let a rule above this one take bedtime: no, glucose 69 mg/dL to another step than `well`"});
  rows.push_back({NumberEndsCalmly{"treat", "well", "glucose 53 mg/dL", "very low", "a statement, 2017"},
                  "number-ends-calmly",
                  "step `treat` ends the night at `well` with glucose 53 mg/dL: very low (a statement, 2017)",
                  "let it lead to a step that treats or calls, and does not end the night"});
  rows.push_back({CallMissing{"keep-watch", "emergency"}, "call-missing",
                  "step `keep-watch` is `emergency` and waits, and nobody may have been called",
                  "add a call to step `keep-watch`, or to a step that leads to it"});
  rows.push_back({ComeIgnored{1, "belly", "well"}, "come-ignored",
                  "rule 1 of step `belly` goes to `well`, which is calmer, when the clinic says to come",
                  "let rule 1 go to the step that says to leave now"});
  rows.push_back({CalmerThanCall{"treat", "phone", "clinic-now"}, "calmer-than-call",
                  "step `treat` is calmer than its call `phone`, which is `clinic-now`",
                  "write `urgency=\"clinic-now\"` on step `treat`"});
  rows.push_back({DoseUnnamed{"sugar"}, "dose-unnamed",
                  "`sugar` measures out food and has no dose: what goes in is not written down",
                  "add `dose=\"...\"` to `sugar`"});
  rows.push_back({NotGiven{"sugar", "refused", "treat"}, "not-given",
                  "`sugar` counts as given when it is `refused`, and nobody has been called in step `treat`",
                  "write `<on outcome=\"refused\" go=\"...\"/>` with a step that helps on"});
  rows.push_back({TroubleEnds{"juice", "vomited", "well"}, "trouble-ends",
                  "when `juice` is `vomited`, the night ends calmly at `well` with nothing asked",
                  "let `vomited` lead to a step that asks, waits or calls, and not on to `well`"});
  rows.push_back({InsulinInWords{"the text of `note`", false}, "insulin-in-words",
                  "the text of `note` gives insulin in words, and no action here gives it",
                  "take it out of the words, or give it by an action with a dose"});
  rows.push_back({InsulinInWords{"the headline of step `round`", true}, "insulin-in-words",
                  "the headline of step `round` stops the basal insulin", "write that the basal insulin goes on"});
  rows.push_back({PumpForgotten{"pause", "starts"}, "pump-forgotten",
                  "`pause` pauses the pump, and nothing reminds anybody to start it again",
                  "add `starts` and `lasts` to `pause`"});
  rows.push_back({GlucagonForgotten{"kit"}, "glucagon-forgotten",
                  "`kit` is glucagon, and nobody remembers that it was given", "add `counts` or `records` to `kit`"});
  rows.push_back({AskedTwice{"still-low", "glucose", "treat"}, "asked-twice",
                  "step `still-low` asks `glucose` again, and `treat` has just asked it",
                  "write `fresh=\"...\"` on the question, or let an action of step `still-low` measure again"});
  rows.push_back({OldReading{"treat", "sugar", "glucose", "30 min", "15 min"}, "old-reading",
                  "step `treat` waits 15 min after `sugar` and then takes a `glucose` that is up to 30 min old, from "
                  "before it",
                  "take `fresh` out of the question, so that `glucose` is measured after the wait"});
  rows.push_back({WaitUnusual{"treat", "after `sugar`", "15 h", "10 min", "20 min"}, "wait-unusual",
                  "step `treat` waits 15 h after `sugar`; usual are 10 min to 20 min",
                  "name a time from 10 min to 20 min, unless the clinic wants it so"});
  rows.push_back({ReadingTooOld{"measure", "glucose", "5 h", "1 h"}, "reading-too-old",
                  "step `measure` takes a `glucose` that is up to 5 h old; after 1 h it is another",
                  "name a shorter time in `fresh` of `glucose`, or leave it out: then it is measured anew"});
  rows.push_back({DoseOfAnyChild{"extra-insulin", 5}, "dose-of-any-child",
                  "row 5 of `extra-insulin` is bounded by no part of the daily dose and by nothing for each kilogram: a "
                  "toddler may get as much as an adult",
                  "write `most-percent` or `most-per-kg` into the row, beside `most`"});
  rows.push_back({WatchElsewhere{"come-said", "`low` and `ketones`"}, "watch-elsewhere",
                  "`low` and `ketones` watch `come-said`, and this file does not: what is told here leads nowhere",
                  "put the rule `come-said` back into `<watch>`, with a step of this file to lead to"});
  rows.push_back({DegreesApart{"fever-celsius", "fever-fahrenheit", "38 °C is 100.4 °F, not 101 °F",
                               "100.4 °F, or 38.3 °C"},
                  "degrees-apart",
                  "`{fever-celsius}` and `{fever-fahrenheit}` stand for one temperature, and 38 °C is 100.4 °F, not 101 °F",
                  "change one of them: 100.4 °F, or 38.3 °C"});
  rows.push_back({EarlyRuleUntold{"treat/1"}, "early-rule-untold",
                  "rule `treat/1` is `early` but nothing that it reads can be told during a wait",
                  "let `treat/1` read only choices that its step asks, in a step with a `<wait>`; or drop `early`"});
  rows.push_back({UntilWithoutWait{"treat", "until"}, "until-without-wait",
                  "`{until}` is the end of a wait, and step `treat` has no wait",
                  "add a `<wait>` to step `treat`, or take `{until}` out of the text"});
  rows.push_back({UntilBeforeStart{"treat", "sugar"}, "until-before-start",
                  "`{until}` is not known in step `treat` before `sugar`, which starts its wait",
                  "write `{again}`: it reads \"in 15 minutes\" until the wait has started, then \"at 02:26\""});
  rows.push_back({AsksAtOnce{"treat", "sugar", "glucose"}, "asks-at-once",
                  "step `treat` gives `sugar` and asks `glucose` again at once: it has no wait",
                  "add a `<wait>` to step `treat`"});
}

void add_doses(std::vector<Example>& rows) {
  rows.push_back({DoseNotCovered{"fast-carbohydrate", "a child of unknown weight"}, "dose-not-covered",
                  "no row of `fast-carbohydrate` takes a child of unknown weight",
                  "add a last `<row>` to `fast-carbohydrate` with `fixed`, or with `withheld=\"yes\"` and the reason"});
  rows.push_back({DoseRowNeverMatches{2, "fast-carbohydrate", 1}, "dose-row-never-matches",
                  "row 2 of `fast-carbohydrate` can never match", "delete row 2, or move it above row 1"});
  rows.push_back(
      {BorderTakenTwice{"row", "ketone-insulin", "glucose 250 mg/dL, ketones 3.1 mmol/L", "glucose 250 mg/dL", 5,
                        "below", 10, "above"},
       "border-taken-twice",
       "rows 5 and 10 of `ketone-insulin` both take glucose 250 mg/dL, ketones 3.1 mmol/L and do not agree: row 5 "
       "counts",
       "write `below` in row 5 if glucose 250 mg/dL is for row 10, or `above` in row 10 if it is for row 5"});
  rows.push_back({BorderApart{"danger", "above", "at-least", 7}, "border-apart",
                  "exactly `danger` counts as below it here (`above`), and as above it in the 7 other places",
                  "write `at-least` here too"});
  rows.push_back({GlucagonUncounted{"glucagon", "rescue-doses"}, "glucagon-uncounted",
                  "`glucagon` gives glucagon and does not count it: no rule knows how often it was given",
                  "add `counts=\"rescue-doses\"` to `glucagon`"});
  rows.push_back({DoseFalls{"rescue-glucagon", 3, "0.5 mg", "weight 25 kg", 2, "1 mg", "weight 24.999 kg"},
                  "dose-falls",
                  "row 3 of `rescue-glucagon` gives 0.5 mg (weight 25 kg), and row 2 more, 1 mg (weight 24.999 kg)",
                  "look whether the amounts of rows 2 and 3 have changed places"});
  rows.push_back({BoundsCrossed{"fast-carbohydrate", 1, "smallest-carb", "10 g", "largest-carb", "5 g"},
                  "bounds-crossed",
                  "row 1 of `fast-carbohydrate` gives at least `smallest-carb`, 10 g, but at most `largest-carb`, 5 g",
                  "bring `smallest-carb` down to `largest-carb` or below, or raise `largest-carb`"});
  rows.push_back({DoseOfNothing{"mini-glucagon", 1, "0 ug", "age under 1 month"}, "dose-of-nothing",
                  "row 1 of `mini-glucagon` gives 0 ug (age under 1 month)",
                  "add `least=\"...\"` to row 1, or a row above it with `withheld=\"yes\"` and the reason"});
  rows.push_back(
      {DoseAboveCap{"fast-carbohydrate", 4, "20 g", "age 12 years", "largest-carb", "15 g"}, "dose-above-cap",
       "row 4 of `fast-carbohydrate` gives up to 20 g (age 12 years), and other rows stop at `largest-carb`, 15 g",
       "add `most=\"...\"` to row 4 with the most for such a child, or raise `largest-carb`"});
  rows.push_back({DoseBelowLeast{"fast-carbohydrate", 2, "1 g", "weight 2 kg", "smallest-carb", "5 g"},
                  "dose-below-least",
                  "row 2 of `fast-carbohydrate` gives as little as 1 g (weight 2 kg), and other rows never less than "
                  "`smallest-carb`, 5 g",
                  "add `least=\"smallest-carb\"` to row 2"});
  rows.push_back({DoseWithoutCap{"extra-insulin", 1, "80 units", "total-daily-dose 400 units"}, "dose-without-cap",
                  "row 1 of `extra-insulin` has no `most` and gives up to 80 units (total-daily-dose 400 units)",
                  "add `most=\"...\"` to row 1 with the most to give at once"});
  rows.push_back({DoseWithoutLeast{"fast-carbohydrate", 1, "0.3 g", "weight 1 kg"}, "dose-without-least",
                  "row 1 of `fast-carbohydrate` has no `least` and gives as little as 0.3 g (weight 1 kg)",
                  "add `least=\"...\"` to row 1 with the least that is worth giving"});
  rows.push_back(
      {BeyondPublished{"rescue-glucagon", "5 mg", "weight 25 kg", "3 mg", "US label, nasal glucagon, 2025"},
       "beyond-published",
       "`rescue-glucagon` gives up to 5 mg (weight 25 kg), and the largest published dose is 3 mg (US label, nasal "
       "glucagon, 2025)",
       "compare `rescue-glucagon` with its source, or add `most=\"...\"` to its rows"});
}

}  // namespace

const std::vector<Example>& examples() {
  static const std::vector<Example> rows = [] {
    std::vector<Example> made;
    for (const auto add : {add_bytes, add_words, add_numbers, add_texts, add_meanings, add_paths, add_doses, add_sets, add_laws,
                           add_changes, add_journals})
      add(made);
    return made;
  }();
  return rows;
}

}  // namespace rushlight::tests
