#pragma once

#include <string>

#include "finding/finding.hpp"
#include "finding/quoted.hpp"

// Private to engine/finding: what would mend a broken law, or a worked example that comes out otherwise.

namespace rushlight {

struct RemedyOfLaws {
  /// A night that the program could not be led through is a thought of the proof only: it may be that no child has it.
  static std::string look_at_night(const std::string& night, bool walked) {
    return "look at this night (" + one_line(night) + ")" +
           (walked ? "" : ", through which the program could not be led,");
  }

  std::string operator()(const NeverBroken& k) const {
    return "let a rule above this one take " + one_line(k.example) + " to another step than " +
           quoted(k.step) + ", or change the law " + quoted(k.law);
  }
  std::string operator()(const CallTooLate& k) const {
    return look_at_night(k.night, k.walked) +
           " and shorten a wait, or let a counter reach its limit sooner; or write " + quoted(k.after) +
           " into the law if the clinic wants it so";
  }
  std::string operator()(const CallNever& k) const {
    return look_at_night(k.night, k.walked) + " and let it lead to a step that is " + quoted(k.urgency) + " or graver";
  }
  std::string operator()(const LawNotShown& k) const { return "say more of the child in " + quoted(k.law) + ", or leave the law out"; }
  std::string operator()(const WorseIsCalmer& k) const {
    return "let " + one_line(k.worse) + " lead to a step that is " + quoted(k.better_urgency) + " or graver, or change the law " +
           quoted(k.law);
  }
  std::string operator()(const WorseTurned& k) const {
    return "write " + quoted(k.worse == "lower" ? "worse=\"higher\"" : "worse=\"lower\"");
  }
  std::string operator()(const LawIdle& k) const { return "mend " + quoted(k.law) + ", or take it out: whoever reads it believes it holds"; }
  std::string operator()(const UnknownIsCalm&) const { return "let it lead where a bad answer leads, or to a call"; }
  std::string operator()(const LookOutside& k) const {
    return "name a time that the law allows in step " + quoted(k.step) + ", or change the law";
  }
  std::string operator()(const HardToRead& k) const {
    return "write shorter words than " + quoted(k.word) + ", and sentences of fewer than " +
           std::to_string(k.sentence) + " words";
  }
  std::string operator()(const ExampleDiffers& k) const {
    const bool is_there = k.came != kNotOnTheScreen;
    return "mend the protocol, or " + (is_there ? "write " + one_line(k.came) + " into" : "take the dose out of") +
           " the example if the clinic wants it so";
  }
  std::string operator()(const ExampleStuck&) const { return "tell what the screen asks for there, or take this line out of the example"; }
};

}  // namespace rushlight
