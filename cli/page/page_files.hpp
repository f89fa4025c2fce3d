#pragma once

#include <string>
#include <vector>

#include "cli/page/page_data.hpp"
#include "cli/page/page_frame.hpp"

namespace rushlight {

/// Whether this program was built with the engine for the browser.
bool has_page();

/// The page as a folder that any web server can give out: it loads nothing but these files, and a phone keeps them.
std::vector<PageFile> page_files(const PageWish& wish);

/// The page as one file that opens from a disk.
std::string single_page(const PageWish& wish);

}  // namespace rushlight
