#pragma once

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "finding/kinds.hpp"
#include "picture/picture.hpp"
#include "verify/decisions.hpp"

namespace rushlight {

/// Something to draw, or why not.
template <class Value>
using Or = std::variant<Value, Kind>;

/// What a map is of, as somebody asked for it.
struct MapOf {
  StepId step;
  Subject across;
  std::optional<Subject> down;
  std::vector<Held> held;
};

/// "STEP:FACT" or "STEP:FACT,FACT", and "FACT=VALUE" for each answer held fast.
Or<MapOf> map_named(const Protocol& protocol, const std::string& map, const std::vector<std::string>& givens);

bool is_picture_file(const std::string& path);  // *.svg or *.png

/// Written as SVG or PNG, as the name of the file says; empty when it was. What lies there is written over.
std::optional<Kind> written(const std::string& path, const Picture& picture);

}  // namespace rushlight
