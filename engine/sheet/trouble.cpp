#include "sheet/trouble.hpp"

#include "sheet/sheet_words.hpp"

namespace rushlight {
namespace {

constexpr int kMostOutcomes = 4;

struct Trouble {
  Outcome outcome;
  SheetWord when;
  SheetWord again;     // the same once more
  bool headline_only;  // the list of foods stands in another way already
};
constexpr Trouble kTroubles[] = {
    {Outcome::refused, SheetWord::refused, SheetWord::refused_again, true},
    {Outcome::vomited, SheetWord::vomited, SheetWord::vomited, false},
    {Outcome::none_here, SheetWord::none_here, SheetWord::none_at_all, false},
    {Outcome::wrong, SheetWord::wrong_drink, SheetWord::wrong_drink, true},
    {Outcome::part, SheetWord::part_taken, SheetWord::part_taken, true},
};

// Follows one outcome, and the same again, until somebody is called or it is over.
void add_trouble(SheetBox& box, const PaperWalk& giving, const Trouble& trouble, const TroubleNumbers& numbers,
                 Language language) {
  PaperWalk walk = giving;
  for (int times = 0; times < kMostOutcomes; ++times) {
    const View here = walk.view();
    const ShownAction* action = given_by_mouth(here);
    if (action == nullptr) return;
    walk.outcome(action->id, trouble.outcome);
    const std::string before = here.step;
    walk.go_on({"swallow"});
    for (const ShownQuestion& question : walk.view().ask) {
      if (question.name != "swallow") continue;
      walk.answer("swallow", "yes");  // who cannot swallow is at box 2 already
      walk.go_on({});
      break;
    }
    const View there = walk.view();
    if (there.step == before) return;  // as if it had been given
    SheetWay way{sheet_say(times == 0 ? trouble.when : trouble.again, language),
                 said_there(walk, trouble.headline_only || times > 0),
                 goes_on_in(there, numbers),
                 there.urgency,
                 {},
                 times > 0};
    box.ways.push_back(std::move(way));
    if (there.call) return;
    const bool repeats = trouble.outcome == Outcome::refused || trouble.outcome == Outcome::none_here;
    if (!repeats) return;
  }
}

}  // namespace

const ShownAction* given_by_mouth(const View& view) {
  for (const ShownAction& action : view.actions) {
    if (action.kind == ActionKind::by_mouth && !action.outcome) return &action;
  }
  return nullptr;
}

std::vector<SheetLine> said_there(const PaperWalk& walk, bool headline_only) {
  std::vector<SheetLine> lines;
  for (SheetLine& line : walk.lines()) {
    const bool counts = is_call(line.kind) || (line.kind == ActionKind::by_mouth && !headline_only);
    if (counts) lines.push_back(std::move(line));
  }
  if (lines.empty()) lines.push_back(walk.headline());
  return lines;
}

int goes_on_in(const View& view, const TroubleNumbers& numbers) {
  if (view.wait) return given_by_mouth(view) != nullptr ? numbers.again : 0;
  return glucose_asked_in(view) ? numbers.measure : 0;
}

SheetBox trouble_box(const TroubleBeside& beside, Language language) {
  SheetBox box{};
  box.part = SheetPart::trouble;
  box.number = beside.numbers.trouble;
  box.title = sheet_say(SheetWord::trouble_title, language);
  for (const Trouble& trouble : kTroubles) add_trouble(box, *beside.giving, trouble, beside.numbers, language);
  return box;
}

}  // namespace rushlight
