#pragma once

#include <string>

#include "finding/attribute_words.hpp"
#include "finding/finding.hpp"
#include "finding/quoted.hpp"
#include "finding/remedy_of_texts.hpp"

// Private to engine/finding: what would mend a place that stands otherwise than all others.

namespace rushlight {

struct RemedyOfSets : RemedyOfTexts {
  using RemedyOfTexts::operator();
  std::string operator()(const LanguagesApart&) const {
    return "write the same in both texts: a family is told what its own language says";
  }
  std::string operator()(const BlankMisread& k) const {
    if (k.before.empty()) return "write " + quoted("at {" + k.blank + "}") + ", or `{again}`";
    return "write `{until}` behind " + quoted(k.before) + ", or " + quoted("{" + k.blank + "}") + " alone";
  }
  std::string operator()(const ReadsAsOther& k) const {
    return "look at the texts of " + quoted(k.one) + " and " + quoted(k.other) + ": they stand in each other's place; change them over";
  }
  std::string operator()(const SignReadsAs& k) const {
    return "write the text of " + quoted(k.fact) + ": " + quoted(k.answer) + " here, or change `fact` and `is`";
  }
  std::string operator()(const ShownOtherwise& k) const {
    return "write the `<if>` of the others into " + quoted(k.action) + ", or other words if it is meant for other children";
  }
  std::string operator()(const PumpUnworn& k) const {
    return "write `is=\"pump automatic-pump\"`, or one of the two, into the `<if>` of " + quoted(k.action);
  }
  std::string operator()(const OtherBlank& k) const { return "write " + quoted(k.usual) + " if the same is meant here"; }
  std::string operator()(const OtherProtocol& k) const { return "write " + quoted(k.usual) + " in place of " + quoted(k.to); }
  std::string operator()(const CannotTellElsewhere& k) const {
    if (k.together) return "take `unknown` out of this rule, and write it into the rule with the graver answer";
    if (!k.unknown) return "take " + quoted(k.answer) + " out of this rule, and write it into the rule with `unknown`";
    return "write `unknown` into the rule that takes " + quoted(k.answer);
  }
  std::string operator()(const WatchHeldBack& k) const {
    return "take this `<if>` out of watch " + quoted(k.watch) + ", or add a watch without it below: one may be lost there";
  }
  std::string operator()(const OddWay&) const { return "look whether another step was meant in `go`"; }
  std::string operator()(const DrinksApart&) const {
    return "write the same drink in all texts of the step: sugary below the border of the glucose, sugar-free above it";
  }
  std::string operator()(const HeadlineAlone& k) const {
    return "put the action with " + quoted("dose=\"" + k.dose + "\"") + " back into step " + quoted(k.step) + ": it may be lost";
  }
};

}  // namespace rushlight
