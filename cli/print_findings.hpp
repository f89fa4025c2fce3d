#pragma once

#include <iosfwd>
#include <string>
#include <vector>

#include "cli/protocol_set.hpp"
#include "finding/finding.hpp"

namespace rushlight {

/// Every finding with its line and a caret line, where the text of its file is known.
void print_findings(std::ostream& out, const std::vector<Finding>& findings, const FileTexts& texts);

/// The line that a place is in, as it stands in the text of its file; empty when that is not known.
std::optional<std::string> line_at(const FileTexts& texts, const Where& where);

/// The same as one text.
std::string text_from_findings(const std::vector<Finding>& findings, const FileTexts& texts);

/// 0 without an error, 1 with findings that are errors, 2 when something could not be read at all.
int exit_status_of(const std::vector<Finding>& findings);

}  // namespace rushlight
