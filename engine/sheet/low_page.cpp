#include "sheet/low_page.hpp"

#include <algorithm>

#include "episode/phrases.hpp"
#include "episode/words.hpp"
#include "sheet/calls.hpp"
#include "sheet/emergency.hpp"
#include "sheet/join_ways.hpp"
#include "sheet/later.hpp"
#include "sheet/readings.hpp"
#include "sheet/sheet_words.hpp"
#include "sheet/signs.hpp"

namespace rushlight {
namespace {

using Looks = SheetSight::Looks;
// The numbers of the boxes are the order of the page.
enum Number : int { kLook = 1, kEmergency, kWaiting, kMeasure, kGive, kAgain, kEat, kLater, kTrouble, kSigns };

SheetBox empty_box(SheetPart part, int number, std::string title) {
  SheetBox box{};
  box.part = part;
  box.number = number;
  box.title = std::move(title);
  return box;
}

class Low {
 public:
  Low(const Protocol& protocol, const Child& child, Moment at)
      : protocol_(protocol), child_(child), language_(child.language), start_(protocol, child, at) {}

  std::optional<LowPage> page() {
    PaperWalk awake = start_;
    if (!awake.answer("awake", "yes")) return std::nullopt;
    awake.go_on({"glucose"});
    first_groups_ = groups_of(awake, protocol_, child_);
    const ReadingGroup* give = lowest_giving(first_groups_);
    if (give == nullptr) return std::nullopt;
    giving_ = &give->landing.walk;
    find_rounds();
    SheetPage& page = low_.page;
    page.title = sheet_say(SheetWord::title, language_, plain_words(protocol_.title, language_), child_.name);
    page.boxes.push_back(look_box());
    EmergencyBoxes emergency = emergency_boxes(start_, protocol_, child_, kEmergency, kWaiting);
    for (SheetBox* box : {&emergency.emergency, &emergency.waiting}) page.boxes.push_back(std::move(*box));
    page.boxes.push_back(measure_box(awake));
    page.boxes.push_back(give_box());
    page.boxes.push_back(again_box());
    tie_to_later();
    page.boxes.push_back(eat_box_);
    if (later_box_) page.boxes.push_back(*later_box_);
    const ReadingGroup* well = first_well();
    const TroubleBeside beside{{kTrouble, kSigns, kMeasure, kGive, kAgain},
                               giving_,
                               *low_reading_,
                               well != nullptr ? well->reading : Value{Glucose::hi(child_.unit)}};
    page.boxes.push_back(trouble_box(beside, language_));
    page.boxes.push_back(signs_box(start_, protocol_, child_, beside, low_));
    add_call_signs(page.boxes.front());
    low_.nobody_answers = when_nobody_answers(*calling_, language_);
    return low_;
  }

 private:
  std::string word(SheetWord word, const std::string& one = "", const std::string& two = "") const {
    return sheet_say(word, language_, one, two);
  }

  std::string unit_words() const { return child_.unit == GlucoseUnit::mg_per_dl ? "mg/dL" : "mmol/L"; }

  // Of the groups that give something by mouth, the one nearest to the border: very low has more lines, not others.
  const ReadingGroup* lowest_giving(const std::vector<ReadingGroup>& groups) const {
    const ReadingGroup* best = nullptr;
    for (const ReadingGroup& group : groups) {
      const View view = group.landing.walk.view();
      if (group.sight.no_reading || by_mouth_in(view) == nullptr || view.call || !view.wait) continue;
      if (group.sight.looks != Looks::unwell) best = &group;
    }
    return best;
  }

  /// Low again and again: how many rounds there are until somebody is called, and where the walk stands then.
  void find_rounds() {
    PaperWalk walk = *giving_;
    for (const ReadingGroup& group : first_groups_) {
      if (&group.landing.walk == giving_) low_reading_ = group.reading;
    }
    for (rounds_ = 0; rounds_ < kMostRounds;) {
      walk.all_done();
      walk.wait_over();
      ++rounds_;
      if (rounds_ == 1) after_first_ = walk;
      walk = landing_after(walk, *low_reading_, Looks::unwell).walk;
      if (walk.view().call) break;
    }
    calling_ = walk;
    read_recovery();
  }

  void read_recovery() {
    again_groups_ = groups_of(*after_first_, protocol_, child_);
    const ReadingGroup* well = nullptr;
    for (const ReadingGroup& group : again_groups_) {
      if (!group.sight.no_reading && group.sight.looks != Looks::unwell && !gives(group.landing)) {
        well = &group;
        break;
      }
    }
    eat_box_ = empty_box(SheetPart::eat, kEat, word(SheetWord::eat_title));
    if (well == nullptr) return;
    eat_steps_.push_back(well->landing.step);
    PaperWalk walk = well->landing.walk;
    for (int turn = 0; turn < kMostRounds; ++turn) {
      const View here = walk.view();
      if (asks_meal(here)) {
        fork_at_the_meal(walk);
        return;
      }
      if (here.waiting || here.call || here.ended) break;
      for (SheetLine& line : walk.lines()) eat_box_.lines.push_back(std::move(line));
      walk.all_done();
      walk.go_on({"meal-soon"});
    }
    read_later(walk);
  }

  static bool asks_meal(const View& view) {
    return std::any_of(view.ask.begin(), view.ask.end(),
                       [](const ShownQuestion& question) { return question.name == "meal-soon"; });
  }

  void fork_at_the_meal(const PaperWalk& walk) {
    const View here = walk.view();
    for (const ShownQuestion& question : here.ask) {
      if (question.name != "meal-soon") continue;
      for (const char* answer : {"yes", "unknown"}) {
        PaperWalk then = walk;
        then.answer("meal-soon", answer);
        then.go_on({});
        SheetWay way;
        const bool yes = std::string_view(answer) == "yes";
        way.when = word(SheetWord::sign_or_answer, question.text, word(yes ? SheetWord::yes : SheetWord::no_or_unsure));
        View there = then.view();
        way.urgency = there.urgency;
        if (!there.waiting) {
          eat_steps_.push_back(there.step);
          way.lines = then.lines();
          then.all_done();
          then.go_on({});
        }
        if (!yes) read_later(then);
        way.go = kLater;
        eat_box_.ways.push_back(std::move(way));
      }
    }
  }

  void read_later(const PaperWalk& walk) {
    if (!walk.view().waiting) return;
    later_step_ = walk.view().step;
    const ReadingGroup* well = first_well();
    if (well != nullptr) later_box_ = later_box(walk, kLater, {*low_reading_, well->reading, kGive, kAgain}, language_);
  }

  /// From what to eat to the next look; where the hour decides when that is, the paper calls.
  void tie_to_later() {
    if (eat_box_.ways.empty()) eat_box_.ways.push_back({word(SheetWord::then), {}, kLater, Urgency::home, {}});
    for (SheetWay& way : eat_box_.ways) {
      if (later_box_) continue;
      way.go = 0;
      way.lines.push_back(call_line(*calling_));
    }
  }

  const ReadingGroup* first_well() const {
    for (const ReadingGroup& group : again_groups_) {
      if (!group.sight.no_reading && group.sight.looks != Looks::unwell && !gives(group.landing)) return &group;
    }
    return nullptr;
  }

  static bool gives(const Landing& landing) {
    const View view = landing.walk.view();
    return by_mouth_in(view) != nullptr && view.wait.has_value();
  }

  SheetBox look_box() const {
    SheetBox box = empty_box(SheetPart::look, kLook, word(SheetWord::awake_and_swallows, child_.name));
    for (const char* name : {"awake", "swallow"}) {
      if (const auto fact = protocol_.fact_named(name)) {
        const Fact& asked = protocol_[*fact];
        if (asked.help) box.help += (box.help.empty() ? "" : " ") + plain_words(*asked.help, language_);
      }
    }
    PaperWalk asleep = start_;
    asleep.answer("awake", "no");
    SheetWay no{word(SheetWord::no_or_unsure), {}, kEmergency, asleep.view().urgency, {}};
    SheetWay yes{word(SheetWord::yes), {}, kMeasure, Urgency::home, {}};
    box.ways = {std::move(yes), std::move(no)};
    return box;
  }

  /// What is a call from the beginning must not wait for the reading: it stands beside the first question.
  void add_call_signs(SheetBox& look) const {
    std::string signs;
    for (const std::string& sign : low_.call_signs) signs += (signs.empty() ? "" : " \u2022 ") + sign;
    if (!signs.empty()) look.ways.push_back({signs, {}, kSigns, Urgency::clinic_now, {}});
  }

  // Where a landing goes on, on this page; 0 when it says all itself.
  int box_for(const Landing& landing) const {
    const View view = landing.walk.view();
    if (!view.call && gives(landing) && says(giving_->lines(), by_mouth_text(landing))) return kGive;
    if (!eat_steps_.empty() && landing.step == eat_steps_.front()) return kEat;
    if (std::find(eat_steps_.begin(), eat_steps_.end(), landing.step) != eat_steps_.end()) return kEat;
    if (!later_step_.empty() && landing.step == later_step_ && later_box_) return kLater;
    return 0;
  }

  static std::string by_mouth_text(const Landing& landing) {
    for (const SheetLine& line : landing.walk.lines()) {
      if (line.kind == ActionKind::by_mouth) return line.text;
    }
    return "";
  }

  /// Something to do that is no treatment, and then the next look of the night: a snack.
  bool leads_to_later(const Landing& landing) const {
    PaperWalk walk = landing.walk;
    const View view = walk.view();
    if (view.waiting || view.ended || view.actions.empty() || view.protocol != protocol_.name || !later_box_)
      return false;
    walk.all_done();
    walk.go_on({});
    return walk.view().step == later_step_;
  }

  SheetWay way_of(const ReadingGroup& group) const {
    SheetWay way;
    way.sight = group.sight;
    const View view = group.landing.walk.view();
    way.urgency = view.urgency;
    way.lines = group.landing.before;
    way.go = box_for(group.landing);
    if (way.go != 0) return way;
    for (SheetLine& line : group.landing.walk.lines()) {
      if (is_call(line.kind)) way.lines.push_back(std::move(line));
    }
    if (view.call) return way;
    if (leads_to_later(group.landing)) {
      for (SheetLine& line : group.landing.walk.lines()) way.lines.push_back(std::move(line));
      way.go = kLater;
      return way;
    }
    if (view.ended && view.protocol == protocol_.name) {
      for (SheetLine& line : group.landing.walk.lines()) way.lines.push_back(std::move(line));
    } else {
      way.lines.push_back(
          call_line(group.landing.walk));  // somewhere that this page does not lead: paper does not guess
    }
    return way;
  }

  SheetLine call_line(const PaperWalk& walk) const {
    return {word(SheetWord::call_clinic, number_of(child_.contacts, Contact::clinic, language_)),
            ActionKind::call_clinic, walk.night(), false};
  }

  std::vector<SheetWay> joined_ways(const PaperWalk& walk, const std::vector<ReadingGroup>& groups) const {
    std::vector<SheetWay> ways;
    for (const ReadingGroup& group : groups) ways.push_back(way_of(group));
    ways = joined(std::move(ways), language_);
    for (const ReadingGroup& group : groups) fork_at_another_prick(ways, walk, group);
    return ways;
  }

  /// Where a second finger-prick decides: what follows when that one is low, and when it is not.
  void fork_at_another_prick(std::vector<SheetWay>& ways, const PaperWalk& walk, const ReadingGroup& group) const {
    const std::size_t said = group.landing.before.size();
    if (said == 0 || group.sight.no_reading) return;
    const Landing low = landing_after(walk, group.reading, group.sight.looks, low_reading_);
    SheetWay if_low = way_of({group.sight, {low.walk, low.step, {}}, group.reading});
    if_low.when = word(SheetWord::low_then);
    fork(ways, group.sight, said, std::move(if_low), word(SheetWord::not_low_then));
  }

  SheetBox measure_box(const PaperWalk& awake) {
    SheetBox box = empty_box(SheetPart::measure, kMeasure, word(SheetWord::measure_title, unit_words()));
    box.lines = awake.lines();
    box.ways = joined_ways(awake, first_groups_);
    if (auto way = awake_after_glucagon(start_, language_, kEmergency)) box.ways.insert(box.ways.begin(), *std::move(way));
    return box;
  }

  SheetBox give_box() {
    SheetBox box = empty_box(SheetPart::give, kGive, word(SheetWord::give_title));
    box.urgency = giving_->view().urgency;
    box.lines = giving_->lines();
    // What a very low reading adds.
    for (const ReadingGroup& group : first_groups_) {
      if (group.sight.no_reading || &group.landing.walk == giving_ || box_for(group.landing) != kGive) continue;
      if (group.sight.looks == Looks::unwell) continue;
      SheetWay also;
      SheetSight sight = group.sight;
      sight.looks = Looks::any;  // it is the reading that adds it
      also.when = word(SheetWord::very_low_also, text_from_sight(sight, language_));
      also.urgency = group.landing.walk.view().urgency;
      for (SheetLine& line : group.landing.walk.lines()) {
        if (!says(box.lines, line.text) && line.kind != ActionKind::watch) also.lines.push_back(std::move(line));
      }
      for (const SheetLine& line : also.lines) also_.insert(line.text);
      if (!also.lines.empty()) box.ways.push_back(std::move(also));
    }
    // What is usual first: a finger takes the first arrow.
    box.ways.push_back({word(SheetWord::then), {}, kAgain, box.urgency, {}});
    box.ways.push_back({word(SheetWord::trouble_title), {}, kTrouble, Urgency::home, {}});
    return box;
  }

  SheetBox again_box() {
    const Duration wait = giving_->wait();
    SheetBox box =
        empty_box(SheetPart::again, kAgain, word(SheetWord::again_title, text_from_duration(wait), unit_words()));
    box.ways = joined_ways(*after_first_, again_groups_);
    box.rounds = rounds_;
    box.wait = wait;
    refer_to_first(box.ways, first_groups_, again_groups_, kMeasure, language_);
    // The calls first: a finger stops at the first line that is true, and in the last round the low is true too.
    std::vector<SheetWay> calls;
    add_calls(calls);
    box.ways.insert(box.ways.begin(), calls.begin(), calls.end());
    return box;
  }

  /// Still low after the last round: whom to call, and when the emergency services.
  void add_calls(std::vector<SheetWay>& ways) {
    const View here = calling_->view();
    SheetWay after{word(SheetWord::after_round, std::to_string(rounds_)), {}, 0, here.urgency, {}};
    for (SheetLine& line : calling_->lines()) {
      // The sugar is that of the box to go to, and so is what it says already.
      if (!says(giving_->lines(), line.text) && !also_.count(line.text)) after.lines.push_back(std::move(line));
    }
    if (const ShownAction* sugar = by_mouth_in(here); sugar != nullptr && says(giving_->lines(), sugar->text))
      after.go = kGive;
    // Without a reading it is the same sugar for the signs; most often the call is the same too.
    std::optional<SheetWay> blind;
    for (const ReadingGroup& group : first_groups_) {
      if (group.sight.no_reading && group.sight.looks == Looks::unwell && box_for(group.landing) == kGive)
        blind = call_without_readings(group, *giving_, also_, kGive, language_);
    }
    const std::string round = std::to_string(rounds_);
    if (blind && blind->when == word(SheetWord::blind_round, round) && lead_alike(*blind, after)) {
      after.when = word(SheetWord::after_round_or_blind, round);
      blind.reset();
    }
    ways.push_back(std::move(after));
    if (blind) ways.push_back(std::move(*blind));
    PaperWalk walk = *calling_;
    for (int rounds = 1; rounds < kMostRounds && here.urgency != Urgency::emergency; ++rounds) {
      if (walk.view().call) walk.called(walk.view().call->contact, Outcome::reached);
      walk.all_done();
      walk.wait_over();
      walk = landing_after(walk, *low_reading_, Looks::unwell).walk;
      if (walk.view().urgency != Urgency::emergency) continue;
      SheetWay way{word(SheetWord::after_more_rounds, std::to_string(rounds)), {}, 0, Urgency::emergency, {}};
      for (SheetLine& line : walk.lines()) {
        if (is_call(line.kind)) way.lines.push_back(std::move(line));
      }
      ways.push_back(std::move(way));
      break;
    }
  }

  const Protocol& protocol_;
  const Child& child_;
  Language language_;
  PaperWalk start_;
  LowPage low_;
  std::vector<ReadingGroup> first_groups_, again_groups_;
  const PaperWalk* giving_ = nullptr;
  std::optional<Value> low_reading_;
  std::optional<PaperWalk> after_first_, calling_;
  int rounds_ = 0;
  SheetBox eat_box_{};
  std::optional<SheetBox> later_box_;
  std::string later_step_;
  std::vector<std::string> eat_steps_;
  std::set<std::string> also_;  // what a very low reading adds
};

}  // namespace

std::optional<LowPage> low_page(const Protocol& protocol, const Child& child, Moment at) {
  return Low(protocol, child, at).page();
}

}  // namespace rushlight
