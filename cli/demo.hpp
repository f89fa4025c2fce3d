#pragma once

#include "protocol/text.hpp"

namespace rushlight {

/// `rushlight demo`: plays a full low of the embedded reference set with the demo child, from the first question to the
/// end, on a clock that is moved and not waited for. Prints every screen and every answer as a person would see and type
/// them, without one escape character, asks nothing and keeps no journal. Gives the exit status: 0 when the low ended well.
int demo(Language language);

}  // namespace rushlight
