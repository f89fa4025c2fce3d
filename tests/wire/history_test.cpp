#include "wire/history_from_json.hpp"

#include <boost/test/unit_test.hpp>

#include "wire/event_from_line.hpp"
#include "wire/kept_set.hpp"
#include "wire/line_from_event.hpp"
#include "wire/sample.hpp"

namespace rushlight::tests {
namespace {

History told_by(const std::vector<std::string>& lines) {
  History history;
  add_lines_to_history(history, lines, GlucoseUnit::mg_per_dl);
  return history;
}

std::string clock(const Moment& moment) { return text_from_moment(moment).substr(11, 5); }

}  // namespace

BOOST_AUTO_TEST_SUITE(history)

BOOST_AUTO_TEST_CASE(readings_sugar_and_insulin_of_an_earlier_night_are_found_in_its_lines) {
  const History history = told_by({
      R"({"at":"2026-02-28T02:10:00-05:00","answer":{"awake":"yes","glucose":"52 mg/dL"}})",
      R"({"at":"2026-02-28T02:12:00-05:00","done":{"action":"sugar","outcome":"given","amount":"7 g"}})",
      R"({"at":"2026-02-28T02:13:00-05:00","done":[{"action":"a","outcome":"given","amount":"2 [iU]","when":"2026-02-28T01:05:00-05:00"},{"action":"b","outcome":"refused","amount":"3 [iU]"}]})",
      R"({"at":"2026-02-28T02:30:00-05:00","worse":{"glucose":"LO"}})",
  });
  BOOST_REQUIRE_EQUAL(history.readings.size(), 2U);
  BOOST_TEST(text_from_glucose(history.readings[0].value) == "52 mg/dL");
  BOOST_TEST(text_from_glucose(history.readings[1].value) == "LO");
  BOOST_REQUIRE_EQUAL(history.treatments.size(), 1U);
  BOOST_TEST(clock(history.treatments[0]) == "02:12");
  BOOST_REQUIRE(history.last_insulin.has_value());
  BOOST_TEST(clock(*history.last_insulin) == "01:05");
}

BOOST_AUTO_TEST_CASE(mistyped_reading_counts_as_corrected) {
  const History history = told_by({
      R"({"at":"2026-02-28T02:10:00-05:00","answer":{"glucose":"520 mg/dL"}})",
      R"({"at":"2026-02-28T02:11:00-05:00","correct":{"glucose":"52 mg/dL"}})",
  });
  BOOST_REQUIRE_EQUAL(history.readings.size(), 1U);
  BOOST_TEST(text_from_glucose(history.readings[0].value) == "52 mg/dL");
}

BOOST_AUTO_TEST_CASE(line_that_cannot_be_read_holds_up_nothing) {
  const History history = told_by({"{", "", R"({"at":"never"})", R"({"at":"2026-02-28T02:10:00-05:00","answer":{"glucose":"61"}})"});
  BOOST_TEST(history.readings.size() == 1U);
}

BOOST_AUTO_TEST_CASE(what_a_clock_set_back_puts_in_the_future_is_no_reading_and_its_insulin_blocks_from_now) {
  History history = told_by({
      R"({"at":"2026-02-28T05:00:00-05:00","answer":{"glucose":"52 mg/dL"}})",
      R"({"at":"2026-02-28T05:00:00-05:00","done":{"action":"pen","outcome":"given","amount":"2 [iU]"}})",
  });
  const Moment now = *moment_from_text("2026-02-28T03:00:00-05:00");
  keep_recent(history, now);
  BOOST_TEST(history.readings.empty());
  BOOST_REQUIRE(history.last_insulin.has_value());
  BOOST_TEST(clock(*history.last_insulin) == "03:00");
}

BOOST_AUTO_TEST_CASE(only_the_last_two_weeks_are_kept_oldest_first) {
  History history = told_by({
      R"({"at":"2026-02-28T02:10:00-05:00","answer":{"glucose":"52 mg/dL"}})",
      R"({"at":"2026-02-10T02:10:00-05:00","answer":{"glucose":"53 mg/dL"}})",
      R"({"at":"2026-02-27T02:10:00-05:00","answer":{"glucose":"54 mg/dL"}})",
  });
  keep_recent(history, *moment_from_text("2026-03-01T02:10:00-05:00"));
  BOOST_REQUIRE_EQUAL(history.readings.size(), 2U);
  BOOST_TEST(text_from_glucose(history.readings[0].value) == "54 mg/dL");
}

BOOST_AUTO_TEST_CASE(past_is_an_event_that_reads_back_as_it_was_written) {
  const std::string line =
      R"({"at":"2026-03-01T02:10:00-05:00","past":{"readings":[{"at":"2026-02-28T02:10:00-05:00","glucose":"52 mg/dL"},{"at":"2026-02-28T02:30:00-05:00","glucose":"HI mmol/L"}],"treated":["2026-02-28T02:12:00-05:00"],"insulin":"2026-02-28T01:05:00-05:00"}})";
  const auto read = event_from_line(line, every_word(), sample_child());
  BOOST_REQUIRE(std::holds_alternative<Event>(read));
  BOOST_TEST(line_from_event(std::get<Event>(read), every_word()) == line);
}

BOOST_AUTO_TEST_CASE(past_that_is_no_past_is_refused_and_says_where) {
  for (const char* past : {R"({"readings":[{"at":"2026-02-28T02:10:00-05:00","glucose":"a lot"}]})",
                           R"({"readings":[{"glucose":"52 mg/dL"}]})", R"({"treated":"yesterday"})", R"({"insuline":"x"})", "3"}) {
    const auto read = event_from_line(R"({"at":"2026-03-01T02:10:00-05:00","past":)" + std::string(past) + "}", every_word(),
                                      sample_child());
    BOOST_REQUIRE_MESSAGE((std::holds_alternative<std::vector<Finding>>(read)), past);
    BOOST_TEST(std::get<std::vector<Finding>>(read).front().where.column > 0U);
  }
}

BOOST_AUTO_TEST_SUITE_END()

BOOST_AUTO_TEST_SUITE(kept_sets)

BOOST_AUTO_TEST_CASE(one_file_is_kept_as_it_is) {
  BOOST_TEST(text_from_kept({{"low.xml", "<protocol/>"}}) == "<protocol/>");
  const auto read = kept_from_text("<protocol/>", "journal");
  BOOST_REQUIRE(read.value.has_value());
  BOOST_TEST(read.value->front().bytes == "<protocol/>");
}

BOOST_AUTO_TEST_CASE(one_file_whose_name_counts_keeps_it) {
  const auto read = kept_from_text(text_from_kept({{"low.xml", "<protocol/>"}}, true), "journal");
  BOOST_REQUIRE(read.value.has_value());
  BOOST_REQUIRE_EQUAL(read.value->size(), 1U);
  BOOST_TEST(read.value->front().name == "low.xml");
  BOOST_TEST(read.value->front().bytes == "<protocol/>");
}

BOOST_AUTO_TEST_CASE(several_files_come_back_byte_for_byte) {
  const std::vector<KeptFile> files = {{"a b.xml", "x\n\ny\r\n"}, {"c.xml", ""}, {"d.xml", "rushlight set 2\n"}};
  const auto read = kept_from_text(text_from_kept(files), "journal");
  BOOST_REQUIRE(read.value.has_value());
  BOOST_REQUIRE_EQUAL(read.value->size(), files.size());
  for (std::size_t i = 0; i < files.size(); ++i) {
    BOOST_TEST((*read.value)[i].name == files[i].name);
    BOOST_TEST((*read.value)[i].bytes == files[i].bytes);
  }
}

BOOST_AUTO_TEST_CASE(cut_set_is_damaged_and_never_half_a_set) {
  const std::string whole = text_from_kept({{"a.xml", "<a/>"}, {"b.xml", "<b/>"}});
  for (std::size_t cut = 15; cut < whole.size(); ++cut) {
    const auto read = kept_from_text(whole.substr(0, cut), "journal");
    BOOST_TEST(!read.value.has_value(), cut);
  }
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace rushlight::tests
