#pragma once

#include <string>
#include <vector>

#include "cli/protocol_set.hpp"

namespace rushlight {

/// What a page is made of. `made` is the day, as text.
struct PageWish {
  const ProtocolSet& set;
  const std::string& child_bytes;
  Language language;
  std::string made;
};

/// {"sum":...,"made":...,"model":...,"child":...,"files":[...],"kept":{...}}: the plan as the program read, checked and
/// hashed it, for the page's engine; and its files as they are, so that a night can be taken back to the program. A
/// file goes by its own name, without the folder it lay in. Holds no letter that ends a script or begins a comment in
/// HTML.
struct PageData {
  std::string json;
  std::string sum;  // SHA-256 of what a resume needs
  std::vector<KeptFile> files;
};
PageData page_data(const PageWish& wish);

}  // namespace rushlight
