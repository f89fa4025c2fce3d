#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "finding/finding.hpp"
#include "protocol/protocol.hpp"

namespace rushlight {

/// Protocols as text that another build of the engine reads back as the very same: every number and word, the standing
/// of an approval too. Words that occur twice are written once. What is not in it are the places in the clinic's
/// files, which only findings about those files name.
/// For protocols that were read and checked; whoever reads the text does not check them again.
std::string text_from_protocols(const std::vector<const Protocol*>& protocols);

/// Back again. Refuses a text that was cut, changed by accident (its sum) or written by another version of this format.
/// The sum is no signature: who can write the text can write the sum.
Read<std::vector<Protocol>> protocols_from_text(std::string_view text);

}  // namespace rushlight
