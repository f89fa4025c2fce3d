#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "finding/kinds.hpp"

namespace rushlight {

/// What a file is looked at for, in the order in which it is done. A finding says that one of these does not hold.
enum class Property : std::uint8_t {
  readable,
  words_known,
  names_stand_for_one_thing,
  numbers_fit,
  texts_complete,
  sources_named,
  outcomes_covered,  // the last of the reading; from here on the sense of a protocol
  answers_covered,
  no_dead_rule,
  doses_covered,
  rules_read_what_is_asked,
  steps_connected,
  loops_bounded,
  dangers_watched,
  giving_apart,
  own_laws_kept,  // those of the set's safety.xml
  examples_come_out,  // those of the set's examples.xml
  usable,  // journals, and how the program was called: no property of a file that is checked
};
inline constexpr int kProperties = 18;

/// The properties that anything but a protocol does not have are those from `answers_covered` on.
constexpr bool is_about_sense(Property property) { return property >= Property::answers_covered; }

/// The stable id, for other programs: "answers-covered".
std::string id_of(Property property);

/// "every answer has a rule, \"can't tell\" too": what holds when there is no finding.
std::string sentence(Property property);

/// The property that a finding of this kind breaks.
Property property_of(const Kind& kind);

/// What a protocol, or a child file, is looked at for.
std::vector<Property> properties_of_protocols();
std::vector<Property> properties_of_child_files();

}  // namespace rushlight
