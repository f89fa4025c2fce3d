#pragma once

#include <string>

#include "verify/check.hpp"

namespace rushlight::test {

/// A protocol of a set in the tree, linked with those it can come to, as the program walks it. Approved: every file of the
/// set signed with a key made for the occasion and trusted, as a clinic would.
const CheckedProtocol& walked_protocol(const std::string& folder, const std::string& name, bool approved);

}  // namespace rushlight::test
