#pragma once

#include <optional>
#include <string>

#include "finding/kinds.hpp"
#include "picture/picture.hpp"

namespace rushlight {

bool is_picture_file(const std::string& path);  // *.svg or *.png

/// Written as SVG or PNG, as the name of the file says; empty when it was. What lies there is written over.
std::optional<Kind> written(const std::string& path, const Picture& picture);

}  // namespace rushlight
