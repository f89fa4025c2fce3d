#pragma once

#include "picture/names.hpp"
#include "picture/picture.hpp"
#include "verify/decisions.hpp"

namespace rushlight {

/// The decisions of a step as a map: one or two things as axes, each region with the urgency and the step that follow.
/// Where other answers decide, the region names them; where no rule holds, it says so. `held` is what the decisions
/// were made for.
/// `lead` stands before the title: "BEFORE: ".
Picture decision_map(const Protocol& protocol, const Step& step, const Decisions& decisions,
                     const std::vector<Held>& held, const std::string& lead = "");

/// Bands of an axis after those that nothing tells apart have become one, and the regions over them.
struct Region {
  Stretched across, down;  // places among the bands
  Decided decided;
};
struct Regions {
  std::vector<Stretched> columns, rows;  // values of the axes
  std::vector<Region> regions;           // each place of the map is in one of them
};
Regions regions_of(const Decisions& decisions);

}  // namespace rushlight
