#include "sheet/trouble.hpp"

#include "sheet/readings.hpp"
#include "sheet/sheet_words.hpp"

namespace rushlight {
namespace {

constexpr int kMostOutcomes = 4;

const ShownAction* given_by_mouth(const View& view) {
  for (const ShownAction& action : view.actions) {
    if (action.kind == ActionKind::by_mouth && !action.outcome) return &action;
  }
  return nullptr;
}

/// What is said where nothing goes further on paper: what to give, whom to call; the headline where there is neither.
std::vector<SheetLine> said_there(const PaperWalk& walk, bool headline_only) {
  std::vector<SheetLine> lines;
  for (SheetLine& line : walk.lines()) {
    const bool counts = is_call(line.kind) || (line.kind == ActionKind::by_mouth && !headline_only);
    if (counts) lines.push_back(std::move(line));
  }
  if (lines.empty()) lines.push_back(walk.headline());
  return lines;
}

/// Whoever sees either sign does the same.
bool says_the_same(const SheetWay& one, const SheetWay& other) {
  if (one.under || one.go != other.go || one.urgency != other.urgency || one.lines.size() != other.lines.size())
    return false;
  for (std::size_t i = 0; i < one.lines.size(); ++i) {
    if (one.lines[i].text != other.lines[i].text) return false;
  }
  return true;
}

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

std::optional<FactId> glucose_asked_in(const View& view) {
  for (const ShownQuestion& question : view.ask) {
    if (question.kind == FactKind::glucose) return question.id;
  }
  return std::nullopt;
}

/// After sugar the wait follows; where the reading is asked for at once, the reading.
int goes_on_in(const View& view, TroubleNumbers numbers) {
  if (view.wait) return given_by_mouth(view) != nullptr ? numbers.again : 0;
  return glucose_asked_in(view) ? numbers.measure : 0;
}

// Follows one outcome, and the same again, until somebody is called or it is over.
void add_trouble(SheetBox& box, const PaperWalk& giving, const Trouble& trouble, TroubleNumbers numbers,
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

SheetBox trouble_box(const PaperWalk& start, const PaperWalk& giving, const Protocol& protocol, const Child& child,
                     TroubleNumbers numbers, LowPage& low) {
  const Language language = child.language;
  SheetBox box{SheetPart::trouble,
               numbers.own,
               sheet_say(SheetWord::trouble_title, language),
               "",
               Urgency::home,
               {},
               {},
               {},
               {},
               0,
               {}};
  for (const Trouble& trouble : kTroubles) add_trouble(box, giving, trouble, numbers, language);
  PaperWalk awake = start;
  awake.answer("awake", "yes");
  awake.go_on({"glucose"});
  Episode begun_here = begun(protocol, child, start.now());
  for (const auto& [sign, text] : signs_of(protocol, child, begun_here)) {
    PaperWalk walk = awake;
    walk.worse(sign.fact, static_cast<std::uint16_t>(sign.option));
    View there = walk.view();
    if (there.urgency == Urgency::emergency) {
      low.any_time.push_back(text);
      continue;
    }
    for (const ShownQuestion& question : there.ask) {
      if (question.name != "swallow") continue;
      walk.answer("swallow", "yes");
      walk.go_on({});
      there = walk.view();
      break;
    }
    if (protocol[sign.fact].name == "other-worry") {
      low.anything_else = said_there(walk, true);
      continue;
    }
    low.call_signs.push_back(text);
    SheetWay way{text, said_there(walk, false), goes_on_in(there, numbers), there.urgency, {}};
    if (!box.ways.empty() && says_the_same(box.ways.back(), way)) {
      box.ways.back().when += " \u2022 " + text;  // two signs, one thing to do
      continue;
    }
    box.ways.push_back(std::move(way));
    if (const std::optional<FactId> glucose = glucose_asked_in(there); glucose && !there.wait) {
      // Low is the same for everybody; what this sign still needs when it is not low stands nowhere else.
      walk.answer(*glucose, Glucose::hi(child.unit));
      walk.go_on({});
      // Where the call of this sign is still what counts, it stands above already.
      if (walk.view().meanwhile.empty())
        box.ways.push_back(
            {sheet_say(SheetWord::not_low_then, language), {walk.headline()}, 0, walk.view().urgency, {}, true});
    }
    if (protocol[sign.fact].name != "awake" || !there.wait) continue;
    // Still confused after the wait: the next way.
    const Duration wait = walk.wait();
    walk.all_done();
    walk.wait_over();
    walk.answer("awake", protocol[sign.fact].options[sign.option].name);
    for (const ShownQuestion& question : walk.view().ask) {
      if (question.kind == FactKind::glucose) walk.answer(question.id, Glucose::lo(child.unit));
    }
    there = walk.view();
    std::vector<SheetLine> calls;
    for (SheetLine& line : walk.lines()) {
      if (is_call(line.kind)) calls.push_back(std::move(line));
    }
    if (!calls.empty())
      box.ways.push_back({sheet_say(SheetWord::still_after, language, text_from_duration(wait)),
                          std::move(calls),
                          0,
                          there.urgency,
                          {},
                          true});
  }
  return box;
}

}  // namespace rushlight
