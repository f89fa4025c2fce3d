#pragma once

#include <optional>
#include <string>

#include "episode/view.hpp"

namespace rushlight {

/// The view as one line of JSON, keys in a fixed order (docs/wire-format.md). Amounts are written digit for digit as
/// the dose table worked them out, with their UCUM unit. `saved` says whether the event behind it is in the journal;
/// without a journal it is left out.
std::string json_from_view(const View& view, std::optional<bool> saved = std::nullopt);

}  // namespace rushlight
