#pragma once

#include <iosfwd>
#include <vector>

#include "cli/number_changes.hpp"
#include "cli/thresholds_command.hpp"

namespace rushlight {

/// The changing half of `rushlight thresholds`: works the wishes out, checks the set as it would be, shows everything,
/// asks where asking is due, writes, and says how to undo it. Wishes that could not be read are refused. Gives the
/// exit status.
int change_numbers(const NumbersSet& set, Read<std::vector<Wish>> wishes, const ThresholdsOptions& options,
                   Language language, std::istream* asked, std::ostream& out, std::ostream& err);

}  // namespace rushlight
