#include "sheet/emergency.hpp"

#include "episode/words.hpp"
#include "sheet/sheet_words.hpp"

namespace rushlight {
namespace {

class Emergency {
 public:
  Emergency(const Protocol& protocol, Language language, int number, int number_waiting)
      : protocol_(protocol),
        language_(language),
        box_{SheetPart::emergency,
             number,
             word(SheetWord::emergency),
             word(SheetWord::never_wait),
             Urgency::emergency,
             {},
             {},
             {},
             {},
             0,
             {}},
        waiting_{SheetPart::waiting,
                 number_waiting,
                 word(SheetWord::waiting_title),
                 "",
                 Urgency::emergency,
                 {},
                 {},
                 {},
                 {},
                 0,
                 {}} {}

  EmergencyBoxes boxes(PaperWalk walk) {
    walk.answer("awake", "no");
    box_.lines = walk.lines();
    if (walk.asks("breathing-normally")) {
      add_gasping(walk);
      walk.answer("breathing-normally", "yes");
    }
    PaperWalk given = walk;
    if (given.answer("already-given", "glucagon")) {
      given.leave_questions();
      box_.ways.push_back({word(SheetWord::glucagon_before), {given.headline()}, 0, given.view().urgency, {}, false, true});
    }
    walk.leave_questions();
    add_rescue(walk);
    box_.ways.push_back({word(SheetWord::go_on_at), {}, waiting_.number, Urgency::emergency, {}});
    return {std::move(box_), std::move(waiting_)};
  }

 private:
  std::string word(SheetWord word, const std::string& one = "") const { return sheet_say(word, language_, one); }

  void add_gasping(PaperWalk walk) {
    walk.answer("breathing-normally", "no");
    walk.leave_questions();
    SheetWay way{option_text("breathing-normally", "no"), {}, 0, walk.view().urgency, {}};
    for (SheetLine& line : walk.lines()) {
      if (line.kind == ActionKind::watch) way.lines.push_back(std::move(line));
    }
    if (way.lines.empty()) way.lines.push_back(walk.headline());
    way.forbids = true;
    box_.ways.push_back(std::move(way));
  }

  std::string option_text(const char* name, const char* option) const {
    const std::optional<FactId> fact = protocol_.fact_named(name);
    if (!fact) return "";
    for (const Option& each : protocol_[*fact].options) {
      if (each.name == option) return plain_words(each.text, language_);
    }
    return "";
  }

  void add_rescue(const PaperWalk& walk) {
    const View here = walk.view();
    const ShownAction* glucagon = nullptr;
    for (const ShownAction& action : here.actions) {
      if (action.kind == ActionKind::glucagon && action.dose && action.dose->amount) glucagon = &action;
    }
    if (glucagon == nullptr) {
      // No rescue medicine that could be used: one list for everybody.
      box_.lines.push_back(walk.headline());
      for (SheetLine& line : walk.lines()) box_.lines.push_back(std::move(line));
    } else {
      for (SheetLine& line : walk.lines())
        (line.kind == ActionKind::watch ? waiting_.lines : box_.trained).push_back(std::move(line));
      PaperWalk untrained = walk;
      untrained.outcome(glucagon->id, Outcome::none_here);
      untrained.leave_questions();
      box_.untrained.push_back(untrained.headline());
      for (SheetLine& line : untrained.lines()) {
        if (line.kind != ActionKind::glucagon) box_.untrained.push_back(std::move(line));
      }
    }
    add_what_follows(walk, glucagon != nullptr);
  }

  void add_what_follows(const PaperWalk& walk, bool medicine) {
    PaperWalk woke = walk;
    woke.all_done();
    PaperWalk asleep = woke;
    asleep.wait_over();
    asleep.answer("awake", "no");
    asleep.leave_questions();
    SheetWay still{word(SheetWord::not_awake_after, text_from_duration(walk.wait())), {}, 0, asleep.view().urgency, {}};
    for (SheetLine& line : asleep.lines()) {
      const bool looks = line.kind == ActionKind::position || line.kind == ActionKind::watch;
      if (medicine ? line.kind == ActionKind::glucagon : looks) still.lines.push_back(std::move(line));
    }
    if (still.lines.empty() && !medicine) still.lines.push_back(asleep.headline());
    if (!still.lines.empty()) waiting_.ways.push_back(std::move(still));
    woke.answer("awake", "yes");
    SheetWay way{woke.headline().text, {}, 0, woke.view().urgency, {}};
    for (SheetLine& line : woke.lines()) {
      if (!is_call(line.kind)) way.lines.push_back(std::move(line));
    }
    waiting_.ways.push_back(std::move(way));
  }

  const Protocol& protocol_;
  Language language_;
  SheetBox box_, waiting_;
};

}  // namespace

EmergencyBoxes emergency_boxes(const PaperWalk& start, const Protocol& protocol, const Child& child, int number,
                               int number_waiting) {
  return Emergency(protocol, child.language, number, number_waiting).boxes(start);
}

std::optional<SheetWay> awake_after_glucagon(PaperWalk start, Language language, int number) {
  start.answer("awake", "yes");
  if (!start.answer("already-given", "glucagon") || start.view().urgency != Urgency::emergency) return std::nullopt;
  return SheetWay{sheet_say(SheetWord::glucagon_already, language), {}, number, Urgency::emergency, {}};
}

}  // namespace rushlight
