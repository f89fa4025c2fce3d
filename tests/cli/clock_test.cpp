#include "cli/clock.hpp"

#include <unistd.h>

#include <boost/test/unit_test.hpp>
#include <cstdlib>
#include <ctime>
#include <fstream>

namespace rushlight {
namespace {

ClockChoice chosen(const char* text) {
  setenv("RUSHLIGHT_CLOCK", text, 1);
  ClockChoice choice = clock_from_environment();
  unsetenv("RUSHLIGHT_CLOCK");
  return choice;
}

BOOST_AUTO_TEST_SUITE(clock)

BOOST_AUTO_TEST_CASE(the_real_clock_agrees_with_the_wall_and_its_zone) {
  setenv("TZ", "XXX5", 1);  // five hours behind UTC
  tzset();
  const Moment now = RealClock().now();
  const auto wall = std::chrono::sys_seconds{std::chrono::seconds{std::time(nullptr)}};
  BOOST_TEST(std::abs((now.utc - wall).count()) <= 2);
  BOOST_TEST(now.offset.count() == -300);
  unsetenv("TZ");
  tzset();
}

BOOST_AUTO_TEST_CASE(daylight_saving_changes_the_offset_and_not_the_instant) {
  setenv("TZ", "EST5EDT,M3.2.0,M11.1.0", 1);
  tzset();
  BOOST_TEST(local_offset_at(moment_from_text("2026-01-15T12:00:00Z")->utc).count() == -300);
  BOOST_TEST(local_offset_at(moment_from_text("2026-07-15T12:00:00Z")->utc).count() == -240);
  BOOST_TEST(local_offset_at(moment_from_text("2026-03-08T06:59:59Z")->utc).count() == -300);
  BOOST_TEST(local_offset_at(moment_from_text("2026-03-08T07:00:00Z")->utc).count() == -240);
  unsetenv("TZ");
  tzset();
}

BOOST_AUTO_TEST_CASE(a_practice_clock_starts_where_it_is_told) {
  const ClockChoice choice = chosen("2026-03-01T02:10:00-05:00 x60");
  BOOST_REQUIRE(choice.clock);
  BOOST_TEST(choice.clock->practice() == 60);
  const Moment now = choice.clock->now();
  BOOST_TEST((now.utc - moment_from_text("2026-03-01T02:10:00-05:00")->utc).count() < 60);
  BOOST_TEST(now.offset.count() == -300);
  BOOST_TEST(chosen("2026-03-01T02:10:00Z").clock->practice() == 1);
}

BOOST_AUTO_TEST_CASE(a_clock_in_a_file_shows_the_last_moment_it_could_read) {
  const std::string path = "/tmp/rushlight-clock-" + std::to_string(getpid());
  std::ofstream(path) << "2026-03-01T02:10:00-05:00\n";
  const ClockChoice choice = chosen(("@" + path).c_str());
  BOOST_REQUIRE(choice.clock);
  std::ofstream(path) << "2026-03-01T02:26:00-05:00\n";
  BOOST_TEST((choice.clock->now() == *moment_from_text("2026-03-01T02:26:00-05:00")));
  std::ofstream(path) << "half a mo";
  BOOST_TEST((choice.clock->now() == *moment_from_text("2026-03-01T02:26:00-05:00")));
  unlink(path.c_str());
  BOOST_TEST(!chosen(("@" + path).c_str()).clock);
}

BOOST_AUTO_TEST_CASE(without_the_setting_the_clock_is_real) {
  unsetenv("RUSHLIGHT_CLOCK");
  BOOST_TEST(clock_from_environment().clock->practice() == 0);
}

BOOST_AUTO_TEST_CASE(a_setting_that_is_not_understood_gives_no_clock_at_all) {
  for (const char* text : {"now", "2026-03-01T02:10:00 x60", "2026-03-01T02:10:00Z x0", "2026-03-01T02:10:00Z x3601",
                           "2026-03-01T02:10:00Z x1.5", "2026-03-01T02:10:00Z 60", "2026-03-01T02:10:00Z  x60"}) {
    const ClockChoice choice = chosen(text);
    BOOST_TEST(!choice.clock, text);
    BOOST_TEST(choice.refusal.find("RUSHLIGHT_CLOCK must be like") == 0u);
  }
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace
}  // namespace rushlight
