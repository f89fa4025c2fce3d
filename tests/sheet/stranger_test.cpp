#include <algorithm>
#include <boost/test/unit_test.hpp>
#include <random>

#include "sanitized.hpp"
#include "sheet/children.hpp"
#include "sheet/printed.hpp"
#include "sheet/readings.hpp"
#include "sheet/sheet_words.hpp"

// Somebody who knows nothing but the sheet, beside a walk that is told the same: whenever the walk comes to a call, the
// sheet has come to one that is no calmer, and says it in the walk's words.

namespace rushlight {
namespace {

using Looks = SheetSight::Looks;
using test::kToday;

constexpr int kNights = tests::kSanitized ? 100 : 1500;  // of each set

const SheetBox& box_numbered(const Sheet& sheet, int number) {
  for (const SheetBox& box : sheet.low.boxes) {
    if (box.number == number) return box;
  }
  throw std::runtime_error("an arrow leads to no box");
}

bool is_seen(const SheetSight& sight, const std::optional<Glucose>& reading, Looks looks) {
  if (sight.looks != Looks::any && sight.looks != looks) return false;
  if (sight.no_reading || !reading) return sight.no_reading && !reading;
  const auto micros = [](const Glucose& glucose) {
    if (glucose.mark()) return *glucose.mark() == MeterMark::lo ? INT64_MIN : INT64_MAX;
    return glucose.number()->micros();
  };
  return (!sight.from || micros(*sight.from) <= micros(*reading)) &&
         (!sight.to || micros(*reading) <= micros(*sight.to));
}

class Stranger {
 public:
  Stranger(const std::string& set, const Child& child, unsigned seed)
      : protocol_(test::protocol_of(set, "low")), child_(as_called(child)), sheet_(test::whole_sheet(set, child)), dice_(seed) {}

  int low_by_another_prick() const { return low_by_another_prick_; }
  int not_low_by_another_prick() const { return not_low_by_another_prick_; }

  void night() {
    PaperWalk walk(protocol_, child_, Moment{std::chrono::sys_days(kToday) + std::chrono::hours{12}, {}});
    walk.answer("awake", "yes");
    walk.go_on({"glucose"});
    follow(walk, box_numbered(sheet_, test::box_of(sheet_, SheetPart::look).ways.front().go), 0);
  }

 private:
  int up_to(int most) { return static_cast<int>(dice_() % static_cast<unsigned>(most + 1)); }

  std::optional<Glucose> drawn_reading() {
    const bool mg = child_.unit == GlucoseUnit::mg_per_dl;
    switch (up_to(9)) {
      case 0:
        return std::nullopt;
      case 1:
        return Glucose::lo(child_.unit);
      case 2:
        return Glucose::hi(child_.unit);
      default:
        // Lows twice as often as anything else.
        const int mg_value = up_to(2) > 0 ? 30 + up_to(60) : 60 + up_to(300);
        return Glucose::reading(
            mg ? Decimal::whole(mg_value) : Decimal::of_micros(mg_value * 1'000'000LL / 18 / 100'000 * 100'000),
            child_.unit);
    }
  }

  /// The sheet leads no calmer than the walk, and says the walk's call.
  void compare(const PaperWalk& walk, const SheetWay& way) {
    const View view = walk.view();
    if (!view.call) return;
    bool says_call = false, says_worse = false;
    for (const SheetLine& line : way.lines) {
      if (is_call(line.kind)) says_call = true;
      if (line.kind == ActionKind::call_emergency) says_worse = true;
      for (const ShownAction& action : view.actions)
        says_call = says_call || (is_call(action.kind) && action.text == line.text);
    }
    BOOST_TEST(says_call, "\"" << way.when << "\" says no call; the walk: " << view.call->text);
    if (view.call->contact == Contact::emergency) BOOST_TEST(says_worse, way.when << ": " << view.call->text);
  }

  void follow(PaperWalk walk, const SheetBox& box, int round) {
    const std::optional<Glucose> reading = drawn_reading();
    const Looks looks = up_to(1) == 0 ? Looks::well : Looks::unwell;
    const SheetWay* taken = nullptr;
    const std::vector<SheetWay>* beside = &box.ways;
    for (const SheetWay& way : box.ways) {
      if (way.sight && is_seen(*way.sight, reading, looks)) {
        BOOST_TEST(taken == nullptr, "two ways for one reading: " << way.when);
        taken = &way;
      }
    }
    BOOST_REQUIRE_MESSAGE(taken != nullptr, "no way for " << (reading ? text_from_glucose(*reading) : "no reading"));
    // A way back to another box, for a reading that is none.
    if (taken->go == test::box_of(sheet_, SheetPart::measure).number && box.part == SheetPart::again) {
      beside = &test::box_of(sheet_, SheetPart::measure).ways;
      for (const SheetWay& way : *beside) {
        if (way.sight && is_seen(*way.sight, reading, looks)) taken = &way;
      }
    }
    const Value value = reading ? Value{*reading} : Value{CantTell{}};
    if (taken != &beside->back() && (taken + 1)->under) return another_prick(walk, *taken, value, looks);
    const Landing landing = landing_after(walk, value, looks);
    const SheetBox& again = test::box_of(sheet_, SheetPart::again);
    const bool gives = taken->go == test::box_of(sheet_, SheetPart::give).number;
    if (gives && round >= again.rounds) {
      // After the last round the sheet has a way of its own.
      const auto after =
          std::find_if(again.ways.begin(), again.ways.end(), [](const SheetWay& way) { return !way.sight; });
      BOOST_REQUIRE((after != again.ways.end()));
      compare(landing.walk, *after);
      return;
    }
    compare(landing.walk, *taken);
    if (!gives) return;
    give(landing.walk, round);
  }

  /// A finger-prick that decides, in the words of the walk: low after all, or not.
  void another_prick(const PaperWalk& walk, const SheetWay& first, const Value& value, Looks looks) {
    const bool low = up_to(1) == 0;
    const SheetWay& taken = *(&first + (low ? 1 : 2));
    BOOST_TEST(taken.when == sheet_say(low ? SheetWord::low_then : SheetWord::not_low_then, child_.language));
    const Landing landing =
        landing_after(walk, value, looks, low ? std::optional<Value>{Glucose::lo(child_.unit)} : std::nullopt);
    ++(low ? low_by_another_prick_ : not_low_by_another_prick_);
    compare(landing.walk, taken);
    if (taken.go == test::box_of(sheet_, SheetPart::give).number) give(landing.walk, 0);
  }

  void give(PaperWalk walk, int round) {
    const View view = walk.view();
    const ShownAction* sugar = nullptr;
    for (const ShownAction& action : view.actions) {
      if (action.kind == ActionKind::by_mouth) sugar = &action;
    }
    BOOST_REQUIRE_MESSAGE(sugar != nullptr, "the sheet gives sugar where the walk does not: " << view.headline);
    const auto& lines = test::box_of(sheet_, SheetPart::give).lines;
    BOOST_TEST(
        (std::any_of(lines.begin(), lines.end(), [&](const SheetLine& line) { return line.text == sugar->text; })));
    if (up_to(5) == 0) return trouble(walk, *sugar);
    walk.all_done();
    walk.wait_over();
    follow(std::move(walk), test::box_of(sheet_, SheetPart::again), round + 1);
  }

  void trouble(PaperWalk walk, const ShownAction& sugar) {
    struct Kind {
      Outcome outcome;
      SheetWord when;
    };
    const Kind kinds[] = {{Outcome::vomited, SheetWord::vomited},
                          {Outcome::refused, SheetWord::refused},
                          {Outcome::none_here, SheetWord::none_here}};
    const Kind kind = kinds[up_to(2)];
    walk.outcome(sugar.id, kind.outcome);
    for (const SheetWay& way : test::box_of(sheet_, SheetPart::trouble).ways) {
      if (way.when != sheet_say(kind.when, child_.language)) continue;
      compare(walk, way);
      return;
    }
    BOOST_ERROR("the sheet says nothing of " << sheet_say(kind.when, child_.language));
  }

  const Protocol& protocol_;
  Child child_;
  Sheet sheet_;
  std::mt19937 dice_;
  int low_by_another_prick_ = 0, not_low_by_another_prick_ = 0;
};

BOOST_AUTO_TEST_SUITE(sheet_and_stranger)

BOOST_AUTO_TEST_CASE(whoever_follows_the_sheet_comes_to_every_call_that_the_walk_comes_to) {
  for (const char* set : test::kShippedSets) {
    test::Children children(9);
    int low = 0, not_low = 0;
    for (int drawn = 0; drawn < kNights / 25; ++drawn) {
      Stranger stranger(set, children.next(kToday), static_cast<unsigned>(drawn));
      for (int night = 0; night < 25; ++night) stranger.night();
      low += stranger.low_by_another_prick();
      not_low += stranger.not_low_by_another_prick();
    }
    BOOST_TEST((low > 0 && not_low > 0), set << ": a second finger-prick, low " << low << ", not low " << not_low);
  }
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace
}  // namespace rushlight
