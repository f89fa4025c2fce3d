#define BOOST_TEST_DYN_LINK
#include "measure/moment.hpp"

#include <boost/test/data/monomorphic.hpp>
#include <boost/test/data/test_case.hpp>
#include <boost/test/unit_test.hpp>
#include <ostream>
#include <vector>

using namespace rushlight;
namespace data = boost::unit_test::data;

namespace {

std::string moment_read(const std::string& text) {
  const std::optional<Moment> moment = moment_from_text(text);
  return moment ? text_from_moment(*moment) : "refused";
}

struct MomentRow {
  std::string text;
  std::string read;
};
std::ostream& operator<<(std::ostream& out, const MomentRow& row) { return out << "\"" << row.text << "\""; }

const std::vector<MomentRow> kMoments = {
    {"2026-03-01T02:10:00-05:00", "2026-03-01T02:10:00-05:00"},
    {"2026-03-01T02:10:00Z", "2026-03-01T02:10:00Z"},
    {"2026-03-01t02:10:00z", "2026-03-01T02:10:00Z"},
    {"2026-03-01T02:10:00+00:00", "2026-03-01T02:10:00Z"},
    {"2026-03-01T02:10:00-00:00", "2026-03-01T02:10:00Z"},
    {"2026-03-01T02:10:59.999Z", "2026-03-01T02:10:59Z"},
    {"2026-03-01T23:59:59+05:45", "2026-03-01T23:59:59+05:45"},
    {"2028-02-29T00:00:00Z", "2028-02-29T00:00:00Z"},
    {"2026-02-29T00:00:00Z", "refused"},
    {"2100-02-29T00:00:00Z", "refused"},
    {"2000-02-29T00:00:00Z", "2000-02-29T00:00:00Z"},
    {"2026-04-31T00:00:00Z", "refused"},
    {"2026-00-01T00:00:00Z", "refused"},
    {"2026-13-01T00:00:00Z", "refused"},
    {"2026-03-01T24:00:00Z", "refused"},
    {"2026-03-01T02:60:00Z", "refused"},
    {"2026-03-01T02:10:60Z", "refused"},
    {"2026-03-01T02:10:00+14:00", "2026-03-01T02:10:00+14:00"},
    {"2026-03-01T02:10:00+14:01", "refused"},
    {"2026-03-01T02:10:00-14:01", "refused"},
    {"2026-03-01T02:10:00+05:60", "refused"},
    {"2026-03-01T02:10:00", "refused"},
    {"2026-03-01T02:10Z", "refused"},
    {"2026-03-01 02:10:00Z", "refused"},
    {"2026-03-01T02:10:00.Z", "refused"},
    {"2026-03-01T02:10:00,5Z", "refused"},
    {"2026-03-01T02:10:00+0500", "refused"},
    {"2026-03-01T02:10:00+05", "refused"},
    {"2026-03-01T02:10:00Z ", "refused"},
    {" 2026-03-01T02:10:00Z", "refused"},
    {"26-03-01T02:10:00Z", "refused"},
    {"2026-3-01T02:10:00Z", "refused"},
    {"2026-03-01T2:10:00Z", "refused"},
    {"", "refused"},
    {"1969-12-31T23:59:59-01:00", "1969-12-31T23:59:59-01:00"},
    {"0000-01-01T00:00:00+14:00", "0000-01-01T00:00:00+14:00"},
};

struct AgeRow {
  std::string what;
  std::string birth;
  std::string on;
  int months;
};
std::ostream& operator<<(std::ostream& out, const AgeRow& row) {
  return out << row.what << ": born " << row.birth << ", on " << row.on;
}

const std::vector<AgeRow> kAges = {
    {"the day of birth", "2026-01-15", "2026-01-15", 0},
    {"the day before a month is complete", "2026-01-15", "2026-02-14", 0},
    {"the day a month is complete", "2026-01-15", "2026-02-15", 1},
    {"over the end of a year", "2025-12-31", "2026-01-30", 0},
    {"over the end of a year, complete", "2025-12-31", "2026-01-31", 1},
    {"born on the 31st, last day of February", "2026-01-31", "2026-02-28", 0},
    {"born on the 31st, the first of March completes the missing 31st", "2026-01-31", "2026-03-01", 1},
    {"born on the 31st, last day of April", "2026-03-31", "2026-04-30", 0},
    {"born on the 31st, first of May", "2026-03-31", "2026-05-01", 1},
    {"leap birthday, last day of February", "2024-02-29", "2025-02-28", 11},
    {"leap birthday, first of March", "2024-02-29", "2025-03-01", 12},
    {"leap birthday, next leap day", "2024-02-29", "2028-02-29", 48},
    {"leap birthday, the day before the next leap day", "2024-02-29", "2028-02-28", 47},
    {"six years, the day before", "2020-06-10", "2026-06-09", 71},
    {"six years", "2020-06-10", "2026-06-10", 72},
    {"before birth", "2026-06-10", "2026-06-09", 0},
    {"long before birth", "2026-06-10", "2020-01-01", 0},
};

ClockTime at(int hour, int minute) { return ClockTime::of_minutes(hour * 60 + minute); }

}  // namespace

BOOST_AUTO_TEST_SUITE(moment)

BOOST_DATA_TEST_CASE(a_moment_needs_a_day_that_exists_a_time_and_an_offset, data::make(kMoments), row) {
  BOOST_TEST(moment_read(row.text) == row.read);
}

// RFC 3339, section 5.8: these two pairs are the same instant.
BOOST_AUTO_TEST_CASE(the_published_example_pairs_are_one_instant) {
  BOOST_TEST((moment_from_text("1996-12-19T16:39:57-08:00")->utc == moment_from_text("1996-12-20T00:39:57Z")->utc));
  BOOST_TEST(moment_from_text("1985-04-12T23:20:50.52Z")->utc.time_since_epoch().count() == 482196050);
}

BOOST_AUTO_TEST_CASE(fifteen_minutes_stay_fifteen_when_the_clocks_go_back) {
  // New York, 1 November 2026: 01:59:59-04:00 is followed by 01:00:00-05:00.
  const Moment before = *moment_from_text("2026-11-01T01:50:00-04:00");
  const Moment after = shown_at_offset(before.utc + std::chrono::minutes{15}, std::chrono::hours{-5});
  BOOST_TEST(text_from_moment(after) == "2026-11-01T01:05:00-05:00");
  BOOST_TEST((clock_time_of(after) < clock_time_of(before)));
  BOOST_TEST((after.utc > before.utc));
}

BOOST_AUTO_TEST_CASE(fifteen_minutes_stay_fifteen_when_the_clocks_go_forward) {
  // Madrid, 29 March 2026: 01:59:59+01:00 is followed by 03:00:00+02:00.
  const Moment before = *moment_from_text("2026-03-29T01:50:00+01:00");
  const Moment after = shown_at_offset(before.utc + std::chrono::minutes{15}, std::chrono::hours{2});
  BOOST_TEST(text_from_moment(after) == "2026-03-29T03:05:00+02:00");
}

BOOST_AUTO_TEST_CASE(the_local_day_and_clock_follow_the_offset) {
  const Moment moment = *moment_from_text("2026-03-01T22:30:59-05:00");
  BOOST_TEST(text_from_day(local_day_of(moment)) == "2026-03-01");
  BOOST_TEST(text_from_clock_time(clock_time_of(moment)) == "22:30");
  const Moment as_utc = shown_at_offset(moment.utc, std::chrono::minutes{0});
  BOOST_TEST(text_from_day(local_day_of(as_utc)) == "2026-03-02");
  BOOST_TEST(text_from_clock_time(clock_time_of(as_utc)) == "03:30");
  const Moment early = *moment_from_text("1969-12-31T23:59:30Z");
  BOOST_TEST(text_from_clock_time(clock_time_of(early)) == "23:59");
}

BOOST_AUTO_TEST_CASE(a_clock_time_has_two_digits_on_each_side) {
  BOOST_TEST(clock_time_from_text("00:00")->minutes() == 0);
  BOOST_TEST(clock_time_from_text("23:59")->minutes() == 1'439);
  for (const char* text : {"24:00", "7:05", "07:5", "07:60", "0705", "07:05:00", " 07:05", "07:05 ", "", "-1:00"}) {
    BOOST_TEST_CONTEXT(text) BOOST_TEST(!clock_time_from_text(text).has_value());
  }
  for (int minute = 0; minute < 1'440; ++minute) {
    const ClockTime time = ClockTime::of_minutes(minute);
    BOOST_REQUIRE((clock_time_from_text(text_from_clock_time(time)) == time));
  }
}

BOOST_AUTO_TEST_CASE(a_range_of_the_clock_holds_its_begin_and_not_its_end) {
  BOOST_TEST(within(at(6, 0), at(6, 0), at(22, 0)));
  BOOST_TEST(within(at(21, 59), at(6, 0), at(22, 0)));
  BOOST_TEST(!within(at(22, 0), at(6, 0), at(22, 0)));
  BOOST_TEST(!within(at(5, 59), at(6, 0), at(22, 0)));
}

BOOST_AUTO_TEST_CASE(a_range_of_the_clock_may_pass_midnight) {
  BOOST_TEST(within(at(22, 0), at(22, 0), at(6, 0)));
  BOOST_TEST(within(at(0, 0), at(22, 0), at(6, 0)));
  BOOST_TEST(within(at(5, 59), at(22, 0), at(6, 0)));
  BOOST_TEST(!within(at(6, 0), at(22, 0), at(6, 0)));
  BOOST_TEST(!within(at(12, 0), at(22, 0), at(6, 0)));
}

BOOST_AUTO_TEST_CASE(a_range_with_equal_ends_is_the_whole_day) {
  for (int minute = 0; minute < 1'440; ++minute)
    BOOST_REQUIRE(within(ClockTime::of_minutes(minute), at(6, 0), at(6, 0)));
}

BOOST_AUTO_TEST_CASE(every_minute_lies_in_exactly_one_of_day_and_night) {
  for (int minute = 0; minute < 1'440; ++minute) {
    const ClockTime time = ClockTime::of_minutes(minute);
    BOOST_REQUIRE(within(time, at(22, 0), at(6, 0)) != within(time, at(6, 0), at(22, 0)));
  }
}

BOOST_AUTO_TEST_CASE(a_day_must_exist) {
  BOOST_TEST(text_from_day(*day_from_text("2028-02-29")) == "2028-02-29");
  for (const char* text :
       {"2026-02-29", "2026-2-9", "2026-06-31", "2026-06-00", "01-03-2026", "2026-03-01 ", "2026/03/01", ""}) {
    BOOST_TEST_CONTEXT(text) BOOST_TEST(!day_from_text(text).has_value());
  }
}

BOOST_DATA_TEST_CASE(age_counts_completed_months, data::make(kAges), row) {
  BOOST_TEST(age_on(*day_from_text(row.birth), *day_from_text(row.on)).months() == row.months);
}

BOOST_AUTO_TEST_CASE(a_child_never_grows_younger) {
  for (const char* text : {"2024-02-29", "2024-01-31", "2023-12-31", "2024-06-15"}) {
    const Day birth = *day_from_text(text);
    int months = 0;
    for (std::chrono::sys_days day{birth}; day < std::chrono::sys_days{birth} + std::chrono::days{1'500};
         day += std::chrono::days{1}) {
      const int now = age_on(birth, Day{day}).months();
      BOOST_REQUIRE(now >= months);
      BOOST_REQUIRE(now <= months + 1);
      months = now;
    }
    BOOST_TEST(months == 49);
  }
}

BOOST_AUTO_TEST_SUITE_END()
