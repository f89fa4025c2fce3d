#pragma once

#include <string>
#include <vector>

#include "cli/page/clinic_data.hpp"
#include "cli/page/page_frame.hpp"

namespace rushlight {

/// The clinic's page as a folder that any web server can give out: it loads nothing but these files.
std::vector<PageFile> clinic_files(const ClinicWish& wish, const ClinicData& data);

/// The clinic's page as one file that opens from a disk.
std::string single_clinic_page(const ClinicWish& wish, const ClinicData& data);

}  // namespace rushlight
