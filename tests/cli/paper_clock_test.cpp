#include "cli/paper_clock.hpp"

#include <boost/test/unit_test.hpp>

using namespace rushlight;

namespace {

Moment at(const char* text) { return *moment_from_text(text); }
std::string shown(const Clock& clock) { return text_from_moment(clock.now()); }
const SetClock kMorning(*moment_from_text("2026-03-01T06:30:00-05:00"));

PaperClock from(const char* clock) { return PaperClock(kMorning, *clock_time_from_text(clock)); }

}  // namespace

BOOST_AUTO_TEST_SUITE(night_on_paper)

BOOST_AUTO_TEST_CASE(it_begins_at_the_latest_such_time_that_has_passed) {
  BOOST_TEST(shown(from("02:10")) == "2026-03-01T02:10:00-05:00");
  BOOST_TEST(shown(from("23:50")) == "2026-02-28T23:50:00-05:00");
}

BOOST_AUTO_TEST_CASE(time_in_front_of_an_answer_moves_the_clock_and_leaves_the_answer) {
  PaperClock paper = from("23:50");
  BOOST_TEST(paper.take("52", Language::en).rest == "52");
  BOOST_TEST(shown(paper) == "2026-02-28T23:50:00-05:00");
  BOOST_TEST(paper.take("00:05 84 mg", Language::en).rest == "84 mg");
  BOOST_TEST(shown(paper) == "2026-03-01T00:05:00-05:00");
}

BOOST_AUTO_TEST_CASE(time_that_has_not_come_yet_is_refused_and_moves_nothing) {
  PaperClock paper = from("02:10");
  const PaperClock::Taken taken = paper.take("07:00 84", Language::en);
  BOOST_TEST(taken.refusal == "07:00 has not come yet. Type the time on the paper, or: now");
  BOOST_TEST(taken.rest == "");
  BOOST_TEST(shown(paper) == "2026-03-01T02:10:00-05:00");
}

BOOST_AUTO_TEST_CASE(earlier_time_than_the_last_is_the_next_day_and_so_refused) {
  PaperClock paper = from("02:10");
  paper.take("02:30", Language::en);
  BOOST_TEST(paper.take("02:20 84", Language::en).refusal ==
             "02:20 is before 02:30, which is told already. Type a later time, or: now");
  BOOST_TEST(paper.take("01:00 84", Language::es).refusal ==
             "Las 01:00 son antes de las 02:30, que ya se contaron. Escriba otra hora, o: ahora");
}

BOOST_AUTO_TEST_CASE(now_lets_the_real_clock_go_on) {
  for (const char* word : {"now", "Ahora"}) {
    PaperClock paper = from("02:10");
    paper.take(word, Language::en);
    BOOST_TEST(!paper.is_paper());
    BOOST_TEST(shown(paper) == "2026-03-01T06:30:00-05:00");
    BOOST_TEST(paper.take("05:00", Language::en).rest == "05:00");
  }
}

BOOST_AUTO_TEST_CASE(what_was_entered_before_stays_before) {
  PaperClock paper = from("02:10");
  paper.not_before(at("2026-03-01T03:00:00-05:00"));
  BOOST_TEST(shown(paper) == "2026-03-01T03:00:00-05:00");
}

BOOST_AUTO_TEST_SUITE_END()
