#pragma once

#include <string>

#include "finding/attribute_words.hpp"
#include "finding/finding.hpp"
#include "finding/quoted.hpp"

// Private to engine/finding: the sentences about what stands otherwise in one place than in all others.

namespace rushlight {

struct SentenceOfSets {
  std::string operator()(const LanguagesApart& k) const {
    const auto says = [](const std::string& word) { return word.empty() ? std::string("says nothing like it") : "says " + quoted(word); };
    if (k.english.empty()) return "the `es` text of " + quoted_element(k.element) + " " + says(k.spanish) + ", and the `en` text " + says("");
    return "the `en` text of " + quoted_element(k.element) + " " + says(k.english) + ", and the `es` text " + says(k.spanish);
  }
  std::string operator()(const BlankMisread& k) const {
    const std::string blank = quoted("{" + k.blank + "}");
    if (k.before.empty()) return blank + " is a time of the clock, like 02:26, and no word such as \"at\" stands before it";
    return "behind " + quoted(k.before) + " stands " + blank + ", which reads \"in 15 minutes\" or \"at 02:26\"";
  }
  std::string operator()(const ReadsAsOther& k) const {
    return "the answer " + quoted(k.one) + " of " + quoted(k.fact) + " has the " + quoted(k.language) + " text of the answer " + quoted(k.other);
  }
  std::string operator()(const SignReadsAs& k) const {
    return "who chooses this line records " + quoted(k.fact) + ": " + quoted(k.answer) + ", and its " + quoted(k.language) +
           " text is that of " + quoted(k.other_fact) + ": " + quoted(k.other_answer);
  }
  std::string operator()(const ShownOtherwise& k) const {
    return quoted(k.action) + " is shown " + when_words(k.here) + ", and the " + others(k.times) + " with the same words " + when_words(k.there);
  }
  std::string operator()(const PumpUnworn& k) const {
    return quoted(k.action) + " is about a pump, and only children on injections are shown it";
  }
  std::string operator()(const OtherBlank& k) const {
    return quoted(k.blank) + " stands in this sentence, and " + quoted(k.usual) + " where it is said elsewhere (" + std::to_string(k.times) + " places)";
  }
  std::string operator()(const OtherProtocol& k) const {
    const std::string here = "step " + quoted(k.step) + " leads to protocol " + quoted(k.to);
    if (k.when.empty()) return here + ", and the " + others(k.times) + " of this file that leave it to " + quoted(k.usual);
    return here + " with " + one_line(k.when) + ", and the " + others(k.times) + " that look at this to " + quoted(k.usual);
  }
  std::string operator()(const CannotTellElsewhere& k) const {
    const std::string cannot = "when nobody can tell " + quoted(k.fact);
    if (k.together && k.times == 0)
      return cannot + ", step " + quoted(k.step) + " goes on to " + quoted(k.to) + " as with the answer " + quoted(k.answer) + ", which is the calm one";
    if (k.together)
      return cannot + ", step " + quoted(k.step) + " goes on to " + quoted(k.to) + " as with the answer " + quoted(k.answer) + ", and in no other place (" +
             std::to_string(k.times) + " look at both)";
    if (k.times == 0)
      return "step " + quoted(k.step) + " goes the same way with every answer to " + quoted(k.fact) + ", to " + quoted(k.to) +
             ", and only \"can't tell\" leads to something graver";
    const std::string calm = k.unknown ? "\"can't tell\"" : quoted(k.answer), other = k.unknown ? quoted(k.answer) : "\"can't tell\"";
    return calm + " of " + quoted(k.fact) + " leads to " + quoted(k.to) + " here, which is calmer than where " + other + " leads; everywhere else the two go the same way (" +
           std::to_string(k.times) + (k.times == 1 ? " place)" : " places)");
  }
  std::string operator()(const WatchHeldBack& k) const {
    return "watch " + quoted(k.watch) + " looks out for this: " + one_line(k.sees) + "; and it fires only with " + one_line(k.beside) + " too";
  }
  std::string operator()(const OddWay& k) const {
    return one_line(k.from) + " leads to " + quoted(k.to) + ", and the " + std::to_string(k.times) + " other ways there are all " + one_line(k.usual);
  }
  std::string operator()(const DrinksApart& k) const {
    const std::string sweet = "sugary drinks", plain = "water or sugar-free drinks";
    return quoted(k.action) + " tells to give " + (k.sweet ? sweet : plain) + ", and another text of step " + quoted(k.step) + " " + (k.sweet ? plain : sweet);
  }
  std::string operator()(const HeadlineAlone& k) const {
    return "the headline of step " + quoted(k.step) + " tells the amount " + quoted("{" + k.dose + "}") + ", and nothing in the step gives it";
  }

 private:
  static std::string others(int times) { return std::to_string(times) + " others"; }
  static std::string when_words(const std::string& conditions) { return conditions.empty() ? "to every child" : "with " + one_line(conditions); }
};

}  // namespace rushlight
