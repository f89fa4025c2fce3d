#include "finding/attribute_words.hpp"
#include "finding/finding.hpp"
#include "finding/number_words.hpp"
#include "finding/quoted.hpp"
#include "finding/remedy_of_laws.hpp"
#include "finding/remedy_of_sets.hpp"
#include "finding/unit_words.hpp"

namespace rushlight {
namespace {

std::vector<std::string> elements(const std::vector<std::string>& names) {
  std::vector<std::string> written;
  for (const std::string& name : names) written.push_back("<" + name + ">");
  return written;
}

// The word that was meant, or the words there are; `nothing` when there are none.
std::string write_one_of(const std::string& written, const std::vector<std::string>& known,
                         const std::string& nothing) {
  if (known.empty()) return nothing;
  const std::optional<std::string> near = near_word(written, known);
  return "write " + (near ? quoted(*near) : quoted_choice(known));
}

// The name in lower-case words joined by hyphens; empty when letters would have to be made up.
std::string kebab(const std::string& written) {
  std::string name;
  for (const char c : written) {
    const bool small = (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9');
    if (small) {
      name += c;
    } else if (c >= 'A' && c <= 'Z') {
      const bool new_word =
          !name.empty() && name.back() >= 'a' && name.back() <= 'z' && written.find(' ') == std::string::npos;
      if (new_word && written.find_first_of("abcdefghijklmnopqrstuvwxyz") != std::string::npos) name += '-';
      name += static_cast<char>(c - 'A' + 'a');
    } else if (c == ' ' || c == '_' || c == '-' || c == '.') {
      if (!name.empty() && name.back() != '-') name += '-';
    } else {
      return {};
    }
  }
  while (!name.empty() && name.back() == '-') name.pop_back();
  return !name.empty() && name.front() >= 'a' && name.front() <= 'z' ? name : std::string{};
}

// A glucose in mg/dL is eighteen times the same in mmol/L.
bool have_changed_places(const ValuesDisagree& k) {
  const auto mg = decimal_from_text(k.mg_per_dl), mmol = decimal_from_text(k.mmol_per_l);
  const auto *one = std::get_if<Decimal>(&mg), *other = std::get_if<Decimal>(&mmol);
  return one != nullptr && other != nullptr && *one < *other;
}

std::string comparison_for(const WrongFactKind& k) {
  const bool is = k.comparison == "is";
  const bool sizes =
      k.comparison == "below" || k.comparison == "at-least" || k.comparison == "above" || k.comparison == "at-most";
  const bool chosen = k.kind == "yes-no" || k.kind == "choice" || k.kind == "ordered-choice";
  const bool number = k.kind == "glucose" || k.kind == "ketones" || k.kind == "count" || k.kind == "time-since";
  if (sizes && chosen) return "compare it with `is`";
  if (is && number) return "compare it with `below`, `at-least`, `above` or `at-most`, or write `is=\"unknown\"`";
  return {};
}

// A brace that was never closed round one word; anything else needs a guess.
std::string closed(const std::string& written) {
  if (written.size() < 2 || written.front() != '{') return {};
  const std::string name = written.substr(1);
  return kebab(name) == name ? "write " + quoted("{" + name + "}") : std::string{};
}

constexpr std::size_t kMostNamesToOffer = 12;

const char* const kBandsMeet = "let each band begin where the band before it ends, the first and the last open";

std::string taken_together(const std::string& noun, const std::vector<int>& numbers) {
  return "see whether " + noun + in_a_row(numbers) + " take too much; ";
}

// One line for each kind and no other: a new kind without a remedy does not compile.
// Empty where nothing certain can be said.
struct Remedy : RemedyOfSets, RemedyOfLaws {
  using RemedyOfSets::operator();
  using RemedyOfLaws::operator();
  std::string operator()(const NotReadable&) const { return {}; }
  std::string operator()(const TooLarge& k) const { return "bring " + one_line(k.what) + " down to " + std::to_string(k.most) + " or less"; }
  std::string operator()(const NotUtf8&) const { return "save the file as UTF-8 in your editor"; }
  std::string operator()(const ForbiddenCharacter&) const { return "delete it"; }
  std::string operator()(const NotXml& k) const { return one_line(k.right); }
  std::string operator()(const NotJson&) const { return {}; }
  std::string operator()(const RepeatedKey& k) const { return "keep one " + quoted(k.key) + " and delete the other"; }

  std::string operator()(const UnknownKey& k) const { return write_one_of(k.key, k.allowed, {}); }
  std::string operator()(const MissingKey& k) const { return "add " + quoted(k.key) + " to " + one_line(k.owner); }
  std::string operator()(const WrongType& k) const { return "write " + one_line(k.wanted); }

  std::string operator()(const UnknownElement& k) const {
    const bool is_language = k.element == "en" || k.element == "es";
    if (is_language && !k.allowed.empty() && k.allowed.front().size() == 2)
      return "add " + quoted(k.element) + " to `languages`, or take all these texts out";
    return write_one_of("<" + k.element + ">", elements(k.allowed),
                        "delete it: " + quoted_element(k.parent) + " holds nothing");
  }
  std::string operator()(const MissingElement& k) const { return "add " + quoted_element(k.element) + " inside " + quoted_element(k.parent); }
  std::string operator()(const RepeatedElement& k) const { return "keep one " + quoted_element(k.element) + " and delete the others"; }
  std::string operator()(const MisplacedElement& k) const { return "move it before " + quoted_element(k.before); }
  std::string operator()(const UnknownAttribute& k) const {
    return write_one_of(k.attribute, k.allowed, "delete it: " + quoted_element(k.element) + " takes none");
  }
  std::string operator()(const MissingAttribute& k) const {
    const std::string what = what_stands_in(k.attribute);
    return "add " + quoted(k.attribute + "=\"...\"") + " to " + quoted_element(k.element) +
           (what.empty() ? "" : ", with " + what);
  }
  std::string operator()(const WrongWord& k) const {
    // `clinic` is near `clinic-nov`, and calmer than what was meant.
    if (k.what == "urgency" && !k.allowed.empty()) return "write " + quoted_choice(k.allowed);
    if (k.what.starts_with("answer to") && (k.written == "LO" || k.written == "HI"))
      return k.written == "LO" ? "write `below=\"...\"`: LO is below every number" : "write `at-least=\"...\"`: HI is above every number";
    return write_one_of(k.written, k.allowed, {});
  }
  std::string operator()(const StrayText&) const { return "delete it, or move it into a text such as `<en>`"; }
  std::string operator()(const UnknownId& k) const {
    // Most often the watch rule was deleted and the steps that handle it were not.
    if (k.what == "watch rule" && !near_word(k.id, k.known)) {
      return "write the rule " + quoted(k.id) + " again in `<watch>`: it is lost or misspelt there; take it out of `handles` only if nobody has to look out for it";
    }
    // Of very many names none is meant more than another.
    return k.known.size() > kMostNamesToOffer && !near_word(k.id, k.known) ? "" : write_one_of(k.id, k.known, {});
  }
  std::string operator()(const UnusedName& k) const { return "write " + quoted(k.asked) + " here"; }
  std::string operator()(const RepeatedId& k) const {
    // Of these there can only be one of a name: another name would say something else.
    const bool only_one = k.what == "language" || k.what == "outcome" || k.what == "question";
    return only_one ? "delete one of the two" : "give this " + one_line(k.what) + " a name of its own";
  }
  std::string operator()(const BadId& k) const {
    const std::string name = kebab(k.id);
    return name.empty() ? name : "write " + quoted(name);
  }

  std::string operator()(const BadNumber& k) const {
    if (!k.right.empty()) return one_line(k.right);
    const std::string meant = value_meant_by(k.written);
    return meant.empty() ? meant : "write " + quoted(meant);
  }
  std::string operator()(const MissingUnit& k) const { return "write it like " + quoted(k.example); }
  std::string operator()(const WrongUnit& k) const {
    const std::string meant = amount_meant_by(k.written, k.wanted);
    return meant.empty() ? "write it in " + one_line(k.wanted) : "write " + quoted(meant);
  }
  std::string operator()(const OutOfRange& k) const {
    if (k.least.empty()) return "write " + one_line(k.most) + " or less";
    if (k.most.empty()) return "write " + one_line(k.least) + " or more";
    if (k.least == k.most) return "write " + one_line(k.least);
    return "write a value from " + one_line(k.least) + " to " + one_line(k.most);
  }
  std::string operator()(const ValuesDisagree& k) const {
    if (k.stated)
      return "write " + quoted(k.mg_per_dl + " mg/dL, " + k.expected_mmol_per_l + " mmol/L") + " or " +
             quoted(k.expected_mg_per_dl + " mg/dL, " + k.mmol_per_l + " mmol/L");
    if (have_changed_places(k)) return "change the two over: " + quoted("mg-dl=\"" + k.mmol_per_l + "\" mmol-l=\"" + k.mg_per_dl + "\"");
    return "write " + quoted("mmol-l=\"" + k.expected_mmol_per_l + "\"") + " or " +
           quoted("mg-dl=\"" + k.expected_mg_per_dl + "\"") +
           ", or name in `pair-exception` the source that prints this pair";
  }
  std::string operator()(const BandsGap&) const { return kBandsMeet; }
  std::string operator()(const BandsOverlap&) const { return kBandsMeet; }
  std::string operator()(const ImplausibleValue&) const { return {}; }
  std::string operator()(const BadDate&) const { return "write year, month and day like `2026-03-01`"; }

  std::string operator()(const UnknownPlaceholder& k) const {
    std::vector<std::string> known;
    for (const std::string& name : k.known) known.push_back("{" + name + "}");
    return write_one_of("{" + k.name + "}", known, {});
  }
  std::string operator()(const BadPlaceholder& k) const { return closed(k.written); }

  std::string operator()(const WrongFactKind& k) const { return comparison_for(k); }
  std::string operator()(const WrongThresholdKind& k) const { return "name a threshold of the kind " + one_line(k.wanted); }
  std::string operator()(const MissingSource&) const { return "add `source=\"...\"` with the id of a `<source>`"; }
  std::string operator()(const MissingOutcome& k) const {
    return "add " + quoted("<on outcome=\"" + k.outcome + "\" go=\"...\"/>") + " to " + quoted(k.action);
  }
  std::string operator()(const FactNotAsked& k) const { return "add " + quoted("<ask fact=\"" + k.fact + "\"/>") + " to step " + quoted(k.step); }
  std::string operator()(const UnknownNotCovered& k) const { return "write `unknown` into the rule that takes the gravest answer, or add a rule with " + quoted("<if fact=\"" + k.fact + "\" is=\"unknown\"/>"); }
  std::string operator()(const ValuesNotCovered& k) const { return "add a rule to step " + quoted(k.step) + " that takes " + one_line(k.example); }
  std::string operator()(const RuleNeverMatches& k) const {
    if (k.rule == 0) return "take `ends` off step " + quoted(k.step) + ", or its rules";
    const std::string named = "rule " + std::to_string(k.rule), gone = "delete " + named;
    if (!k.together.empty()) return taken_together("rules ", k.together) + gone + " if they are right";
    return k.earlier > 0 ? "move " + named + " above rule " + std::to_string(k.earlier) + ", or delete it" : gone;
  }
  std::string operator()(const NeverCounted& k) const { return "write " + quoted("counts=\"" + k.counter + "\"") + " on the step that it counts"; }
  std::string operator()(const ThresholdsCrossed& k) const {
    return "bring " + quoted(k.lower) + " below " + one_line(k.upper_value) + ", or raise " + quoted(k.upper) +
           " above " + one_line(k.lower_value);
  }
  std::string operator()(const StepUnreachable& k) const { return "let a rule, or `start`, lead to " + quoted(k.step) + ": the one that did may be lost; delete it only if no child has to come there"; }
  std::string operator()(const DeadEnd& k) const { return "add a rule to step " + quoted(k.step) + ": the one that led on may be lost; write `ends=\"yes\"` only if the night is over there"; }
  std::string operator()(const LoopWithoutWait& k) const {
    return "add a `<wait>` to " + (k.steps.size() == 1 ? "step " + quoted(k.steps.front()) : "one of these steps");
  }
  std::string operator()(const LoopWithoutLimit& k) const {
    if (!k.set_back.empty()) return "take " + quoted(k.set_back) + " out of `resets` of the rules that lead round";
    if (!k.counted.empty())
      return "add a rule with " + quoted("<if counter=\"" + k.counted + "\" at-least=\"...\"/>") + " above the one that leads back";
    const std::string what = k.steps.size() == 1 ? "step " + quoted(k.steps.front()) : "one of these steps";
    return "count " + what + " with `counts`, and add a rule that leaves when the count is reached";
  }
  std::string operator()(const WatchNotHandled& k) const {
    const std::string add = "add " + quoted(k.watch) + " to `handles` of step " + quoted(k.step);
    return k.other.empty() ? add : "let it lead to a step that handles it, such as " + quoted(k.other) + "; or " + add;
  }
  std::string operator()(const CalmerThanWatch& k) const {
    return "make step " + quoted(k.step) + " as urgent, or take " + quoted(k.watch) + " out of its `handles`";
  }
  std::string operator()(const WatchMissing& k) const { return "add a `<rule>` with " + quoted(k.condition) + " inside `<watch>`"; }
  std::string operator()(const WatchByTimeAlone&) const {
    return "add an answer to its conditions, or let a `<wait>` lead there when the time comes";
  }
  std::string operator()(const MouthWhileDanger& k) const {
    if (k.action.empty()) return "take the food out of the headline of step " + quoted(k.step);
    return "take " + quoted(k.action) + " out of step " + quoted(k.step);
  }
  std::string operator()(const TooCalm& k) const { return "write `urgency=\"emergency\"` on step " + quoted(k.step); }
  std::string operator()(const InsulinWithGlucagon& k) const { return "give glucagon in a step of its own, before or after step " + quoted(k.step); }
  std::string operator()(const EmergencyLeft& k) const {
    return "ask " + quoted(k.fact) + " in step " + quoted(k.step) +
           ", and let only an answer that ends the danger lead to " + quoted(k.to);
  }
  std::string operator()(const EmergencyNotCalled& k) const {
    return "add a `<do kind=\"call-emergency\">` without an `<if>` to step " + quoted(k.step);
  }
  std::string operator()(const CallsClinicOnly& k) const {
    return "write `kind=\"call-emergency\"` and `contact=\"emergency\"` on " + quoted(k.action) + ", or add such an action";
  }
  std::string operator()(const SignMissing& k) const {
    return "add " + quoted("<sign fact=\"" + k.fact + "\" is=\"" + k.answer + "\">") + " inside `<worse>`";
  }
  std::string operator()(const OpeningLacks& k) const { return "add " + quoted("<ask fact=\"" + k.fact + "\"/>") + " inside `<opening>`"; }
  std::string operator()(const DeedAnswers& k) const { return "take `records` off " + quoted(k.action) + ", and ask " + quoted(k.fact); }
  std::string operator()(const LateAndCalm& k) const {
    return "let the `<wait>` of step " + quoted(k.step) + " go to a step that calls" +
           (k.calmer ? ", as urgent as this one or more" : "");
  }
  std::string operator()(const InsulinFloorLow& k) const {
    return "write " + one_line(k.least) + " or more for " + quoted(k.threshold) + ", or name another `floor`";
  }
  std::string operator()(const InsulinWithoutDose& k) const { return "give " + quoted(k.action) + " a `dose` in [iU]"; }
  std::string operator()(const InsulinStacked& k) const {
    return "name a time of " + one_line(k.least) + " or more, or raise " + quoted(k.threshold);
  }
  std::string operator()(const WatchReadsNumber& k) const {
    return "add " + quoted("told=\"yes\"") + " to watch " + quoted(k.watch) + ": it then fires once, on a new number";
  }
  std::string operator()(const WatchUntold& k) const {
    return "add " + quoted("<sign fact=\"" + k.fact + "\" is=\"" + k.answer + "\">") + " inside `<worse>`";
  }
  std::string operator()(const SignUnwatched& k) const {
    return "add a `<rule>` with " + quoted("<if fact=\"" + k.fact + "\" is=\"" + k.answer + "\"/>") +
           " inside `<watch>`: the one that was there may be lost, or changed";
  }
  std::string operator()(const WatchLeadsBack& k) const { return "add " + quoted(k.watch) + " to `handles` of step " + quoted(k.step); }
  std::string operator()(const WatchCalms& k) const {
    const std::string where = k.others == 0 ? "step " + quoted(k.step) : "each of these steps";
    const std::string once =
        "write `told=\"yes\"` on watch " + quoted(k.watch) + " if it is news and no lasting danger, or ";
    return (k.told ? "" : once) + "add " + quoted(k.watch) + " to `handles` of " + where + ", or make " + quoted(k.to) +
           " as urgent";
  }
  std::string operator()(const CalmEnd& k) const {
    return "let a rule above this one take " + one_line(k.example) + " to another step than " + quoted(k.to);
  }
  std::string operator()(const NumberEndsCalmly&) const { return "let it lead to a step that treats or calls, and does not end the night"; }
  std::string operator()(const CallMissing& k) const { return "add a call to step " + quoted(k.step) + ", or to a step that leads to it"; }
  std::string operator()(const ComeIgnored& k) const {
    return "let rule " + std::to_string(k.rule) + " go to the step that says to leave now";
  }
  std::string operator()(const CalmerThanCall& k) const { return "write " + quoted("urgency=\"" + k.urgency + "\"") + " on step " + quoted(k.step); }
  std::string operator()(const DoseUnnamed& k) const { return "add `dose=\"...\"` to " + quoted(k.action); }
  std::string operator()(const NotGiven& k) const {
    return "write " + quoted("<on outcome=\"" + k.outcome + "\" go=\"...\"/>") + " with a step that helps on";
  }
  std::string operator()(const TroubleEnds& k) const {
    return "let " + quoted(k.outcome) + " lead to a step that asks, waits or calls, and not on to " + quoted(k.to);
  }
  std::string operator()(const InsulinInWords& k) const {
    return k.stops ? "write that the basal insulin goes on" : "take it out of the words, or give it by an action with a dose";
  }
  std::string operator()(const PumpForgotten& k) const {
    return k.lacks == "starts" ? "add `starts` and `lasts` to " + quoted(k.action)
                               : "add `records=\"pump-paused\" as=\"yes\"` to " + quoted(k.action);
  }
  std::string operator()(const GlucagonForgotten& k) const { return "add `counts` or `records` to " + quoted(k.action); }
  std::string operator()(const AskedTwice& k) const {
    return "write `fresh=\"...\"` on the question, or let an action of step " + quoted(k.step) + " measure again";
  }
  std::string operator()(const OldReading& k) const {
    return "take `fresh` out of the question, so that " + quoted(k.fact) + " is measured after the wait";
  }
  std::string operator()(const ReadingTooOld& k) const {
    return "name a shorter time in `fresh` of " + quoted(k.fact) + ", or leave it out: then it is measured anew";
  }
  std::string operator()(const DoseOfAnyChild&) const { return "write `most-percent` or `most-per-kg` into the row, beside `most`"; }
  std::string operator()(const WaitUnusual& k) const {
    return "name a time from " + one_line(k.least) + " to " + one_line(k.most) + ", unless the clinic wants it so";
  }
  std::string operator()(const EarlyRuleUntold& k) const {
    return "let " + quoted(k.rule) +
           " read only choices that its step asks, in a step with a `<wait>`; or drop `early`";
  }
  std::string operator()(const UntilWithoutWait& k) const {
    const std::string out = "take " + quoted("{" + k.blank + "}") + " out of the text";
    return k.step.empty() ? out : "add a `<wait>` to step " + quoted(k.step) + ", or " + out;
  }
  std::string operator()(const UntilBeforeStart&) const {
    return "write `{again}`: it reads \"in 15 minutes\" until the wait has started, then \"at 02:26\"";
  }
  std::string operator()(const AsksAtOnce& k) const { return "add a `<wait>` to step " + quoted(k.step); }
  std::string operator()(const DoseNotCovered& k) const {
    std::string wider;
    for (const DoseNotCovered::Wider& row : k.wider)
      wider += (wider.empty() ? "write "
                : row.alone   ? ", or "
                              : ", and ") +
               quoted(row.comparison) + " in row " + std::to_string(row.row);
    return wider + (wider.empty() ? "add" : "; or add") + " a last `<row>` to " + quoted(k.dose) +
           " with `fixed`, or with `withheld=\"yes\"` and the reason";
  }
  std::string operator()(const DoseRowNeverMatches& k) const {
    const std::string gone = "delete row " + std::to_string(k.row);
    if (!k.together.empty()) return taken_together("rows ", k.together) + gone + " if they are right";
    return k.earlier > 0 ? gone + ", or move it above row " + std::to_string(k.earlier) : gone;
  }
  std::string operator()(const BorderTakenTwice& k) const {
    const auto in = [&](const std::string& comparison, int number) {
      return quoted(comparison) + " in " + one_line(k.what) + " " + std::to_string(number);
    };
    return "write " + in(k.earlier_without, k.earlier) + " if " + one_line(k.border) + " is for " + one_line(k.what) +
           " " + std::to_string(k.later) + ", or " + in(k.later_without, k.later) + " if it is for " +
           one_line(k.what) + " " + std::to_string(k.earlier);
  }
  std::string operator()(const BorderApart& k) const { return "write " + quoted(k.usual) + " here too"; }
  std::string operator()(const GlucagonUncounted& k) const {
    return "add " + quoted("counts=\"" + k.counter + "\"") + " to " + quoted(k.action);
  }
  std::string operator()(const DoseFalls& k) const {
    return "look whether the amounts of rows " + std::to_string(k.other) + " and " + std::to_string(k.row) + " have changed places";
  }
  std::string operator()(const BoundsCrossed& k) const {
    return "bring " + quoted(k.least) + " down to " + quoted(k.most) + " or below, or raise " + quoted(k.most);
  }
  std::string operator()(const DoseOfNothing& k) const {
    return "add `least=\"...\"` to row " + std::to_string(k.row) +
           ", or a row above it with `withheld=\"yes\"` and the reason";
  }
  std::string operator()(const DoseAboveCap& k) const {
    return "add `most=\"...\"` to row " + std::to_string(k.row) + " with the most for such a child, or raise " + quoted(k.cap);
  }
  std::string operator()(const DoseBelowLeast& k) const { return "add " + quoted("least=\"" + k.least + "\"") + " to row " + std::to_string(k.row); }
  std::string operator()(const DoseWithoutCap& k) const {
    return "add `most=\"...\"` to row " + std::to_string(k.row) + " with the most to give at once";
  }
  std::string operator()(const DoseWithoutLeast& k) const {
    return "add `least=\"...\"` to row " + std::to_string(k.row) + " with the least that is worth giving";
  }
  std::string operator()(const BeyondPublished& k) const {
    return "compare " + quoted(k.dose) + " with its source, or add `most=\"...\"` to its rows";
  }
  std::string operator()(const UnknownStart&) const { return "add `start=\"...\"` to `<protocol>`"; }

  std::string operator()(const SeveralNumbers& k) const { return "write " + quoted_choice(k.names); }
  std::string operator()(const BandUnnamed& k) const {
    std::vector<std::string> names;
    for (const std::string& band : k.bands) names.push_back(k.threshold + ":" + band);
    return "write " + quoted_choice(names, 24);
  }
  std::string operator()(const OtherUnitUnstated& k) const {
    return "write " + quoted(k.threshold + "=" + k.stated + ", " + k.proposed) + ", or take " + one_line(k.proposed) +
           " with `--yes`";
  }
  std::string operator()(const StaleRow&) const { return "make the table anew, and change the number there"; }
  std::string operator()(const NotATable& k) const { return one_line(k.right); }
  std::string operator()(const NotWritten& k) const {
    return k.right.empty() ? "make room, or name a place that may be written" : one_line(k.right);
  }
  std::string operator()(const ChangedMeanwhile&) const { return "look at what it says now, and give the command again"; }
  std::string operator()(const JournalDamaged&) const { return {}; }
  std::string operator()(const JournalNewer&) const { return "open it with the newer program that wrote it"; }
  std::string operator()(const WrongUse& k) const { return one_line(k.right); }
};

}  // namespace

std::string remedy(const Kind& kind) { return kind.visited_by(Remedy{}); }

}  // namespace rushlight
