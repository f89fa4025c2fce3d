#include "cli/bell.hpp"

#include <boost/test/unit_test.hpp>

#include "measure/moment.hpp"

using namespace rushlight;
using std::chrono::minutes;
using std::chrono::seconds;

namespace {

constexpr Instant kNight{};
constexpr Bell::Seen kNothing{false, false, false}, kAsked{false, false, true}, kLate{false, true, true},
    kMoved{true, false, true};

/// A look each quarter of a minute, from the last key on; counts how often it rings.
int rings_in(Bell& bell, const Bell::Seen& seen, minutes time) {
  int rings = 0;
  for (seconds at{15}; at <= time; at += seconds{15}) rings += bell.rings(seen, at, kNight + at) ? 1 : 0;
  return rings;
}

Bell after_a_key() {
  Bell bell;
  bell.hear_key(seconds{0}, kNight);
  return bell;
}

}  // namespace

BOOST_AUTO_TEST_SUITE(bell)

BOOST_AUTO_TEST_CASE(question_that_nobody_answers_rings_every_three_minutes) {
  Bell bell = after_a_key();
  BOOST_TEST(rings_in(bell, kAsked, minutes{2}) == 0);
  bell = after_a_key();
  BOOST_TEST(rings_in(bell, kAsked, minutes{90}) == 30);
}

BOOST_AUTO_TEST_CASE(question_that_nobody_touched_yet_rings_too) {
  Bell bell;
  BOOST_TEST(rings_in(bell, kAsked, minutes{10}) == 3);
}

BOOST_AUTO_TEST_CASE(wait_that_runs_rings_for_nobody) {
  Bell bell = after_a_key();
  BOOST_TEST(rings_in(bell, kNothing, minutes{90}) == 0);
}

BOOST_AUTO_TEST_CASE(time_of_a_wait_does_not_count_for_the_question_behind_it) {
  Bell bell = after_a_key();
  rings_in(bell, kNothing, minutes{15});
  BOOST_TEST(!bell.rings(kAsked, minutes{15}, kNight + minutes{15}));
}

BOOST_AUTO_TEST_CASE(check_that_is_missing_rings_on_and_on) {
  Bell bell = after_a_key();
  BOOST_TEST(rings_in(bell, kLate, minutes{5}) > 10);
}

BOOST_AUTO_TEST_CASE(change_without_a_key_rings_at_once) {
  Bell bell = after_a_key();
  BOOST_TEST(bell.rings(kMoved, seconds{20}, kNight + seconds{20}));
}

BOOST_AUTO_TEST_CASE(key_ends_the_alarm) {
  Bell bell = after_a_key();
  bell.rings(kMoved, seconds{20}, kNight + seconds{20});
  bell.hear_key(seconds{30}, kNight + seconds{30});
  BOOST_TEST(!bell.rings(kAsked, seconds{45}, kNight + seconds{45}));
}

BOOST_AUTO_TEST_SUITE_END()
