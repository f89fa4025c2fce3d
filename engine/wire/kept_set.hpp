#pragma once

#include <string>
#include <vector>

#include "finding/finding.hpp"

namespace rushlight {

/// One file of a set as it was read.
struct KeptFile {
  std::string name, bytes;
};

/// The files an episode walks, as one text for the journal; a set of one file is its bytes, nothing else, unless its name counts too
/// (`with_name`): an approval names files. A file is at most a million bytes, as the reader of protocols takes no longer one.
std::string text_from_kept(const std::vector<KeptFile>& files, bool with_name = false);
/// Back again. Text that is no such list is one file.
Read<std::vector<KeptFile>> kept_from_text(const std::string& text, const std::string& name);

}  // namespace rushlight
