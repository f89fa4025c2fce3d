#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "protocol/threshold.hpp"

namespace rushlight {

/// What a band is called on the command line and in a table: the child and the hours it is for, as one word that a
/// shell leaves alone. "under-6-years", "6-to-under-12-years", "from-12-years", "10-to-under-20-kg", "22:00-to-06:00",
/// "from-6-years-and-22:00-to-06:00"; "every-child" for a band without ends.
/// Two bands of one threshold never share a name: they would hold the same child.
std::string name_of(const Band& band);

/// The place of the band of this name. Empty when none has it.
std::optional<std::size_t> band_named(const Threshold& threshold, std::string_view name);

/// Whether the value depends on the child or the hour.
bool has_bands(const Threshold& threshold);

}  // namespace rushlight
