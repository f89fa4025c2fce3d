#include "verify/cover.hpp"

#include <algorithm>
#include <array>
#include <boost/test/unit_test.hpp>
#include <random>

#include "tests/sanitized.hpp"
#include "tests/verify/grown_tables.hpp"
#include "verify/boxes_by_place.hpp"
#include "verify/check.hpp"

using namespace rushlight;
using namespace rushlight::tests;

namespace {

constexpr std::size_t kDimensions = 3, kPlaces = 5;

/// Boxes so small that every point of them can be looked at.
class SmallBoxes {
 public:
  explicit SmallBoxes(unsigned seed) : random_(seed) {}

  Box next() {
    Box box;
    for (std::size_t i = 0; i < kDimensions; ++i) {
      Stretches side;
      // Mostly runs, as numbers give them; sometimes any set, as options do.
      const std::size_t from = random_() % kPlaces, up_to = from + 1 + random_() % (kPlaces - from);
      const bool any = random_() % 4 == 0;
      for (std::size_t place = 0; place < kPlaces; ++place) {
        if (any ? random_() % 2 == 0 : place >= from && place < up_to) side.set(place);
      }
      box.sides.push_back(side);
    }
    return box;
  }
  std::size_t below(std::size_t end) { return random_() % end; }

 private:
  std::mt19937 random_;
};

Box whole() { return Box{std::vector<Stretches>(kDimensions, Stretches::first(kPlaces))}; }

using Point = std::array<std::size_t, kDimensions>;

bool holds(const Box& box, const Point& point) {
  for (std::size_t i = 0; i < kDimensions; ++i) {
    if (!box.sides[i].test(point[i])) return false;
  }
  return true;
}

std::vector<Point> all_points() {
  std::vector<Point> points;
  for (std::size_t a = 0; a < kPlaces; ++a) {
    for (std::size_t b = 0; b < kPlaces; ++b) {
      for (std::size_t c = 0; c < kPlaces; ++c) points.push_back({a, b, c});
    }
  }
  return points;
}

}  // namespace

BOOST_AUTO_TEST_SUITE(cover)

BOOST_AUTO_TEST_CASE(what_is_left_over_is_each_point_that_no_taker_holds_and_each_once) {
  constexpr unsigned kSeed = 20260303;
  BOOST_TEST_MESSAGE("seed " << kSeed);
  SmallBoxes boxes(kSeed);
  int nothing_left = 0, something_left = 0;
  for (int round = 0; round < (kSanitized ? 300 : 3000); ++round) {
    std::vector<Box> takers;
    for (std::size_t i = boxes.below(14); i > 0; --i) takers.push_back(boxes.next());
    const Box box = boxes.next();
    Cover cover(whole());
    for (const Box& taker : takers) cover.add(taker);
    std::vector<Box> left;
    BOOST_TEST((cover.each_left_over(box, [&](const Box& part) {
      left.push_back(part);
      return true;
    }) == Search::ended));
    bool right = true;
    for (const Point& point : all_points()) {
      const auto count = [&](const std::vector<Box>& all) {
        return std::count_if(all.begin(), all.end(), [&](const Box& each) { return holds(each, point); });
      };
      right = right && count(left) == (holds(box, point) && count(takers) == 0 ? 1 : 0);
    }
    BOOST_TEST_REQUIRE(right, "round " << round);
    (left.empty() ? nothing_left : something_left) += 1;
  }
  BOOST_TEST(nothing_left > (kSanitized ? 10 : 100));
  BOOST_TEST(something_left > 100);
}

BOOST_AUTO_TEST_CASE(a_point_that_a_short_look_finds_is_held_by_no_box_before) {
  constexpr unsigned kSeed = 20260304;
  BOOST_TEST_MESSAGE("seed " << kSeed);
  SmallBoxes drawn(kSeed);
  int found = 0, there = 0, taken = 0;
  for (int round = 0; round < (kSanitized ? 30 : 300); ++round) {
    std::vector<Box> boxes;
    for (std::size_t i = drawn.below(100); i > 0; --i) boxes.push_back(drawn.next());
    const BoxesByPlace by_place(whole(), boxes);
    for (std::size_t box = 0; box < boxes.size(); ++box) {
      const auto before = boxes.begin() + static_cast<std::ptrdiff_t>(box);
      const std::vector<Point> points = all_points();
      const bool any = std::any_of(points.begin(), points.end(), [&](const Point& point) {
        return holds(boxes[box], point) &&
               std::none_of(boxes.begin(), before, [&](const Box& each) { return holds(each, point); });
      });
      const bool said = by_place.finds_point_before_others(box);
      BOOST_TEST_REQUIRE((any || !said), "round " << round << ", box " << box);
      found += said ? 1 : 0;
      (any ? there : taken) += 1;
    }
  }
  BOOST_TEST_MESSAGE(found << " points found of " << there << ", and none of " << taken << " boxes that are all taken");
  BOOST_TEST(found > there * 3 / 4);
  BOOST_TEST(taken > 100);
}

BOOST_AUTO_TEST_CASE(a_search_stops_when_the_visitor_has_seen_enough) {
  Cover cover(whole());
  Box corner = whole();
  for (Stretches& side : corner.sides) side.keep({0, 1});
  cover.add(corner);
  int seen = 0;
  BOOST_TEST((cover.each_left_over(whole(), [&](const Box&) { return ++seen < 2; }) == Search::stopped));
  BOOST_TEST(seen == 2);
}

// Eleven questions with ten answers each and a rule for each two questions answered alike: every case is taken, since
// ten answers do not do for eleven questions, but no search by cases sees that soon.
BOOST_AUTO_TEST_CASE(a_search_without_an_end_is_given_up_and_says_so) {
  constexpr std::size_t kQuestions = 11, kAnswers = 10;
  const Box all{std::vector<Stretches>(kQuestions, Stretches::first(kAnswers))};
  std::vector<Box> takers;
  for (std::size_t a = 0; a < kQuestions; ++a) {
    for (std::size_t b = 0; b < a; ++b) {
      for (std::uint32_t answer = 0; answer < kAnswers; ++answer) {
        takers.push_back(all);
        takers.back().sides[a].keep({answer, answer + 1});
        takers.back().sides[b].keep({answer, answer + 1});
      }
    }
  }
  Cover cover(all);
  for (const Box& taker : takers) cover.add(taker);
  bool anything = false;
  BOOST_TEST((cover.each_left_over(all, [&](const Box&) {
    anything = true;
    return false;
  }) == Search::gave_up));
  BOOST_TEST(!anything);
}

BOOST_AUTO_TEST_CASE(a_number_may_be_cut_as_often_as_a_clinic_likes) {
  const Protocol protocol = nearly_disjoint_table({900, 2, 1});
  for (const Finding& finding : check(protocol).findings) {
    BOOST_TEST(!finding.kind.is<TooLarge>());
    BOOST_TEST(!finding.kind.is<ValuesNotCovered>());
    BOOST_TEST(!finding.kind.is<RuleNeverMatches>());
  }
}

BOOST_AUTO_TEST_SUITE_END()
