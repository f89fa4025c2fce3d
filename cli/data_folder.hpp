#pragma once

#include <string>

namespace rushlight {

/// The folder for the child's own files: $XDG_DATA_HOME/rushlight, or ~/.local/share/rushlight. Empty when there is no
/// home. Source: XDG Base Directory Specification.
std::string data_folder();

/// The child file and the journal there; empty when there is no home.
std::string usual_child_file();
std::string usual_journal_file();

}  // namespace rushlight
