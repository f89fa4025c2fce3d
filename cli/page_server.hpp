#pragma once

#include <iosfwd>
#include <vector>

#include "cli/page/page_files.hpp"

namespace rushlight {

/// Gives these files out on the loopback of this machine (127.0.0.1, a free port) until it is interrupted. Answers GET
/// and HEAD for the names of the files and nothing else; a request that names another host is refused, so that no page
/// of another site can read it. One request at a time: it is for trying out.
int serve_page(const std::vector<PageFile>& files, std::ostream& out, std::ostream& err);

}  // namespace rushlight
