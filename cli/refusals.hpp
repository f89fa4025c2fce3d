#pragma once

#include <iosfwd>
#include <string>
#include <vector>

#include "finding/finding.hpp"

namespace rushlight {

/// An error about a file, or an option, as a whole.
Finding whole_error(const std::string& where, Kind kind);

/// The same for something that was asked for and cannot be done: what is wrong, and what would be right.
Finding cannot_do(const std::string& where, const std::string& what, const std::string& right);

/// Says it, and gives the exit status.
int tell_refusal(std::ostream& err, const Finding& finding);
int tell_refusal(std::ostream& err, const std::vector<Finding>& findings);

/// The same for a command that was typed wrongly, or lacks a part of the program: its status is 2.
int tell_no_use(std::ostream& err, const Finding& finding);

}  // namespace rushlight
