#include "sheet/signs.hpp"

#include <algorithm>

#include "episode/phrases.hpp"
#include "sheet/calls.hpp"
#include "sheet/join_ways.hpp"
#include "sheet/sheet_words.hpp"
#include "verify/answering.hpp"

namespace rushlight {
namespace {

constexpr int kTurnsToASign = 8;

/// Who cannot swallow is at the emergency already; whatever else is asked, nobody can tell.
void to_what_is_done(PaperWalk& walk) {
  for (int turn = 0; turn < kTurnsToASign; ++turn) {
    const View here = walk.view();
    if (here.ask.empty() || glucose_asked_in(here) || given_by_mouth(here) != nullptr || here.wait) return;
    const ShownQuestion& question = here.ask.front();
    if (question.name == "swallow") {
      walk.answer("swallow", "yes");
    } else {
      walk.answer(question.id, CantTell{});
    }
  }
}

/// A sign, what to do, and what follows upon it.
struct Branch {
  SheetWay way;
  std::vector<SheetWay> under;
  std::string at_the_start{};  // how the first question names it
};

bool calls_already(const SheetWay& before, ActionKind kind) {
  return std::any_of(before.lines.begin(), before.lines.end(), [&](const SheetLine& line) { return line.kind == kind; });
}

bool says_the_same(const SheetWay& one, const SheetWay& other) {
  return one.go == other.go && one.urgency == other.urgency && lead_alike(one, other);
}

bool says_the_same(const Branch& one, const Branch& other) {
  return says_the_same(one.way, other.way) &&
         std::equal(one.under.begin(), one.under.end(), other.under.begin(), other.under.end(),
                    [](const SheetWay& a, const SheetWay& b) { return a.when == b.when && says_the_same(a, b); });
}

class Signs {
 public:
  Signs(const PaperWalk& start, const Protocol& protocol, const Child& child, const TroubleBeside& beside)
      : protocol_(protocol), child_(child), beside_(beside), start_(start), awake_(start) {
    awake_.answer("awake", "yes");
    awake_.go_on({"glucose"});
    PaperWalk asleep = start_;
    asleep.answer("awake", "no");
    rescue_ = step_of_the_rescue(asleep);
    PaperWalk usual = *beside.giving;
    recovered_ = when_well(usual).step;
  }

  SheetBox box(LowPage& low) {
    for (const auto& [sign, text] : signs_of(protocol_, child_, begun(protocol_, child_, start_.now()))) {
      PaperWalk walk = awake_;
      walk.worse(sign.fact, static_cast<std::uint16_t>(sign.option));
      const std::string& fact = protocol_[sign.fact].name;
      // What leads nowhere before sugar is given belongs to the giving: its box says what follows when it goes wrong.
      if (walk.view().step == awake_.view().step && walk.view().urgency == awake_.view().urgency) continue;
      if (fact == "other-worry") {
        low.anything_else = said_there(walk, true);
      } else if (walk.view().urgency == Urgency::emergency &&
                 (fact == "breathing-normally" || step_of_the_rescue(walk) == rescue_)) {
        low.any_time.push_back(text);
      } else {
        Branch branch = branch_of(text, walk);
        if (fact == "awake") add_still_so(branch, walk, sign);
        branch.at_the_start = text;
        put(std::move(branch));
      }
    }
    add_ketones();
    std::stable_partition(branches_.begin(), branches_.end(),
                          [](const Branch& each) { return each.way.urgency == Urgency::emergency; });
    like_another();
    SheetBox box{};
    box.part = SheetPart::signs;
    box.number = beside_.numbers.signs;
    box.title = word(SheetWord::signs_title);
    for (Branch& branch : branches_) {
      if (!branch.at_the_start.empty()) low.call_signs.push_back(branch.at_the_start);
      box.ways.push_back(std::move(branch.way));
      for (SheetWay& under : branch.under) box.ways.push_back(std::move(under));
    }
    return box;
  }

 private:
  std::string word(SheetWord word, const std::string& one = "") const { return sheet_say(word, child_.language, one); }

  static std::string step_of_the_rescue(PaperWalk walk) {
    if (is_asked(walk.view(), "breathing-normally")) walk.answer("breathing-normally", "yes");
    walk.leave_questions();
    return walk.view().step;
  }

  /// Where the walk stands once what it gives has helped.
  Landing when_well(PaperWalk walk) const {
    if (const auto call = walk.view().call) walk.called(call->contact, Outcome::reached);
    walk.all_done();
    walk.wait_over();
    if (is_asked(walk.view(), "awake")) walk.answer("awake", "yes");
    return landing_after(walk, beside_.well, SheetSight::Looks::well);
  }

  /// The boxes of every low hold what comes then: the walk does not look again in a time of its own.
  bool goes_as_usual(const PaperWalk& walk) const {
    if (!walk.view().wait) return false;
    const Landing well = when_well(walk);
    return well.step == recovered_ || !well.walk.view().wait;
  }

  Branch branch_of(const std::string& text, PaperWalk& walk) const {
    if (is_asked(walk.view(), "swallow")) {
      walk.answer("swallow", "yes");
      walk.go_on({});
    }
    const View there = walk.view();
    const std::optional<FactId> glucose = there.wait ? std::nullopt : glucose_asked_in(there);
    Branch branch{{text, said_there(walk, false), glucose ? 0 : goes_on_in(there, beside_.numbers), there.urgency, {}},
                  {}};
    if (!glucose) return branch;
    branch.under.push_back(if_low(walk, *glucose, branch.way));
    if (auto way = if_not_low(walk, *glucose, branch.way)) branch.under.push_back(std::move(*way));
    return branch;
  }

  SheetWay if_low(PaperWalk walk, FactId glucose, const SheetWay& before) const {
    walk.answer(glucose, beside_.low);
    to_what_is_done(walk);
    const View there = walk.view();
    SheetWay way{word(SheetWord::low_then), {}, 0, there.urgency, {}, true};
    const bool as_usual = goes_as_usual(walk);
    for (SheetLine& line : walk.lines()) {
      const bool sugar = line.kind == ActionKind::by_mouth;
      if (as_usual && sugar && calls_already(before, ActionKind::call_emergency) && gives_as_the_box(there)) {
        way.when = word(SheetWord::low_then_swallows);  // the walk's own condition in danger
        way.go = beside_.numbers.give;
      } else if (as_usual && sugar && says(beside_.giving->lines(), line.text)) {
        way.go = beside_.numbers.give;
      } else if (sugar || (is_call(line.kind) && !calls_already(before, line.kind)) ||
                 (!as_usual && line.kind == ActionKind::watch)) {
        way.lines.push_back(std::move(line));
      }
    }
    if (as_usual && way.go == 0) way.go = beside_.numbers.again;
    return way;
  }

  /// The same amount of sugar as in the box of every low.
  bool gives_as_the_box(const View& there) const {
    const View usual = beside_.giving->view();
    const ShownAction *one = given_by_mouth(there), *other = given_by_mouth(usual);
    return one != nullptr && other != nullptr && one->dose && other->dose && one->dose->amount && other->dose->amount &&
           one->dose->amount->value == other->dose->amount->value;
  }

  /// Nothing where the call of the sign is still what counts: it stands above already.
  std::optional<SheetWay> if_not_low(PaperWalk walk, FactId glucose, const SheetWay& before) const {
    walk.answer(glucose, beside_.well);
    walk.go_on({});
    const View there = walk.view();
    if (!there.meanwhile.empty()) return std::nullopt;
    SheetWay way{word(SheetWord::not_low_then), {}, 0, there.urgency, {}, true};
    for (SheetLine& line : walk.lines()) {
      if (!is_call(line.kind)) continue;
      if (calls_already(before, line.kind)) return std::nullopt;
      way.lines.push_back(std::move(line));
    }
    if (!way.lines.empty()) return way;
    way.lines.push_back(walk.headline());
    for (SheetLine& line : walk.lines()) {
      if (line.kind == ActionKind::note) way.lines.push_back(std::move(line));
    }
    return way;
  }

  /// Still confused after the sugar: low, or not.
  void add_still_so(Branch& branch, const PaperWalk& walk, const Sign& sign) const {
    if (!walk.view().wait) return;
    for (const bool low : {true, false}) {
      PaperWalk after = walk;
      const std::string wait = text_from_duration(after.wait());
      after.all_done();
      after.wait_over();
      after.answer("awake", protocol_[sign.fact].options[sign.option].name);
      if (const auto glucose = glucose_asked_in(after.view())) after.answer(*glucose, low ? Value{beside_.low} : beside_.well);
      std::vector<SheetLine> calls;
      for (SheetLine& line : after.lines()) {
        if (is_call(line.kind)) calls.push_back(std::move(line));
      }
      if (!calls.empty())
        branch.under.push_back({word(low ? SheetWord::still_after : SheetWord::still_after_not_low, wait),
                                std::move(calls), 0, after.view().urgency, {}, true});
    }
  }

  /// Blood ketones are a number, not a sign that can be named: from where on they are an emergency.
  void add_ketones() {
    const std::optional<FactId> ketones = protocol_.fact_named("ketones");
    if (!ketones) return;
    const Context context{age_on(child_.birth, local_day_of(start_.now())), child_.weight, clock_time_of(start_.now())};
    for (const Value& value : values_to_tell(protocol_, *ketones, context, child_.unit)) {
      const auto* reading = std::get_if<KetoneReading>(&value);
      if (reading == nullptr || !reading->number()) continue;
      PaperWalk walk = awake_;
      walk.answer(*ketones, value);
      if (walk.view().urgency != Urgency::emergency) continue;
      put(branch_of(word(SheetWord::blood_ketones_from, text_from_ketones(*reading)), walk));
      return;
    }
  }

  /// Drowsy and low is as confused: said once.
  void like_another() {
    for (Branch& branch : branches_) {
      for (SheetWay& under : branch.under) {
        for (const Branch& other : branches_) {
          if (&other == &branch || under.lines.empty() || !lead_alike(under, other.way)) continue;
          under.when = word(SheetWord::low_as_for, other.way.when);
          under.lines.clear();
          under.go = 0;
          break;
        }
      }
    }
  }

  /// Two signs, one thing to do.
  void put(Branch branch) {
    for (Branch& each : branches_) {
      if (!says_the_same(each, branch)) continue;
      each.way.when += " \u2022 " + branch.way.when;
      if (!branch.at_the_start.empty())
        each.at_the_start += (each.at_the_start.empty() ? "" : " \u2022 ") + branch.at_the_start;
      return;
    }
    branches_.push_back(std::move(branch));
  }

  const Protocol& protocol_;
  const Child& child_;
  const TroubleBeside& beside_;
  PaperWalk start_, awake_;
  std::string rescue_, recovered_;
  std::vector<Branch> branches_;
};

}  // namespace

SheetBox signs_box(const PaperWalk& start, const Protocol& protocol, const Child& child, const TroubleBeside& beside,
                   LowPage& low) {
  return Signs(start, protocol, child, beside).box(low);
}

}  // namespace rushlight
