#include "finding/attribute_words.hpp"
#include "finding/finding.hpp"
#include "finding/quoted.hpp"
#include "finding/sentence_of_laws.hpp"
#include "finding/sentence_of_sets.hpp"
#include "finding/sentence_of_texts.hpp"

namespace rushlight {
namespace {

std::string rule_name(int rule) { return "rule " + std::to_string(rule); }

// A name of the file in backticks; words of the house ("the child file") as they are.
std::string named(const std::string& what) {
  return what.find(' ') == std::string::npos ? quoted(what) : one_line(what);
}

// One line for each kind and no other: a new kind without a sentence does not compile.
struct Sentence : SentenceOfTexts, SentenceOfSets, SentenceOfLaws {
  using SentenceOfTexts::operator();
  using SentenceOfSets::operator();
  using SentenceOfLaws::operator();
  std::string operator()(const NotReadable& k) const { return "this file cannot be read: " + one_line(k.reason); }
  std::string operator()(const TooLarge& k) const {
    return "the limit for " + one_line(k.what) + " is " + std::to_string(k.most) + ", and here it is " +
           std::to_string(k.found);
  }
  std::string operator()(const NotUtf8&) const { return "this is not text in UTF-8"; }
  std::string operator()(const ForbiddenCharacter& k) const { return one_line(k.name) + " cannot stand in a file"; }
  std::string operator()(const NotXml& k) const { return "this is not XML: " + one_line(k.what); }
  std::string operator()(const NotJson& k) const { return "this is not JSON: " + one_line(k.what); }
  std::string operator()(const RepeatedKey& k) const { return quoted(k.key) + " is written twice"; }
  std::string operator()(const UnknownKey& k) const { return quoted(k.key) + " is not known in " + one_line(k.owner); }
  std::string operator()(const MissingKey& k) const { return one_line(k.owner) + " has no " + quoted(k.key); }
  std::string operator()(const WrongType& k) const { return named(k.what) + " is not " + one_line(k.wanted); }
  std::string operator()(const UnknownElement& k) const {
    if (k.parent.empty()) return quoted_element(k.element) + " is not known as the outermost part of a file";
    return quoted_element(k.element) + " is not known inside " + quoted_element(k.parent);
  }
  std::string operator()(const MissingElement& k) const {
    return quoted_element(k.parent) + " has no " + quoted_element(k.element);
  }
  std::string operator()(const RepeatedElement& k) const {
    return quoted_element(k.element) + " stands more than once inside " + quoted_element(k.parent);
  }
  std::string operator()(const MisplacedElement& k) const {
    return quoted_element(k.element) + " stands too late inside " + quoted_element(k.parent);
  }
  std::string operator()(const UnknownAttribute& k) const {
    return quoted(k.attribute) + " is not known on " + quoted_element(k.element);
  }
  std::string operator()(const MissingAttribute& k) const {
    return quoted_element(k.element) + " has no " + quoted(k.attribute);
  }
  std::string operator()(const WrongWord& k) const {
    if (k.written.empty()) return "no " + one_line(k.what) + " is written";
    return quoted(k.written) + " is not a known " + one_line(k.what);
  }
  std::string operator()(const StrayText& k) const {
    return quoted(k.text) + " stands inside " + quoted_element(k.element) + ", where no text belongs";
  }
  std::string operator()(const UnknownId& k) const { return "no " + one_line(k.what) + " is called " + quoted(k.id); }
  std::string operator()(const UnusedName& k) const {
    const std::string places = k.places == 1 ? "one place asks" : std::to_string(k.places) + " places ask";
    return "the " + one_line(k.what) + " " + quoted(k.name) + " is used nowhere, and " + places + " for " +
           quoted(k.asked) + ", which is not there";
  }
  std::string operator()(const RepeatedId& k) const {
    return "the name of the " + one_line(k.what) + " " + quoted(k.id) + " is already taken";
  }
  std::string operator()(const BadId& k) const {
    return quoted(k.id) + " is not a name of lower-case words joined by hyphens";
  }
  std::string operator()(const BadNumber& k) const {
    if (k.written.empty()) return "a number is missing here";
    return quoted(k.written) + " cannot be used: " + one_line(k.why);
  }
  std::string operator()(const MissingUnit& k) const { return quoted(k.written) + " has no unit"; }
  std::string operator()(const WrongUnit& k) const { return quoted(k.written) + " has the wrong unit"; }
  std::string operator()(const OutOfRange& k) const {
    const std::string value = named(k.what) + " is " + one_line(k.value) + ", ";
    if (k.least.empty()) return value + (k.what == "least" ? "above `most`, " : "above ") + one_line(k.most);
    if (k.most.empty()) return value + "below " + one_line(k.least);
    if (k.least == k.most) return value + "and may only be " + one_line(k.least);
    return value + "outside " + one_line(k.least) + " to " + one_line(k.most);
  }
  std::string operator()(const ValuesDisagree& k) const {
    return "the two values of " + quoted(k.threshold) + ", " + one_line(k.mg_per_dl) + " mg/dL and " +
           one_line(k.mmol_per_l) + " mmol/L, are not the same glucose";
  }
  std::string operator()(const BandsGap& k) const {
    return "no band of " + quoted(k.threshold) + " holds " + one_line(k.example);
  }
  std::string operator()(const BandsOverlap& k) const {
    return "two bands of " + quoted(k.threshold) + " hold " + one_line(k.example);
  }
  std::string operator()(const ImplausibleValue& k) const {
    return "the " + one_line(k.what) + " " + quoted(k.written) + " is unusual: " + one_line(k.question);
  }
  std::string operator()(const BadDate& k) const {
    return "the " + one_line(k.what) + " " + quoted(k.written) + " is not in the calendar";
  }
  std::string operator()(const WrongFactKind& k) const {
    return quoted(k.comparison) + " cannot be asked of " + quoted(k.fact) + ", which is a " + quoted(k.kind);
  }
  std::string operator()(const WrongThresholdKind& k) const {
    return quoted(k.threshold) + " is of the kind " + one_line(k.kind) + ", and this place takes " + one_line(k.wanted);
  }
  std::string operator()(const MissingSource& k) const {
    const std::string name = k.id.empty() ? std::string{} : " " + quoted(k.id);
    return quoted_element(k.element) + name + " names no source";
  }
  std::string operator()(const MissingOutcome& k) const {
    return quoted(k.action) + " (" + one_line(k.kind) + ") does not say what follows " + quoted(k.outcome);
  }
  std::string operator()(const FactNotAsked& k) const {
    return "a rule of step " + quoted(k.step) + " reads " + quoted(k.fact) + ", which the step does not ask";
  }
  std::string operator()(const UnknownNotCovered& k) const {
    return "step " + quoted(k.step) + " has no rule for when nobody can tell " + quoted(k.fact);
  }
  std::string operator()(const ValuesNotCovered& k) const {
    return "no rule of step " + quoted(k.step) + " takes " + one_line(k.example);
  }
  std::string operator()(const RuleNeverMatches& k) const {
    if (k.rule == 0) return "step " + quoted(k.step) + " ends the night, so its rules can never match";
    return rule_name(k.rule) + " of step " + quoted(k.step) + " can never match";
  }
  std::string operator()(const NeverCounted& k) const {
    return rule_name(k.rule) + " of step " + quoted(k.step) + " waits for " + quoted(k.counter) + ", which nothing counts";
  }
  std::string operator()(const ThresholdsCrossed& k) const {
    return quoted(k.lower) + ", " + one_line(k.lower_value) + ", is not below " + quoted(k.upper) + ", " +
           one_line(k.upper_value);
  }
  std::string operator()(const StepUnreachable& k) const { return "nothing leads to step " + quoted(k.step); }
  std::string operator()(const DeadEnd& k) const { return "step " + quoted(k.step) + " neither ends nor leads on"; }
  std::string operator()(const LoopWithoutWait& k) const {
    if (k.steps.size() == 1) return "step " + quoted(k.steps.front()) + " goes round without a wait";
    return "the steps " + quoted_list(k.steps) + " go round without a wait";
  }
  std::string operator()(const LoopWithoutLimit& k) const {
    const std::string what = k.steps.size() == 1 ? "step " + quoted(k.steps.front()) : "the steps " + quoted_list(k.steps);
    return what + " can go round for ever" + (k.set_back.empty() ? "" : ": " + quoted(k.set_back) + " is set back on the way");
  }
  std::string operator()(const WatchNotHandled& k) const {
    return "watch " + quoted(k.watch) + " leads to step " + quoted(k.step) + ", which does not handle it";
  }
  std::string operator()(const CalmerThanWatch& k) const {
    return "step " + quoted(k.step) + " handles watch " + quoted(k.watch) + " but is calmer than where the watch leads";
  }
  std::string operator()(const WatchMissing& k) const {
    return "no watch looks out for a child who " + one_line(k.danger);
  }
  std::string operator()(const WatchByTimeAlone& k) const {
    return "watch " + quoted(k.watch) + " waits for the time alone, and nobody looks at it when that time comes";
  }
  std::string operator()(const MouthWhileDanger& k) const {
    const std::string what = k.action.empty() ? "the headline" : quoted(k.action);
    return what + " of step " + quoted(k.step) + " gives by mouth to a child who may not be awake or able to swallow";
  }
  std::string operator()(const TooCalm& k) const {
    return "step " + quoted(k.step) + " meets the danger of watch " + quoted(k.watch) + " and is no emergency";
  }
  std::string operator()(const InsulinWithGlucagon& k) const {
    return "step " + quoted(k.step) + " shows insulin and glucagon on one screen: one can be drawn up for the other";
  }
  std::string operator()(const EmergencyLeft& k) const {
    return "step " + quoted(k.step) + " goes over to " + quoted(k.to) + ", which is no emergency, with a child who " +
           one_line(k.child);
  }
  std::string operator()(const EmergencyNotCalled& k) const {
    return "step " + quoted(k.step) + " meets the danger of watch " + quoted(k.watch) + " and does not call for help";
  }
  std::string operator()(const CallsClinicOnly& k) const {
    return "step " + quoted(k.step) + " is an emergency, and " + quoted(k.action) + " calls the clinic and nobody else";
  }
  std::string operator()(const SignMissing& k) const {
    return "during a wait nobody can say that the child " + one_line(k.child) + ": `<worse>` has no such line";
  }
  std::string operator()(const OpeningLacks& k) const {
    return "`<opening>` does not ask " + quoted(k.fact) +
           (k.fact == "already-given" ? ", so nobody says what was given before" : ", so nobody looks at the child first");
  }
  std::string operator()(const DeedAnswers& k) const {
    return quoted(k.action) + " answers " + quoted(k.fact) + " by being done, and nobody has looked at the child";
  }
  std::string operator()(const LateAndCalm& k) const {
    const std::string then = "when nobody answers in step " + quoted(k.step) + ", " + quoted(k.late);
    return then + (k.calmer ? " follows, which is calmer" : " follows, and nobody is called");
  }
  std::string operator()(const InsulinFloorLow& k) const {
    return "insulin " + quoted(k.dose) + " can be given down to " + quoted(k.threshold) + ", " + one_line(k.value) +
           ", where the child is low";
  }
  std::string operator()(const InsulinWithoutDose& k) const {
    return quoted(k.action) + " is insulin without a dose: nothing holds it back when the glucose is low";
  }
  std::string operator()(const InsulinStacked& k) const {
    return "insulin " + quoted(k.dose) + " can be given again after " + quoted(k.threshold) + ", " + one_line(k.time) +
           ", while the dose before still works";
  }
  std::string operator()(const WatchReadsNumber& k) const {
    return "watch " + quoted(k.watch) + " looks at the number " + quoted(k.fact) +
           " in every step, however old it is: it goes on firing until another number is told";
  }
  std::string operator()(const WatchUntold& k) const {
    return "watch " + quoted(k.watch) + " looks out for " + quoted(k.fact) + ": " + quoted(k.answer) +
           ", and during a wait nobody can say so: `<worse>` has no such line";
  }
  std::string operator()(const SignUnwatched& k) const {
    return "it can be said that " + quoted(k.fact) + " is " + quoted(k.answer) + ", and no watch leads anywhere then";
  }
  std::string operator()(const WatchLeadsBack& k) const {
    return "step " + quoted(k.step) + " does not handle watch " + quoted(k.watch) + ", which may still be true where " +
           quoted(k.from) + " leads to it: before anything is shown it leads back to " + quoted(k.to);
  }
  std::string operator()(const WatchCalms& k) const {
    const std::string more = k.others == 0 ? "" : " and " + std::to_string(k.others) + " others";
    return "watch " + quoted(k.watch) + " leads from step " + quoted(k.step) + more + " to " + quoted(k.to) +
           ", which is calmer";
  }
  std::string operator()(const CalmEnd& k) const {
    return "step " + quoted(k.step) + " ends the night at " + quoted(k.to) + " with " + one_line(k.example) +
           ", and watch " + quoted(k.watch) + " looks out for that";
  }
  std::string operator()(const NumberEndsCalmly& k) const {
    return "step " + quoted(k.step) + " ends the night at " + quoted(k.to) + " with " + one_line(k.example) + ": " +
           one_line(k.danger) + " (" + one_line(k.source) + ")";
  }
  std::string operator()(const CallMissing& k) const {
    return "step " + quoted(k.step) + " is " + quoted(k.urgency) + " and waits, and nobody may have been called";
  }
  std::string operator()(const ComeIgnored& k) const {
    return rule_name(k.rule) + " of step " + quoted(k.step) + " goes to " + quoted(k.to) +
           ", which is calmer, when the clinic says to come";
  }
  std::string operator()(const CalmerThanCall& k) const {
    return "step " + quoted(k.step) + " is calmer than its call " + quoted(k.action) + ", which is " + quoted(k.urgency);
  }
  std::string operator()(const DoseUnnamed& k) const {
    return quoted(k.action) + " measures out food and has no dose: what goes in is not written down";
  }
  std::string operator()(const NotGiven& k) const {
    return quoted(k.action) + " counts as given when it is " + quoted(k.outcome) + ", and nobody has been called in step " +
           quoted(k.step);
  }
  std::string operator()(const TroubleEnds& k) const {
    return "when " + quoted(k.action) + " is " + quoted(k.outcome) + ", the night ends calmly at " + quoted(k.to) +
           " with nothing asked";
  }
  std::string operator()(const InsulinInWords& k) const {
    return one_line(k.where) + (k.stops ? " stops the basal insulin" : " gives insulin in words, and no action here gives it");
  }
  std::string operator()(const PumpForgotten& k) const {
    return k.lacks == "starts" ? quoted(k.action) + " pauses the pump, and nothing reminds anybody to start it again"
                               : quoted(k.action) + " pauses the pump, and nobody remembers that it is paused";
  }
  std::string operator()(const GlucagonForgotten& k) const {
    return quoted(k.action) + " is glucagon, and nobody remembers that it was given";
  }
  std::string operator()(const AskedTwice& k) const {
    return "step " + quoted(k.step) + " asks " + quoted(k.fact) + " again, and " + quoted(k.from) + " has just asked it";
  }
  std::string operator()(const OldReading& k) const {
    return "step " + quoted(k.step) + " waits " + one_line(k.lasts) + " after " + quoted(k.action) + " and then takes a " +
           quoted(k.fact) + " that is up to " + one_line(k.fresh) + " old, from before it";
  }
  std::string operator()(const WaitUnusual& k) const {
    return "step " + quoted(k.step) + " waits " + one_line(k.time) + " " + one_line(k.what) + "; usual are " + one_line(k.least) +
           " to " + one_line(k.most);
  }
  std::string operator()(const ReadingTooOld& k) const {
    return "step " + quoted(k.step) + " takes a " + quoted(k.fact) + " that is up to " + one_line(k.fresh) +
           " old; after " + one_line(k.most) + " it is another";
  }
  std::string operator()(const DoseOfAnyChild& k) const {
    return "row " + std::to_string(k.row) + " of " + quoted(k.dose) +
           " is bounded by no part of the daily dose and by nothing for each kilogram: a toddler may get as much as an adult";
  }
  std::string operator()(const WatchElsewhere& k) const {
    return one_line(k.others) + " watch " + quoted(k.watch) + ", and this file does not: what is told here leads nowhere";
  }
  std::string operator()(const DegreesApart& k) const {
    return quoted("{" + k.celsius + "}") + " and " + quoted("{" + k.fahrenheit + "}") +
           " stand for one temperature, and " + one_line(k.is);
  }
  std::string operator()(const EarlyRuleUntold& k) const {
    return "rule " + quoted(k.rule) + " is `early` but nothing that it reads can be told during a wait";
  }
  std::string operator()(const UntilWithoutWait& k) const {
    const std::string owner =
        k.step.empty() ? "this text stands in no step" : "step " + quoted(k.step) + " has no wait";
    return quoted("{" + k.blank + "}") + " is the end of a wait, and " + owner;
  }
  std::string operator()(const UntilBeforeStart& k) const {
    return "`{until}` is not known in step " + quoted(k.step) + " before " + quoted(k.after) +
           ", which starts its wait";
  }
  std::string operator()(const AsksAtOnce& k) const {
    return "step " + quoted(k.step) + " gives " + quoted(k.action) + " and asks " + quoted(k.fact) +
           " again at once: it has no wait";
  }
  std::string operator()(const DoseNotCovered& k) const {
    return "no row of " + quoted(k.dose) + " takes " + one_line(k.example);
  }
  std::string operator()(const DoseRowNeverMatches& k) const {
    return "row " + std::to_string(k.row) + " of " + quoted(k.dose) + " can never match";
  }
  std::string operator()(const BorderTakenTwice& k) const {
    return one_line(k.what) + "s " + std::to_string(k.earlier) + " and " + std::to_string(k.later) + " of " +
           (k.what == "row" ? quoted(k.owner) : "step " + quoted(k.owner)) + " both take " + one_line(k.example) +
           " and do not agree: " + one_line(k.what) + " " + std::to_string(k.earlier) + " counts";
  }
  std::string operator()(const BorderApart& k) const {
    const bool holds = k.written == "at-least" || k.written == "below";
    return "exactly " + quoted(k.threshold) + " counts " + (holds ? "as above it" : "as below it") + " here (" +
           quoted(k.written) + "), and " + (holds ? "as below it" : "as above it") + " in the " +
           std::to_string(k.times) + " other places";
  }
  std::string operator()(const GlucagonUncounted& k) const {
    return quoted(k.action) + " gives glucagon and does not count it: no rule knows how often it was given";
  }
  std::string operator()(const DoseFalls& k) const {
    return "row " + std::to_string(k.row) + " of " + quoted(k.dose) + " gives " + one_line(k.amount) + " (" + one_line(k.child) +
           "), and row " + std::to_string(k.other) + " more, " + one_line(k.other_amount) + " (" + one_line(k.other_child) + ")";
  }
  std::string operator()(const BoundsCrossed& k) const {
    return "row " + std::to_string(k.row) + " of " + quoted(k.dose) + " gives at least " + quoted(k.least) + ", " +
           one_line(k.least_value) + ", but at most " + quoted(k.most) + ", " + one_line(k.most_value);
  }
  std::string operator()(const DoseOfNothing& k) const {
    return "row " + std::to_string(k.row) + " of " + quoted(k.dose) + " gives " + one_line(k.amount) + " (" +
           one_line(k.child) + ")";
  }
  std::string operator()(const DoseAboveCap& k) const {
    return "row " + std::to_string(k.row) + " of " + quoted(k.dose) + " gives up to " + one_line(k.amount) + " (" +
           one_line(k.child) + "), and other rows stop at " + quoted(k.cap) + ", " + one_line(k.most);
  }
  std::string operator()(const DoseBelowLeast& k) const {
    return "row " + std::to_string(k.row) + " of " + quoted(k.dose) + " gives as little as " + one_line(k.amount) + " (" +
           one_line(k.child) + "), and other rows never less than " + quoted(k.least) + ", " + one_line(k.value);
  }
  std::string operator()(const DoseWithoutCap& k) const {
    return "row " + std::to_string(k.row) + " of " + quoted(k.dose) + " has no `most` and gives up to " +
           one_line(k.amount) + " (" + one_line(k.child) + ")";
  }
  std::string operator()(const DoseWithoutLeast& k) const {
    return "row " + std::to_string(k.row) + " of " + quoted(k.dose) + " has no `least` and gives as little as " +
           one_line(k.amount) + " (" + one_line(k.child) + ")";
  }
  std::string operator()(const BeyondPublished& k) const {
    return quoted(k.dose) + " gives up to " + one_line(k.amount) + " (" + one_line(k.child) +
           "), and the largest published dose is " + one_line(k.most) + " (" + one_line(k.source) + ")";
  }
  std::string operator()(const UnknownStart&) const { return "the protocol does not name its first step"; }

  std::string operator()(const SeveralNumbers& k) const {
    return quoted(k.id) + " is the name of " + std::to_string(k.names.size()) + " numbers in this set";
  }
  std::string operator()(const BandUnnamed& k) const {
    return quoted(k.threshold) + " has " + std::to_string(k.bands.size()) + " bands, and none is named";
  }
  std::string operator()(const OtherUnitUnstated& k) const {
    return quoted(k.threshold) + " has two values, and only " + one_line(k.stated) + " is stated";
  }
  std::string operator()(const StaleRow& k) const {
    const std::string was = k.was.empty() ? "something else" : quoted(k.was);
    return "the table was made when " + quoted(k.threshold) + " was " + was + ", and now it is " + quoted(k.now);
  }
  std::string operator()(const NotATable& k) const { return "this is not a table of numbers: " + one_line(k.what); }
  std::string operator()(const NotWritten& k) const { return "this cannot be written: " + one_line(k.reason); }
  std::string operator()(const ChangedMeanwhile&) const {
    return "somebody else changed this file after it was read here";
  }

  std::string operator()(const JournalDamaged& k) const { return "the journal is damaged: " + one_line(k.what); }
  std::string operator()(const JournalNewer& k) const {
    return "the journal is of format " + one_line(k.found) + ", newer than " + one_line(k.known);
  }
  std::string operator()(const WrongUse& k) const { return one_line(k.what); }
};

}  // namespace

std::string sentence(const Kind& kind) { return kind.visited_by(Sentence{}); }

}  // namespace rushlight
