#pragma once

#include <string>
#include <string_view>

#include "finding/finding.hpp"
#include "protocol/draft.hpp"

namespace rushlight {

/// A protocol as it is written, every word with its place. Ids and quantities stay words: resolve looks them up.
/// Findings come in file order. Although there are findings, the draft holds everything that could be understood, so
/// that resolve can add its own in the same run; it is absent only when the bytes are no XML or the outermost element
/// is not
/// `<protocol>`. Of repeated single elements the first counts; unknown elements and attributes are left out.
Read<Draft> protocol_from_xml(std::string_view bytes, std::string file_name);

}  // namespace rushlight
