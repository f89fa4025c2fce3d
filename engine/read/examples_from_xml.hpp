#pragma once

#include <string>
#include <string_view>

#include "protocol/examples_draft.hpp"

namespace rushlight {

/// The worked examples of a set as they are written (docs/examples-format.md), and everything that is wrong with the
/// bytes or the words. The draft is there as long as the file is XML with `<examples>` outermost; it then holds what
/// was understood.
Read<ExamplesDraft> examples_from_xml(std::string_view bytes, std::string file_name);

}  // namespace rushlight
