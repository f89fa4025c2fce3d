#pragma once

#include <string>
#include <string_view>

#include "finding/finding.hpp"
#include "protocol/safety_draft.hpp"

namespace rushlight {

/// The laws of a clinic as they are written in the safety.xml of its set, in the order of the file. Every word is
/// looked at; whether a name exists in a protocol is safety_rules_of's business. Absent when the file is no XML or not
/// of this kind.
Read<SafetyDraft> safety_from_xml(std::string_view bytes, std::string file_name);

}  // namespace rushlight
