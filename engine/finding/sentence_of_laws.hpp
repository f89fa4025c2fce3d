#pragma once

#include <string>

#include "finding/finding.hpp"
#include "finding/quoted.hpp"

// Private to engine/finding: the sentences about a clinic's laws and worked examples.

namespace rushlight {

struct SentenceOfLaws {
  std::string operator()(const NeverBroken& k) const {
    return "against law " + quoted(k.law) + ", " + one_line(k.example) + " leads to step " + quoted(k.step) +
           ", which " + one_line(k.offence);
  }
  std::string operator()(const CallTooLate& k) const {
    return "against law " + quoted(k.law) + ", " + (k.walked ? "" : "nothing shows that ") + "a child with " +
           one_line(k.child) + " all night " + (k.walked ? "can come to " : "comes to ") + quoted(k.urgency) +
           (k.walked ? " only after " : " before ") + one_line(k.after) + " when " +
           (k.late ? "answers come as late as the protocol lets them" : "every question is answered at once") +
           "; the law says " + one_line(k.limit);
  }
  std::string operator()(const CallNever& k) const {
    const std::string child = "a child with " + one_line(k.child) + " all night ";
    if (!k.walked)
      return "against law " + quoted(k.law) + ", nothing shows that " + child + "comes to " + quoted(k.urgency);
    return "against law " + quoted(k.law) + ", " + child + "may never come to " + quoted(k.urgency) + ": the night " +
           one_line(k.how);
  }
  std::string operator()(const LawNotShown& k) const {
    return "nothing is said about law " + quoted(k.law) + ": there are too many nights to look through";
  }
  std::string operator()(const WorseIsCalmer& k) const {
    return "against law " + quoted(k.law) + ", " + one_line(k.worse) + " leads to " + quoted(k.worse_step) + " (" +
           one_line(k.worse_urgency) + "), and " + one_line(k.better) + " to " + quoted(k.better_step) + " (" +
           one_line(k.better_urgency) + ")";
  }
  std::string operator()(const WorseTurned& k) const {
    return "the law " + quoted(k.law) + " says that a child is worse with a " + one_line(k.worse) + " " + quoted(k.fact);
  }
  std::string operator()(const LawIdle& k) const {
    return "the law " + quoted(k.law) + " refuses nothing: " + one_line(k.why);
  }
  std::string operator()(const UnknownIsCalm& k) const {
    return "when nobody can tell " + quoted(k.fact) + ", step " + quoted(k.step) + " ends the night at " + quoted(k.to) +
           (k.law.empty() ? "" : ", as with the best answer");
  }
  std::string operator()(const LookOutside& k) const {
    const std::string from = k.least.empty() ? "" : "at least " + k.least, to = k.most.empty() ? "" : "at most " + k.most;
    return "step " + quoted(k.step) + " " + one_line(k.what) + " " + k.time + " (" + quoted(k.threshold) +
           "); the law " + quoted(k.law) + " says " + from + (from.empty() || to.empty() ? "" : ", ") + to;
  }
  std::string operator()(const HardToRead& k) const {
    const bool grade = k.language == "en";
    return "the " + quoted(k.language) + " " + one_line(k.what) + " " + (grade ? "of grade " : "of ease ") +
           one_line(k.measured) + (grade ? ", above " : ", below ") + one_line(k.limit);
  }
  std::string operator()(const ExampleDiffers& k) const {
    return "in example " + quoted(k.example) + ", " + one_line(k.after) + " after it began, the " + one_line(k.what) +
           " is " + one_line(k.came) + ", and " + one_line(k.expected) + " was expected";
  }
  std::string operator()(const ExampleStuck& k) const {
    return "example " + quoted(k.example) + " cannot go on " + one_line(k.after) + " after it began: " + one_line(k.why);
  }
};

}  // namespace rushlight
