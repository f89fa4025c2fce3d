#pragma once

#include <optional>
#include <string>
#include <vector>

#include "finding/finding.hpp"

namespace rushlight {

struct Replacement {
  std::string path;
  std::string before;  // what was read there
  std::string after;
};

/// The file that is written for a path: behind a symbolic link the one it points to. Empty when there is none.
std::optional<std::string> file_behind(const std::string& path);

/// Writes all of them or none, each whole or not at all: every new file is made durable beside the old one before the
/// first takes its place, with the mode and the owner of the old one; a symbolic link stays and the file behind it is
/// replaced. What another program wrote since `before` was read is never lost: the two files change places, and change
/// back when the old one is not what it was. A failure in the middle puts back what was replaced. Only a program that
/// is killed, or a machine that stops, between two files can leave some replaced and others not.
///
/// Refuses a file that is read-only, that belongs to somebody whose name a new file cannot bear, and a disk or a folder
/// that takes no new file. Empty: all is written.
std::optional<Finding> replace_files(const std::vector<Replacement>& all);

/// What replace_files would refuse now, before anybody is asked for anything: each new file is made beside the old one
/// and taken away again.
std::optional<Finding> why_not_replaced(const std::vector<Replacement>& all);

}  // namespace rushlight
