#include <boost/test/unit_test.hpp>

#include "sick_night.hpp"

using namespace rushlight;
using namespace rushlight::test;

namespace {
Night treating() {
  Night night;
  night.at("02:10").answer("awake", "yes").answer("already-given", "no").answer("glucose", "52 mg/dL").at("02:11").done();
  return night;
}
Night calling() {
  Night night = treating();
  night.at("02:26").answer("glucose", "61 mg/dL").at("02:27").done().at("02:42").answer("glucose", "61 mg/dL");
  return night;
}
}  // namespace

BOOST_AUTO_TEST_SUITE(danger_and_calls)

BOOST_AUTO_TEST_CASE(a_child_who_will_not_wake_is_an_emergency_at_the_first_question) {
  for (const char* answer : {"no", "unknown"}) {
    const View view = Night().answer("awake", answer).view();
    BOOST_TEST(view.step == "emergency");
    BOOST_TEST((view.urgency == Urgency::emergency));
    BOOST_TEST(view.headline == "Call your local emergency number now.");
  }
}

BOOST_AUTO_TEST_CASE(no_emergency_step_gives_anything_by_mouth) {
  for (const ShownAction& action : Night().answer("awake", "no").view().actions) {
    BOOST_TEST((action.kind != ActionKind::by_mouth));
  }
}

BOOST_AUTO_TEST_CASE(worse_during_a_wait_pre_empts_the_wait) {
  Night night = treating();
  night.at("02:15").worse("seizure", "yes");
  BOOST_TEST(night.view().step == "emergency");
}

BOOST_AUTO_TEST_CASE(a_danger_that_stays_does_not_fire_again_inside_the_emergency) {
  Night night;
  night.answer("awake", "no").at("02:25").answer("awake", "no").answer("seizure", "no");
  BOOST_TEST(night.view().step == "keep-watch");
}

BOOST_AUTO_TEST_CASE(waking_up_leaves_the_emergency_but_not_the_call_that_is_open) {
  Night night;
  night.answer("awake", "no").at("02:25").answer("awake", "yes").answer("seizure", "no");
  BOOST_TEST(night.view().step == "after");
  BOOST_TEST((night.view().urgency == Urgency::emergency));
  night.at("02:26").call(Contact::emergency, Outcome::reached);
  BOOST_TEST((night.view().urgency == Urgency::home));
}

BOOST_AUTO_TEST_CASE(clinic_reached_after_all_closes_the_emergency_call_that_stood_in_for_it) {
  Night night = calling();
  night.at("02:55").tick().at("03:06").tick();
  BOOST_TEST((night.view().call->contact == Contact::emergency));
  night.call(Contact::clinic, Outcome::reached);
  BOOST_TEST(!night.view().call.has_value());
}

BOOST_AUTO_TEST_CASE(clinic_reached_never_closes_an_emergency_call_of_the_step) {
  Night night;
  night.answer("awake", "no").at("02:12").call(Contact::clinic, Outcome::reached);
  BOOST_TEST((night.view().call->contact == Contact::emergency));
}

BOOST_AUTO_TEST_CASE(a_child_who_wakes_during_the_wait_is_not_kept_waiting) {
  Night night;
  night.answer("awake", "no");
  BOOST_REQUIRE_EQUAL(night.view().early.size(), 3);
  BOOST_TEST(night.view().early[0].choice == "yes");
  night.at("02:14").answer("awake", "yes").answer("seizure", "no");
  BOOST_TEST(night.view().step == "after");
}

BOOST_AUTO_TEST_CASE(an_answer_from_before_the_step_never_cuts_its_wait_short) {
  Night night;
  night.answer("awake", "yes").answer("already-given", "no").worse("seizure", "yes");
  BOOST_TEST(night.view().step == "emergency");
  BOOST_TEST(night.view().waiting);
}

BOOST_AUTO_TEST_CASE(an_early_answer_that_leads_nowhere_is_asked_again_after_the_wait) {
  Night night;
  night.answer("awake", "no").at("02:14").answer("awake", "no");
  BOOST_TEST(night.view().waiting);
  night.at("02:25");
  BOOST_TEST(night.view().ask.at(0).name == "awake");
}

BOOST_AUTO_TEST_CASE(a_call_nobody_answers_goes_to_the_next_contact_and_in_the_end_to_emergency) {
  Night night = calling();
  BOOST_TEST((night.view().open_calls.front().contact == Contact::on_call));
  night.at("02:45").call(Contact::on_call, Outcome::no_answer);
  BOOST_TEST((night.view().open_calls.front().contact == Contact::emergency));
  BOOST_TEST((night.view().urgency == Urgency::emergency));
}

BOOST_AUTO_TEST_CASE(a_call_without_any_word_escalates_at_its_deadline_without_a_tick) {
  Night night = calling();
  BOOST_TEST((night.view_at("02:51").urgency == Urgency::clinic_now));
  BOOST_TEST((night.view_at("02:52").urgency == Urgency::emergency));
}

BOOST_AUTO_TEST_CASE(all_done_never_closes_a_call) {
  Night night = calling();
  night.at("02:43").done();
  BOOST_TEST(night.view().open_calls.size() == 1U);
}

BOOST_AUTO_TEST_CASE(a_clinic_with_one_number_is_reached_by_it_on_either_line) {
  Child child = mara();
  child.contacts.clinic = "555 0100";
  Night night(child);
  night.at("02:10").answer("awake", "yes").answer("already-given", "no").answer("glucose", "52 mg/dL");
  night.at("02:11").done("sugar", Outcome::refused);
  BOOST_REQUIRE(night.view().call.has_value());
  BOOST_TEST(night.view().call->number == "555 0100");
}

BOOST_AUTO_TEST_CASE(what_the_clinician_said_is_shown_and_followed) {
  Night night = calling();
  night.at("02:44").call(Contact::clinic, Outcome::told, "Give 10 g more and measure at three.");
  BOOST_TEST(night.view().headline == "The clinic said: Give 10 g more and measure at three.");
  BOOST_TEST(night.view().open_calls.empty());
}

BOOST_AUTO_TEST_CASE(worse_after_the_end_opens_the_episode_again) {
  Night night;
  night.answer("awake", "yes").answer("already-given", "no").answer("glucose", "120 mg/dL");
  BOOST_TEST(night.view().ended);
  night.at("02:40").answer("glucose", "50 mg/dL");
  BOOST_TEST(night.view().ended);
  night.at("02:41").worse("awake", "no");
  BOOST_TEST(night.view().step == "emergency");
}

BOOST_AUTO_TEST_CASE(somebody_who_takes_over_is_asked_again_what_was_given) {
  Night night = treating();
  night.at("02:20").happens(TakenOver{"Grandmother"});
  BOOST_REQUIRE(night.view().ask.size() == 2);
  BOOST_TEST(night.view().ask[0].name == "awake");
  BOOST_TEST(night.view().ask[1].name == "already-given");
  night.at("02:21").answer("awake", "yes").answer("already-given", "no");
  BOOST_TEST(night.view().step == "treat");
  BOOST_TEST(clock(night.view().wait->until) == "02:26");
}

BOOST_AUTO_TEST_CASE(something_worse_that_nobody_can_name_asks_for_the_danger_signs_again) {
  Night night = treating();
  night.at("02:20").happens(GotWorse{});
  BOOST_REQUIRE(!night.view().ask.empty());
  BOOST_TEST(night.view().ask.front().name == "awake");
}

BOOST_AUTO_TEST_CASE(an_emergency_call_nobody_answered_is_to_be_made_again) {
  Night night;
  night.at("02:10").answer("awake", "no");
  BOOST_TEST(clock(*night.view_at("02:12").call->answer_by) == "02:20");
  BOOST_TEST(clock(*night.view_at("02:21").call->answer_by) == "02:30");
  BOOST_TEST((night.view_at("02:21").call->contact == Contact::emergency));
}

BOOST_AUTO_TEST_CASE(what_was_given_lists_what_went_into_the_child_and_the_pump_only) {
  Night night;
  night.at("02:10").answer("awake", "no").at("02:11").done();
  BOOST_TEST(night.view().given.empty());
  BOOST_TEST(!night.episode().given.empty());
}

BOOST_AUTO_TEST_CASE(changing_the_language_keeps_the_step) {
  Night night = treating();
  night.at("02:20").happens(LanguageChanged{Language::es});
  BOOST_TEST(night.view().step == "treat");
  BOOST_TEST(night.view().headline == "Glucosa baja. Dé azúcar ahora.");
}

BOOST_AUTO_TEST_CASE(call_that_a_step_wants_now_stays_now_whatever_step_comes_next) {
  Child child = sick_mara();
  child.total_daily_dose.reset();  // the clinic says the dose
  Night night = looked("300 mg/dL", "1.7 mmol/L", child);
  BOOST_TEST((night.view().urgency == Urgency::clinic_now));
  night.at("02:12").done();
  BOOST_TEST(night.view().step == "round");
  BOOST_TEST((night.view().urgency == Urgency::clinic_now));
  night.at("02:13").call(Contact::clinic, Outcome::reached);
  BOOST_TEST((night.view().urgency == Urgency::home));
}

BOOST_AUTO_TEST_CASE(visit_from_a_step_that_is_graver_needs_no_call_to_be_shown) {
  Night night(sick_mara(),
              small_set("sick", true, R"(<step id="look" urgency="home")", R"(<step id="look" urgency="clinic-now")"));
  night.answer("awake", "yes")
      .answer("already-given", "no")
      .answer("glucose", "58 mg/dL")
      .answer("ketones", "0.4 mmol/L");
  night.answer("last-rapid-insulin", "none");
  BOOST_TEST(night.view().protocol == "low");
  BOOST_TEST((night.view().urgency == Urgency::clinic_now));
  BOOST_TEST(night.view().headline == "Low. Give sugar now.");
  BOOST_TEST(night.view().meanwhile == "");
}

BOOST_AUTO_TEST_CASE(dose_that_is_withheld_never_takes_the_place_of_what_an_emergency_says) {
  Night night(sick_mara(), small_set("sick", false, R"(<headline><en>Call {emergency-number}.</en></headline>)",
                                     R"(<headline><en>Give {extra-insulin} now.</en></headline>)"));
  night.answer("awake", "yes").at("02:12").worse("drowsy", "yes");
  BOOST_TEST((night.view().urgency == Urgency::emergency));
  BOOST_TEST(night.view().headline == "Call your local emergency number now.");
  BOOST_TEST(night.view().meanwhile.find("No insulin dose here") == 0U);
}

BOOST_AUTO_TEST_SUITE_END()
