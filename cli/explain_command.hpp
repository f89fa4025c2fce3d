#pragma once

#include <iosfwd>
#include <string>
#include <vector>

namespace rushlight {

/// `rushlight check --explain ID [FILE|FOLDER]`: who can come to a step or a rule, by which answers, and one example
/// from the start, walked by the real engine; or why nobody can. A file is explained with the set it lies in, so that
/// its visits are walked; without a path the reference set inside the program is. Gives the exit status: 0 explained, 1
/// nothing has that name or nobody comes there, 2 not readable.
int explain_command(const std::string& id, const std::vector<std::string>& paths, std::ostream& out);

}  // namespace rushlight
