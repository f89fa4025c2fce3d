#pragma once

#include <string>
#include <variant>

#include "finding/finding.hpp"

namespace rushlight {

using FileBytes = std::variant<std::string, Finding>;

/// The whole of an ordinary file. Refuses what cannot be opened, is no ordinary file, or is larger than `most` bytes,
/// before reading it.
FileBytes bytes_of_file(const std::string& path, std::size_t most);

}  // namespace rushlight
