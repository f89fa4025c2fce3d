#include "sheet/later.hpp"

#include "sheet/readings.hpp"
#include "sheet/sheet_words.hpp"

namespace rushlight {
namespace {

using Looks = SheetSight::Looks;
constexpr int kMostLows = 12;  // of one night; somebody is called much earlier
constexpr int kMostTurns = 12;

/// Through the treatment of one low to the next check of the night.
void treat_and_recover(PaperWalk& walk, const Value& well) {
  walk.all_done();
  walk.wait_over();
  walk = landing_after(walk, well, Looks::well).walk;
  for (int turn = 0; turn < kMostTurns && !walk.view().waiting && !walk.view().ended; ++turn) {
    walk.all_done();
    walk.go_on({});
  }
  walk.wait_over();
}

void add_lows(SheetBox& box, PaperWalk walk, const LaterReadings& readings, Language language) {
  for (int low = 1; low < kMostLows; ++low) {
    walk = landing_after(walk, readings.low, Looks::unwell).walk;
    const View here = walk.view();
    if (!here.call) {
      treat_and_recover(walk, readings.well);
      continue;
    }
    if (low > 1) box.ways.push_back({sheet_say(SheetWord::low_again, language), {}, readings.give, Urgency::home, {}});
    SheetWay call{low > 1 ? sheet_say(SheetWord::low_so_often, language, std::to_string(low))
                          : sheet_say(SheetWord::low_again, language),
                  {},
                  readings.again,
                  here.urgency,
                  {}};
    for (SheetLine& line : walk.lines()) {
      if (line.kind == ActionKind::by_mouth || is_call(line.kind)) call.lines.push_back(std::move(line));
    }
    box.ways.push_back(std::move(call));
    return;
  }
}

/// Not low at the next check, and at the one after it.
void add_calm(SheetBox& box, PaperWalk walk, const Value& well, Language language) {
  for (int check = 0; check < 2; ++check) {
    walk = landing_after(walk, well, Looks::well).walk;
    const View here = walk.view();
    if (here.call || walk.wait_hangs_on_the_clock() || (!here.waiting && !here.ended)) return;
    SheetWay way{sheet_say(check == 0 ? SheetWord::not_low_then : SheetWord::not_low_again, language),
                 {},
                 0,
                 here.urgency,
                 {}};
    if (here.ended) way.lines = walk.lines();
    if (way.lines.empty()) way.lines.push_back(walk.headline());
    box.ways.push_back(std::move(way));
    if (here.ended) return;
    walk.wait_over();
  }
}

}  // namespace

std::optional<SheetBox> later_box(const PaperWalk& walk, int number, const LaterReadings& readings, Language language) {
  if (walk.wait_hangs_on_the_clock()) return std::nullopt;
  SheetBox box{
      SheetPart::later, number, sheet_say(SheetWord::later_title, language), "", walk.view().urgency, {}, {}, {}, {}, 0,
      walk.wait()};
  box.lines.push_back(walk.headline());
  for (SheetLine& line : walk.lines()) box.lines.push_back(std::move(line));
  PaperWalk due = walk;
  due.wait_over();
  add_lows(box, due, readings, language);
  add_calm(box, due, readings.well, language);
  return box;
}

}  // namespace rushlight
