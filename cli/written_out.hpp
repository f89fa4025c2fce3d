#pragma once

#include <cstdint>
#include <iosfwd>
#include <optional>
#include <string>

#include "finding/finding.hpp"

namespace rushlight {

/// Who may read what is written: only its owner, when it is about a child.
enum class Reader : std::uint8_t { owner, everybody };

/// Puts bytes into the file that somebody named with --out, over what lies there: whole or not at all, and durable. A
/// link stays a link; a pipe or a device gets the bytes as they are. Empty: it is written.
std::optional<Finding> write_over(const std::string& path, const std::string& bytes, Reader reader);

/// What is about a child: into the file for its owner, or printed where none is named. Gives the exit status.
int put_out(const std::string& path, const std::string& bytes, std::ostream& out, std::ostream& err);

}  // namespace rushlight
