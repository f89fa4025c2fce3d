#pragma once

#include <optional>
#include <string>

#include "verify/in_step.hpp"

// Private to engine/verify: what hangs on something that is counted or marked.

namespace rushlight {

/// A rule or a watch that reads a counter or a mark, and where it leads.
struct Reader {
  StepId to;
  std::optional<ThresholdId> limit;  // of a counter
};

/// The one that leads to the most urgent step; of equals the first in the file. None: nothing reads it.
std::optional<Reader> gravest_reader(const Protocol& protocol, const Tally& tally);
std::optional<Reader> gravest_reader(const Protocol& protocol, MarkId mark);

/// "at 3: `call-and-treat`, Call the clinic now"; of a mark "decides about `hospital`, Emergency".
std::string words_of(const Protocol& protocol, const Reader& reader);

}  // namespace rushlight
