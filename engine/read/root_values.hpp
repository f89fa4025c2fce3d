#pragma once

#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "finding/finding.hpp"

namespace rushlight {

/// The file with other values for attributes of its outermost element, every other byte as it is. `values` are name and
/// value; a value holds nothing that XML would read as markup. An attribute that is not there is left out:
/// MissingAttribute.
Read<std::string> with_root_values(const std::string& bytes, const std::string& file,
                                   const std::vector<std::pair<std::string, std::string>>& values);

/// The name of the outermost element: "protocol", "safety". Empty when the file is not XML.
std::string root_name(const std::string& bytes);

}  // namespace rushlight
