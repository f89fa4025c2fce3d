#include <boost/test/unit_test.hpp>

#include "sick_night.hpp"

using namespace rushlight;
using namespace rushlight::test;

// A correction changes what was believed; nobody was asked in the past to make a call that only the correction asks
// for.

namespace {

/// Treated twice, and 72 typed at 02:43 where 62 would have asked for a call.
Night thought_to_be_up() {
  Night night;
  night.at("02:10").answer("awake", "yes").answer("already-given", "no").answer("glucose", "52 mg/dL").done();
  night.at("02:26").answer("glucose", "61 mg/dL").at("02:27").done().at("02:43").answer("glucose", "72 mg/dL");
  return night;
}

}  // namespace

BOOST_AUTO_TEST_SUITE(corrected_nights)

BOOST_AUTO_TEST_CASE(call_that_only_the_correction_asks_for_begins_with_it) {
  Night night = thought_to_be_up();
  BOOST_TEST(night.view().step == "after");
  night.at("03:30").correct("glucose", "62 mg/dL");
  const View view = night.view();
  BOOST_TEST(view.step == "call-clinic");
  BOOST_TEST((view.urgency == Urgency::clinic_now));
  BOOST_REQUIRE_EQUAL(view.open_calls.size(), 1);
  BOOST_TEST((view.open_calls.front().contact == Contact::on_call));
  BOOST_TEST(clock(*view.open_calls.front().answer_by) == "03:40");
  BOOST_TEST(clock(view.wait->until) == "03:45");
}

BOOST_AUTO_TEST_CASE(call_that_was_open_before_keeps_its_time_and_has_moved_on) {
  Night night = thought_to_be_up();
  night.at("02:43").correct("glucose", "62 mg/dL").at("02:58").answer("glucose", "72 mg/dL");
  BOOST_TEST((night.view().call->contact == Contact::emergency));
  night.at("03:10").correct("glucose", "61 mg/dL");
  BOOST_TEST((night.view().call->contact == Contact::emergency));
  BOOST_TEST((night.view().urgency == Urgency::emergency));
}

BOOST_AUTO_TEST_CASE(check_that_was_shown_before_is_made_no_later) {
  Night night;
  night.at("02:10").answer("awake", "yes").answer("already-given", "no").answer("glucose", "52 mg/dL").done();
  night.at("02:26").answer("glucose", "61 mg/dL").at("02:27").done();
  BOOST_TEST(clock(night.view().wait->until) == "02:42");
  night.at("02:35").correct("glucose", "unknown");
  BOOST_TEST(night.view().step == "call-clinic");
  BOOST_TEST(clock(night.view().wait->until) == "02:42");
}

BOOST_AUTO_TEST_CASE(correction_that_leads_nowhere_else_leaves_the_wait_as_it_was) {
  Night night;
  night.at("02:10").answer("awake", "yes").answer("already-given", "no").answer("glucose", "52 mg/dL").done();
  night.at("02:20").correct("glucose", "50 mg/dL");
  BOOST_TEST(night.view().step == "treat");
  BOOST_TEST(clock(night.view().wait->until) == "02:25");
  BOOST_TEST(night.episode().counted.front() == 1);
}

BOOST_AUTO_TEST_CASE(reading_that_is_told_again_is_as_old_as_it_is) {
  Night night = looked("300 mg/dL", "0.2 mmol/L");
  night.at("02:45").correct("ketones", "1.7 mmol/L");
  BOOST_TEST(night.view().step == "insulin");
  BOOST_TEST(dose_now(night, "ketone-dose").working.find("Measure the glucose again first") == 0U);
}

BOOST_AUTO_TEST_CASE(what_was_said_behind_it_still_leads_on_after_a_correction) {
  Night night;
  night.at("02:10").answer("awake", "yes").answer("already-given", "no").answer("glucose", "152 mg/dL");
  night.at("02:20").worse("seizure", "yes");
  night.at("02:30").correct("glucose", "52 mg/dL");
  BOOST_TEST(night.view().step == "emergency");
}

BOOST_AUTO_TEST_CASE(second_correction_of_the_same_night_counts_its_time_from_itself) {
  Night night = thought_to_be_up();
  night.at("03:00").correct("glucose", "82 mg/dL").at("03:30").correct("glucose", "62 mg/dL");
  BOOST_TEST(night.view().step == "call-clinic");
  BOOST_TEST((night.view().call->contact == Contact::on_call));
  BOOST_TEST(clock(*night.view().call->answer_by) == "03:40");
}

BOOST_AUTO_TEST_SUITE_END()
