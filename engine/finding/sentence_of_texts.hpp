#pragma once

#include <string>

#include "finding/attribute_words.hpp"
#include "finding/finding.hpp"
#include "finding/quoted.hpp"

// Private to engine/finding: the sentences about texts, and about the files of a set beside each other.

namespace rushlight {

struct SentenceOfTexts {
  std::string operator()(const MissingLanguage& k) const {
    return quoted_element(k.element) + " has no text in " + quoted(k.language);
  }
  std::string operator()(const EmptyText& k) const {
    return "the " + quoted(k.language) + " text of " + quoted_element(k.element) + " is empty";
  }
  std::string operator()(const UnknownPlaceholder& k) const {
    return quoted("{" + k.name + "}") + " stands for nothing";
  }
  std::string operator()(const BadPlaceholder& k) const {
    return "a brace in " + quoted(k.written) + " has no partner";
  }

  std::string operator()(const PlaceholderMissing& k) const {
    return "the " + quoted(k.language) + " text has no " + quoted("{" + k.name + "}") + ", which the " +
           quoted(k.other) + " text has";
  }
  std::string operator()(const BlankUnfilled& k) const {
    return "nothing fills " + quoted("{" + k.blank + "}") + " here: " + one_line(k.why);
  }
  std::string operator()(const OtherLanguage& k) const {
    return "the " + quoted(k.language) + " text of " + quoted_element(k.element) + " reads like " +
           name_of_language(k.other);
  }
  std::string operator()(const LanguageLacking& k) const {
    return "protocol " + quoted(k.protocol) + " has no texts in " + quoted(k.language) + ", and " + quoted(k.from) +
           ", which has, leads to it";
  }
  std::string operator()(const NegationMissing& k) const {
    return "the " + quoted(k.other) + " text of " + quoted_element(k.element) + " says " + quoted(k.word) +
           ", and the " + quoted(k.language) + " text says nothing like it";
  }
  std::string operator()(const NumberInText& k) const {
    return quoted(k.written) + " is written into the text: it stays when the clinic changes its numbers";
  }
  std::string operator()(const GarbledText& k) const {
    return quoted(k.written) + " is what " + quoted(k.likely) + " becomes when a file is saved in the wrong encoding";
  }
  std::string operator()(const ReadsAlike& k) const {
    return "the " + one_line(k.what) + " " + quoted(k.one) + " and " + quoted(k.other) + " read alike in " +
           quoted(k.language);
  }
  std::string operator()(const OtherContact& k) const {
    return quoted(k.action) + " calls " + quoted(k.contact) + ", and its text gives " + quoted("{" + k.blank + "}");
  }
  std::string operator()(const OtherDoseNamed& k) const {
    return quoted(k.action) + " gives " + quoted(k.dose) + ", and the words here name " + quoted("{" + k.named + "}");
  }
  std::string operator()(const NumberUntold& k) const {
    return "the " + quoted(k.language) + " text of the call " + quoted(k.action) + " does not say which number to call";
  }
  std::string operator()(const AmountUntold& k) const {
    return "the text of " + quoted(k.action) + " does not say how much: it gives " + quoted(k.dose);
  }
  std::string operator()(const NobodyUses& k) const {
    const std::string named = "the " + one_line(k.what) + " " + quoted(k.id);
    return k.what == "counter" ? "no rule reads " + named : "nothing in this file uses " + named;
  }
  std::string operator()(const ApartInSet& k) const {
    const std::string named = one_line(k.what) + " " + quoted(k.id);
    if (k.here.empty()) return named + " reads otherwise in " + quoted(k.in);
    return named + " is " + one_line(k.here) + " here and " + one_line(k.there) + " in " + quoted(k.in);
  }
  std::string operator()(const SetsMixed& k) const {
    return "this file is of the set " + quoted(k.set) + ", and " + quoted(k.in) + " beside it is of " + quoted(k.other);
  }
  std::string operator()(const SignElsewhere& k) const {
    return quoted(k.fact) + ": " + quoted(k.answer) + " is a sign of getting worse in " + quoted(k.in) +
           " and cannot be told so here, where it is watched";
  }
};

}  // namespace rushlight
