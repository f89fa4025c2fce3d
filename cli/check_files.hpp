#pragma once

#include <iosfwd>
#include <string>

namespace rushlight {

/// `rushlight check FILE|FOLDER`: every finding about a protocol (*.xml), a child file (*.json) or a folder of
/// protocols, in file order; a last line says how it ended. Gives the exit status: 0 nothing wrong, 1 findings, 2 not
/// readable.
int check_files(const std::string& path, std::ostream& out);

}  // namespace rushlight
