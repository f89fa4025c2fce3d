#pragma once

#include <iosfwd>
#include <string>
#include <variant>

#include "finding/finding.hpp"

namespace rushlight {

/// A passphrase, or why there is none.
using Passphrase = std::variant<std::string, Finding>;

/// The first line of `file`; without one it is asked for on the terminal, not shown, or read as one line of the
/// standard input when that is no terminal. Never a word of the command line: others can read those.
Passphrase passphrase_for_key(const std::string& file, std::ostream& asks);

/// The same for a new key: on a terminal it is typed twice, and a short one is refused.
Passphrase new_passphrase(const std::string& file, std::ostream& asks);

}  // namespace rushlight
