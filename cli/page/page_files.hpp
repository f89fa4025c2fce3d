#pragma once

#include <string>
#include <vector>

#include "cli/page/page_data.hpp"

namespace rushlight {

struct PageFile {
  std::string name;  // below the folder: "index.html", "set/low.xml"
  std::string type;  // as a web server says it
  std::string bytes;
};

/// Whether this program was built with the engine for the browser.
bool has_page();

/// The page as a folder that any web server can give out: it loads nothing but these files, and a phone keeps them.
std::vector<PageFile> page_files(const PageWish& wish);

/// The page as one file that opens from a disk.
std::string single_page(const PageWish& wish);

}  // namespace rushlight
