#pragma once

#include <string>
#include <vector>

#include "cli/protocol_set.hpp"
#include "sheet/sheet_of.hpp"

namespace rushlight::test {

inline const Day kToday = *day_from_text("2026-03-01");
inline constexpr const char* kShippedSets[] = {"reference", "harbour-lane"};

/// A shipped set, read once a run.
const ProtocolSet& shipped(const std::string& name);
const Protocol& protocol_of(const std::string& set, const std::string& id);
/// The sheet with a page for each of the other protocols.
Sheet whole_sheet(const std::string& set, const Child& child, const Day& today = kToday);

/// Every line of the sheet that the walk is to have said.
std::vector<const SheetLine*> lines_of(const Sheet& sheet);
const SheetBox& box_of(const Sheet& sheet, SheetPart part);

}  // namespace rushlight::test
