#pragma once

#include "cli/protocol_set.hpp"

namespace rushlight {

/// `rushlight demo`: plays a full low of a set (main: the embedded reference set) with the demo child, from the first question to the
/// end, on a clock that is moved and not waited for. Prints every screen and every answer as a person would see and type
/// them, without one escape character, asks nothing and keeps no journal. Gives the exit status: 0 when the low ended well.
/// A set with an error is refused as everywhere: what is wrong and the first-aid card on standard error, status 1.
int demo(Language language, const ProtocolSet& set);

}  // namespace rushlight
