#pragma once

#include <functional>

#include "sheet/paper_walk.hpp"

// Private to engine/sheet.

namespace rushlight {

bool is_asked(const View& view, std::string_view fact);
/// The question for the glucose, where it is asked.
std::optional<FactId> glucose_asked_in(const View& view);

/// Where the walk stands after a reading and a look at the child.
struct Landing {
  PaperWalk walk;
  std::string step;
  std::vector<SheetLine> before;  // what the walk had done on the way there, like a second finger-prick
};

/// Goes on from a reading as somebody who looks so; a walk that wants the reading by another finger-prick is told the
/// same again, or what that one shows.
Landing landing_after(PaperWalk walk, const Value& reading, SheetSight::Looks looks,
                      const std::optional<Value>& by_another_prick = std::nullopt);

/// All readings that lead to one place, for a child who looks so.
struct ReadingGroup {
  SheetSight sight;
  Landing landing;
  Value reading;  // one of them
};

/// Every reading of the protocol's own borders, "can't tell" among them, grouped by where it leads.
std::vector<ReadingGroup> groups_of(const PaperWalk& walk, const Protocol& protocol, const Child& child);

/// "Below 70, or LO, well": in the unit that the box names.
std::string text_from_sight(const SheetSight& sight, Language language);

}  // namespace rushlight
