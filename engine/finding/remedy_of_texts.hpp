#pragma once

#include <string>

#include "finding/attribute_words.hpp"
#include "finding/finding.hpp"
#include "finding/quoted.hpp"

// Private to engine/finding: what would mend a text, or files of a set that do not fit together.

namespace rushlight {

struct RemedyOfTexts {
  std::string operator()(const MissingLanguage& k) const {
    return "add " + quoted("<" + k.language + ">...</" + k.language + ">") + " inside " + quoted_element(k.element);
  }
  std::string operator()(const EmptyText& k) const {
    return "write the text between " + quoted_element(k.language) + " and " + quoted_element("/" + k.language);
  }
  std::string operator()(const PlaceholderMissing& k) const {
    return "write " + quoted("{" + k.name + "}") + " in the " + quoted(k.language) + " text too";
  }
  std::string operator()(const BlankUnfilled& k) const { return one_line(k.right) + ", or take " + quoted("{" + k.blank + "}") + " out of the text"; }
  std::string operator()(const OtherLanguage& k) const {
    return "write it in " + name_of_language(k.language) +
           ", or change the two texts over if each stands in the other's place";
  }
  std::string operator()(const LanguageLacking& k) const {
    return "write the texts of " + quoted(k.protocol) + " in " + quoted(k.language) + " too, and add it to `languages`";
  }
  std::string operator()(const NegationMissing& k) const {
    return "look whether both say the same: whoever reads " + name_of_language(k.language) +
           " may be told to do what the other is told to leave";
  }
  std::string operator()(const NumberInText&) const {
    return "write the name of the number in braces, like `{recheck}`, or the words without it";
  }
  std::string operator()(const GarbledText&) const { return "write the letters anew and save the file as UTF-8"; }
  std::string operator()(const ReadsAlike&) const { return "write what each of them means"; }
  std::string operator()(const OtherContact& k) const {
    return "write " + quoted("{" + k.own + "}") + " in the text, or change `contact`";
  }
  std::string operator()(const OtherDoseNamed& k) const {
    return "write " + quoted("{" + k.dose + "}") + " in the text, or change `dose`";
  }
  std::string operator()(const NumberUntold& k) const { return "write " + quoted("{" + k.number + "}") + " into it"; }
  std::string operator()(const AmountUntold& k) const {
    return "write " + quoted("{" + k.dose + "}") + " or `{food}` in the text";
  }
  std::string operator()(const NobodyUses& k) const {
    return "look for the line that named " + quoted(k.id) + ": it may be lost, or names another now; take this out only when neither is so";
  }
  std::string operator()(const ApartInSet& k) const {
    if (k.here.empty()) return "write the same words in both files: one answer counts in both";
    return "write the same in both files: a child may go from one to the other within a night";
  }
  std::string operator()(const SetsMixed&) const {
    return "look whether a file of another set was copied here; write one name in all files";
  }
  std::string operator()(const SignElsewhere& k) const {
    return "add " + quoted("<sign fact=\"" + k.fact + "\" is=\"" + k.answer + "\">") + " with its texts to `<worse>`";
  }
  std::string operator()(const WatchElsewhere& k) const {
    return "put the rule " + quoted(k.watch) + " back into `<watch>`, with a step of this file to lead to";
  }
  std::string operator()(const DegreesApart& k) const { return "change one of them: " + one_line(k.right); }
};

}  // namespace rushlight
