#pragma once

#include <optional>
#include <string>

#include "finding/finding.hpp"

namespace rushlight {

/// Writes a new file that only its owner can read (0600), whole or not at all: a temporary file beside it, made
/// durable, then given its name. Refuses when something has that name already. Missing folders are made (0700). Empty:
/// it is written.
std::optional<Finding> write_private_file(const std::string& path, const std::string& bytes);

/// The same for a file that is meant for others too (0644, less what the umask takes).
std::optional<Finding> write_public_file(const std::string& path, const std::string& bytes);

}  // namespace rushlight
