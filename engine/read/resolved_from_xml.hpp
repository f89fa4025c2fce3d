#pragma once

#include <string>
#include <string_view>

#include "finding/finding.hpp"
#include "protocol/draft.hpp"
#include "protocol/protocol.hpp"

namespace rushlight {

/// From the bytes of a file to a protocol with every id looked up and every number read, in one run: the findings of
/// protocol_from_xml and of resolve, in file order. Where the reader has spoken about a place, what resolve says about
/// the same place follows from it and is left out. The protocol is absent when one finding is an error.
Read<Protocol> resolved_from_xml(std::string_view bytes, std::string file_name);

/// The same of a file that was read already.
Read<Protocol> resolved_draft(Read<Draft> draft);

}  // namespace rushlight
