#include <libical/ical.h>

#include <boost/test/unit_test.hpp>

#include "cli/program.hpp"

// The calendar file, read by libical.

namespace rushlight::tests {
namespace {

constexpr const char* kLowBegins = R"({"at":"2026-03-01T02:10:00-05:00","answer":{"awake":"yes","already-given":"no"}}
{"at":"2026-03-01T02:11:00-05:00","answer":{"glucose":"62 mg/dL"}}
{"at":"2026-03-01T02:11:10-05:00","answer":{"reading-from":"meter"}}
{"at":"2026-03-01T02:13:00-05:00","done":true}
)";

struct Planned {
  Folder folder;
  Run run{};
  explicit Planned(const std::string& name = "", const std::string& clock = "2026-03-01T02:14:00-05:00") {
    std::string child = file_in_tree("protocols/demo-child.json");
    if (!name.empty()) child.replace(child.find("Mika (practice)"), 15, name);
    folder.write("child.json", child);
    const Run walk = run_program(
        {"walk", "--json", "--child", folder.path("child.json"), "--journal", folder.path("journal")}, kLowBegins);
    BOOST_REQUIRE_MESSAGE(walk.out.find("\"error\"") == std::string::npos, walk.out);
    run = run_program({"plan", "--child", folder.path("child.json"), "--journal", folder.path("journal")}, "",
                      {"RUSHLIGHT_CLOCK=" + clock});
  }
};

BOOST_AUTO_TEST_SUITE(calendar)

BOOST_AUTO_TEST_CASE(next_check_is_an_event_with_alarms_at_its_time) {
  const Planned planned;
  BOOST_REQUIRE_MESSAGE(planned.run.status == 0, planned.run.err);
  icalcomponent* calendar = icalparser_parse_string(planned.run.out.c_str());
  BOOST_REQUIRE(calendar != nullptr);
  BOOST_TEST(icalcomponent_count_errors(calendar) == 0);
  BOOST_TEST(icalrestriction_check(calendar) == 1);
  icalcomponent* event = icalcomponent_get_first_component(calendar, ICAL_VEVENT_COMPONENT);
  BOOST_REQUIRE(event != nullptr);
  const icaltimetype start = icalcomponent_get_dtstart(event);
  // Given at 02:13, checked 15 minutes later: 07:28 in UTC.
  BOOST_TEST(start.hour == 7);
  BOOST_TEST(start.minute == 28);
  BOOST_TEST(icaltime_is_utc(start) == 1);
  BOOST_TEST(icalcomponent_count_components(event, ICAL_VALARM_COMPONENT) == 2);
  BOOST_TEST(icalcomponent_get_uid(event) != nullptr);
  icalcomponent_free(calendar);
}

BOOST_AUTO_TEST_CASE(name_is_text_and_every_line_is_short_enough) {
  const Planned planned("Ana; B,C\\\\D ñandú ñandú ñandú ñandú ñandú ñandú ñandú");
  BOOST_REQUIRE_MESSAGE(planned.run.status == 0, planned.run.err);
  for (std::string line : lines_of(planned.run.out)) {
    BOOST_TEST(line.back() == '\r');
    line.pop_back();
    BOOST_TEST(line.size() <= 75U, line);
  }
  icalcomponent* calendar = icalparser_parse_string(planned.run.out.c_str());
  BOOST_REQUIRE(calendar != nullptr);
  icalcomponent* event = icalcomponent_get_first_component(calendar, ICAL_VEVENT_COMPONENT);
  const std::string summary = icalcomponent_get_summary(event);
  BOOST_TEST(summary.find("Ana; B,C\\D ñandú") != std::string::npos, summary);
  icalcomponent_free(calendar);
}

BOOST_AUTO_TEST_CASE(nothing_open_or_nothing_coming_is_said) {
  const Planned late("", "2026-03-01T09:14:00-05:00");
  BOOST_TEST(late.run.status == 1);
  BOOST_TEST(!late.run.err.empty());
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace
}  // namespace rushlight::tests
