#pragma once

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "finding/kinds.hpp"
#include "picture/comparison_map.hpp"
#include "picture/picture.hpp"
#include "protocol/side_by_side.hpp"
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

/// The decisions of a step, drawn.
Or<Picture> map_of(const Protocol& protocol, const std::string& map, const std::vector<std::string>& givens);

/// The same step before, now, and what changes; both versions have it.
Or<ComparisonMap> map_of(const SideBySide& sides, StepId now, const std::string& map,
                         const std::vector<std::string>& givens);

}  // namespace rushlight
