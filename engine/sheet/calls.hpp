#pragma once

#include <optional>
#include <set>
#include <string>
#include <vector>

#include "sheet/readings.hpp"

// Private to engine/sheet: when a low on paper becomes a call.

namespace rushlight {

inline constexpr int kMostRounds = 12;  // of one low; a clinic calls much earlier

/// What there is to give by mouth, in a measured amount; null when there is nothing.
const ShownAction* by_mouth_in(const View& view);

bool says(const std::vector<SheetLine>& lines, const std::string& text);

/// Sugar for signs alone, again and again, until the walk calls: without a reading nothing else on a page would end it.
/// `giving` and `also` are what box `give` says already. Empty when the walk never calls.
std::optional<SheetWay> call_without_readings(const ReadingGroup& group, const PaperWalk& giving,
                                              const std::set<std::string>& also, int give, Language language);

/// Whom to call when nobody answers, once and again.
std::vector<std::string> when_nobody_answers(PaperWalk calling, Language language);

}  // namespace rushlight
