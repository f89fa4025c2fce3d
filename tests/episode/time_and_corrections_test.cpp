#include <boost/test/unit_test.hpp>

#include "night.hpp"

using namespace rushlight;
using namespace rushlight::test;

namespace {
}  // namespace

BOOST_AUTO_TEST_SUITE(time_by_rule)

BOOST_AUTO_TEST_CASE(a_deadline_is_an_instant_when_summer_time_begins) {
  // On 8 March 2026 the clocks of the invented town go from 02:00 at -05:00 to 03:00 at -04:00.
  Night night(mara(), small_low(), "2026-03-08T01:50:00-05:00");
  night.at("2026-03-08T01:50:00-05:00").answer("awake", "yes").answer("already-given", "no").answer("glucose", "52 mg/dL");
  night.at("2026-03-08T01:52:00-05:00").done();
  night.at("2026-03-08T03:06:59-04:00").tick();
  BOOST_TEST(night.view().waiting);
  BOOST_TEST(clock(night.view().wait->until) == "03:07");
  night.at("2026-03-08T03:07:00-04:00").tick();
  BOOST_TEST(!night.view().waiting);
}

BOOST_AUTO_TEST_CASE(a_deadline_is_an_instant_when_winter_time_begins) {
  Night night(mara(), small_low(), "2026-11-01T01:50:00-04:00");
  night.answer("awake", "yes").answer("already-given", "no").answer("glucose", "52 mg/dL").done();
  night.at("2026-11-01T01:04:59-05:00").tick();
  BOOST_TEST(night.view().waiting);
  night.at("2026-11-01T01:05:00-05:00").tick();
  BOOST_TEST(!night.view().waiting);
}

BOOST_AUTO_TEST_CASE(a_clock_that_goes_back_neither_shortens_nor_stretches_a_wait) {
  Night night;
  night.at("02:10").answer("awake", "yes").answer("already-given", "no").answer("glucose", "52 mg/dL").done();
  night.at("02:15").tick();                 // ten minutes are left
  night.at("01:15").tick();                 // the clock went back an hour
  BOOST_TEST(clock(night.view().wait->until) == "01:25");
  BOOST_TEST(night.view().caution.front() == "The clock of this device went back. Waiting times still count in full.");
  night.at("01:24:59").tick();
  BOOST_TEST(night.view().waiting);
  night.at("01:25").tick();
  BOOST_TEST(!night.view().waiting);
}

BOOST_AUTO_TEST_CASE(worse_is_never_rejected_by_a_clock_that_went_back) {
  Night night;
  night.at("02:10").answer("awake", "yes").at("00:30").worse("awake", "no");
  BOOST_TEST(night.view().step == "emergency");
}

BOOST_AUTO_TEST_CASE(a_machine_that_slept_through_the_deadline_shows_what_came_after) {
  Night night;
  night.at("02:10").answer("awake", "yes").answer("already-given", "no").answer("glucose", "52 mg/dL").done();
  BOOST_TEST(night.view_at("09:00").step == "keep-watch");
  BOOST_TEST((night.view_at("09:00").urgency == Urgency::emergency));
}

BOOST_AUTO_TEST_CASE(ticks_change_nothing_that_the_clock_does_not) {
  Night with, without;
  for (Night* night : {&with, &without}) {
    night->at("02:10").answer("awake", "yes").answer("already-given", "no").answer("glucose", "52 mg/dL").done();
  }
  for (const char* moment : {"02:11", "02:20", "02:25", "02:36", "02:40", "02:47"}) with.at(moment).tick();
  for (const char* moment : {"02:47", "02:55", "03:10", "04:00"}) {
    BOOST_TEST(with.view_at(moment).step == without.view_at(moment).step);
    BOOST_TEST((with.view_at(moment).urgency == without.view_at(moment).urgency));
  }
}

BOOST_AUTO_TEST_SUITE_END()

BOOST_AUTO_TEST_SUITE(corrections)

BOOST_AUTO_TEST_CASE(a_mistyped_reading_leads_where_the_right_one_would_have_led) {
  Night wrong, right;
  wrong.at("02:10").answer("awake", "yes").answer("already-given", "no").answer("glucose", "152 mg/dL");
  BOOST_TEST(wrong.view().ended);
  wrong.at("02:11").correct("glucose", "52 mg/dL");
  right.at("02:10").answer("awake", "yes").answer("already-given", "no").answer("glucose", "52 mg/dL").at("02:11").tick();
  BOOST_TEST(wrong.view().step == right.view().step);
  BOOST_TEST(wrong.view().headline == right.view().headline);
  BOOST_TEST(wrong.episode().counted == right.episode().counted);
}

BOOST_AUTO_TEST_CASE(a_mistyped_danger_sign_can_be_taken_back) {
  Night night;
  night.at("02:10").answer("awake", "no");
  BOOST_TEST(night.view().step == "emergency");
  night.at("02:11").correct("awake", "yes");
  BOOST_TEST(night.view().step == "measure");
  BOOST_TEST((night.view().urgency == Urgency::home));
}

BOOST_AUTO_TEST_CASE(a_correction_never_takes_back_what_was_given) {
  Night night;
  night.at("02:10").answer("awake", "yes").answer("already-given", "no").answer("glucose", "52 mg/dL").at("02:11").done();
  night.at("02:13").correct("glucose", "152 mg/dL");
  BOOST_TEST(night.view().ended);
  BOOST_REQUIRE(night.episode().given.size() == 1);
  BOOST_TEST((night.episode().given.front().amount == Quantity{Decimal::whole(7), Unit::gram}));
  BOOST_TEST(night.view().given.front().text == "Fast sugar: 7 g");
}

BOOST_AUTO_TEST_CASE(the_old_answer_stays_in_the_history) {
  Night night;
  night.at("02:10").answer("awake", "yes").answer("already-given", "no").answer("glucose", "152 mg/dL").at("02:11");
  night.correct("glucose", "52 mg/dL");
  BOOST_REQUIRE(night.episode().history.size() == 4);
  const auto& first_said = std::get<Answered>(night.episode().history[2].what);
  BOOST_TEST((first_said.answers.front().second == Value{Glucose::reading(Decimal::whole(152), GlucoseUnit::mg_per_dl)}));
}

BOOST_AUTO_TEST_CASE(a_second_correction_counts_over_the_first) {
  Night night;
  night.at("02:10").answer("awake", "yes").answer("already-given", "no").answer("glucose", "152 mg/dL");
  night.at("02:11").correct("glucose", "52 mg/dL").at("02:12").correct("glucose", "82 mg/dL");
  BOOST_TEST(night.view().headline == "The glucose is not low: 82 mg/dL.");
}

BOOST_AUTO_TEST_SUITE_END()
