#include <boost/test/data/monomorphic.hpp>
#include <boost/test/data/test_case.hpp>
#include <boost/test/unit_test.hpp>

#include "wire/event_from_line.hpp"
#include "wire/line_from_event.hpp"
#include "wire/sample.hpp"

namespace rushlight::tests {

namespace {

const std::string kAt = R"({"at":"2026-03-01T02:10:00-05:00",)";

Event event_in(const std::string& line) {
  auto read = event_from_line(line, every_word(), sample_child());
  if (const auto* findings = std::get_if<std::vector<Finding>>(&read)) {
    BOOST_FAIL(line << "\n" << text_from_finding(findings->front(), line));
  }
  return std::get<Event>(read);
}

std::vector<Finding> findings_in(const std::string& line) {
  auto read = event_from_line(line, every_word(), sample_child());
  BOOST_REQUIRE_MESSAGE(std::holds_alternative<std::vector<Finding>>(read), line << " was accepted");
  return std::get<std::vector<Finding>>(read);
}

Value answer_in(const std::string& question, const std::string& json) {
  const Event event = event_in(kAt + R"("answer":{")" + question + "\":" + json + "}}");
  return std::get<Answered>(event.what).answers.at(0).second;
}

// Each kind of event, as the writer writes it.
const std::vector<std::string> kLines{
    kAt + R"("tick":true})",
    kAt + R"("answer":{"awake":"yes","glucose":"52 mg/dL"}})",
    kAt + R"("answer":{"glucose":"2.9 mmol/L","ketones":"1.2 mmol/L","vomits":"3","ate-recently":"40 min"}})",
    kAt +
        R"("answer":{"glucose":"LO","ketones":"HI","vomits":"unknown","ate-recently":"none","urine-ketones":"large"}})",
    kAt + R"("worse":{"awake":"no"}})",
    kAt + R"("worse":{}})",
    kAt + R"("correct":{"glucose":"72 mg/dL"}})",
    kAt + R"("done":true})",
    kAt + R"("done":{"action":"sugar","outcome":"given","amount":"7 g","when":"2026-03-01T02:05:00-05:00"}})",
    kAt + R"("done":{"action":"ring","outcome":"no-answer"}})",
    kAt + R"("done":[{"action":"sugar","outcome":"part","amount":"3.5 g"},{"action":"pause","outcome":"none-here"}]})",
    kAt + R"("call":{"contact":"on-call","outcome":"no-answer"}})",
    kAt + R"("call":{"contact":"clinic","outcome":"told","text":"beba \"azúcar\" ya"}})",
    kAt + R"("language":"es"})",
    kAt + R"("takeover":{"by":"Bo"}})",
    kAt + R"("abandon":{"why":"in hospital"}})",
    kAt + R"("abandon":{}})",
    R"({"at":"2026-03-01T07:10:00Z","tick":true})",
};

}  // namespace

BOOST_AUTO_TEST_SUITE(events)

BOOST_DATA_TEST_CASE(every_event_is_written_as_it_was_read, boost::unit_test::data::make(kLines), line) {
  BOOST_TEST(line_from_event(event_in(line), every_word()) == line);
}

BOOST_AUTO_TEST_CASE(night_that_was_ended_with_an_empty_reason_is_read_as_one_without) {
  BOOST_TEST(line_from_event(event_in(kAt + R"("abandon":{"why":""}})"), every_word()) == kAt + R"("abandon":{}})");
}

BOOST_AUTO_TEST_CASE(reason_for_an_end_that_is_no_text_is_refused) {
  BOOST_TEST(kinds_of(findings_in(kAt + R"("abandon":{"why":7}})")) == "wrong-type");
}

BOOST_AUTO_TEST_CASE(reading_without_a_unit_is_taken_in_the_unit_of_the_meter) {
  const Value typed = answer_in("glucose", "52");
  BOOST_CHECK(typed == Value{Glucose::reading(Decimal::whole(52), GlucoseUnit::mg_per_dl)});
}

BOOST_AUTO_TEST_CASE(reading_in_the_other_unit_is_kept_in_the_unit_it_was_taken_in) {
  const Value typed = answer_in("glucose", "\"3.9 mmol/L\"");
  BOOST_CHECK(typed == Value{Glucose::reading(Decimal::of_micros(3'900'000), GlucoseUnit::mmol_per_l)});
}

BOOST_AUTO_TEST_CASE(reading_that_fits_only_the_other_unit_is_asked_about) {
  BOOST_TEST(kinds_of(findings_in(kAt + R"("answer":{"glucose":4.2}})")) == "implausible-value");
}

BOOST_AUTO_TEST_CASE(count_may_be_a_number_or_a_text) {
  BOOST_CHECK(answer_in("vomits", "3") == Value{Count{3}});
  BOOST_CHECK(answer_in("vomits", "\"3\"") == Value{Count{3}});
}

BOOST_AUTO_TEST_CASE(every_question_takes_cannot_tell) {
  for (const Fact& fact : every_word().facts) {
    if (!fact.from_child) BOOST_CHECK(answer_in(fact.name, "\"unknown\"") == Value{CantTell{}});
  }
}

BOOST_AUTO_TEST_CASE(wrong_option_names_those_there_are) {
  const std::vector<Finding> findings = findings_in(kAt + R"("answer":{"awake":"maybe"}})");
  BOOST_REQUIRE_EQUAL(findings.size(), 1u);
  BOOST_TEST(remedy(findings[0].kind) == "write `yes`, `no` or `unknown`");
}

BOOST_AUTO_TEST_CASE(misspelled_question_is_told_the_word_that_was_meant) {
  const std::vector<Finding> findings = findings_in(kAt + R"("answer":{"glucse":52}})");
  BOOST_TEST(remedy(findings.at(0).kind) == "write `glucose`");
}

BOOST_AUTO_TEST_CASE(line_of_more_than_sixty_four_kibibytes_is_refused_unread) {
  const std::string line = kAt + R"("abandon":{"why":")" + std::string(64 * 1024, 'a') + "\"}}";
  BOOST_TEST(kinds_of(findings_in(line)) == "too-large");
}

BOOST_AUTO_TEST_CASE(deep_nesting_is_refused) {
  BOOST_TEST(kinds_of(findings_in(std::string(60'000, '['))) == "too-large");
}

BOOST_AUTO_TEST_CASE(note_of_a_thousand_letters_is_kept_whole) {
  std::string note;
  for (int i = 0; i < 1000; ++i) note += "ñ";
  const Event event = event_in(kAt + R"("call":{"contact":"clinic","outcome":"told","text":")" + note + "\"}}");
  BOOST_CHECK(std::get<Called>(event.what).text == note);
}

BOOST_AUTO_TEST_CASE(line_cut_at_any_place_is_refused_and_never_half_read) {
  const std::string whole = kAt + R"("done":{"action":"sugar","outcome":"given","amount":"7 g"}})";
  for (std::size_t length = 0; length < whole.size(); ++length) findings_in(whole.substr(0, length));
}

BOOST_AUTO_TEST_CASE(any_changed_byte_is_refused_or_read_and_never_breaks_anything) {
  const std::string whole = kAt + R"("answer":{"awake":"yes","glucose":"52 mg/dL"}})";
  int read = 0, refused = 0;
  for (std::size_t place = 0; place < whole.size(); ++place) {
    for (int byte = 0; byte < 256; ++byte) {
      std::string line = whole;
      line[place] = static_cast<char>(byte);
      auto result = event_from_line(line, every_word(), sample_child());
      if (const auto* event = std::get_if<Event>(&result)) {
        ++read;
        BOOST_CHECK(std::holds_alternative<Event>(
            event_from_line(line_from_event(*event, every_word()), every_word(), sample_child())));
      } else {
        ++refused;
        BOOST_CHECK(has_error(std::get<std::vector<Finding>>(result)));
      }
    }
  }
  BOOST_TEST_MESSAGE(read << " read, " << refused << " refused");
  BOOST_TEST(read > 0);
  BOOST_TEST(refused > 10'000);
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace rushlight::tests
