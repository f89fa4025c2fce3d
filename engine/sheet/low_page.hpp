#pragma once

#include <optional>

#include "sheet/paper_walk.hpp"

namespace rushlight {

/// What the first page holds: danger signs and the low, as the walk says them, and beside the page what else comes up
/// on the way.
struct LowPage {
  SheetPage page;
  std::vector<std::string> any_time;    // signs of an emergency
  std::vector<std::string> call_signs;  // signs of something that is a call from the beginning
  std::vector<SheetLine> anything_else;
  std::vector<std::string> nobody_answers;
};

/// Empty when the protocol asks no glucose and gives nothing by mouth on the way from its start: then there is no low
/// that paper could hold.
std::optional<LowPage> low_page(const Protocol& protocol, const Child& child, Moment at);

}  // namespace rushlight
