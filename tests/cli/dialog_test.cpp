#include "cli/dialog.hpp"

#include <boost/test/unit_test.hpp>

#include "cli/at_the_screen.hpp"

namespace rushlight {
namespace {

using test::AtTheScreen;

template <class Kind>
bool is(const Dialog& dialog) {
  return std::holds_alternative<Kind>(dialog);
}

AtTheScreen treating() {
  AtTheScreen person;
  person.types("1").types("1").types("52");  // wakes and talks, nothing given, 52
  return person;
}

BOOST_AUTO_TEST_SUITE(dialog)

BOOST_AUTO_TEST_CASE(a_low_is_walked_with_digits_and_enter) {
  AtTheScreen person = treating();
  BOOST_TEST(person.view().step == "treat");
  person.types("");
  BOOST_TEST((phase_of(person.situation()) == Phase::wait));
  person.at("02:25").types("61");
  BOOST_TEST(person.view().step == "treat");
  person.types("").at("02:40").types("84");
  BOOST_TEST(person.view().step == "after");
  person.types("n");
  BOOST_TEST(person.view().ended);
}

BOOST_AUTO_TEST_CASE(enter_alone_never_answers_a_question) {
  AtTheScreen person;
  person.types("");
  BOOST_TEST(!person.turn().what.has_value());
  BOOST_TEST(person.shows("This needs an answer."));
  BOOST_TEST(person.shows("Wakes and talks"));
}

BOOST_AUTO_TEST_CASE(a_wrong_key_loses_nothing_and_asks_again) {
  AtTheScreen person = treating();
  for (const char* typed : {"zz", "LOW", "\xC3\xA9"}) {
    person.types(typed);
    BOOST_TEST(!person.turn().what.has_value(), typed);
    BOOST_TEST(is<OnStep>(person.dialog()), typed);
    BOOST_TEST(person.shows("Nothing is lost."), typed);
    BOOST_TEST(person.view().step == "treat", typed);
  }
}

BOOST_AUTO_TEST_CASE(worse_means_the_same_in_every_dialog) {
  AtTheScreen person = treating();
  for (const char* menu : {"x", "b", "r", "m"}) {
    person.types(menu).types("w");
    BOOST_TEST(is<NamingWorse>(person.dialog()), menu);
    person.types("");
    BOOST_TEST(is<OnStep>(person.dialog()), menu);
  }
}

BOOST_AUTO_TEST_CASE(worse_during_a_wait_leads_to_the_emergency) {
  AtTheScreen person = treating();
  person.types("").at("02:15").types("w");
  BOOST_TEST(person.shows("1. Will not wake up"));
  BOOST_TEST(person.shows("4. Something else"));
  person.types("1");
  BOOST_TEST(person.view().step == "emergency");
  BOOST_TEST((person.view().urgency == Urgency::emergency));
  BOOST_TEST(is<OnStep>(person.dialog()));
}

BOOST_AUTO_TEST_CASE(worse_that_is_not_on_the_list_says_whom_to_call) {
  AtTheScreen person = treating();
  person.types("w").types("3");
  BOOST_TEST((person.turn().what && std::holds_alternative<GotWorse>(*person.turn().what)));
  BOOST_TEST(person.shows("Call your local emergency number now."));
}

BOOST_AUTO_TEST_CASE(cant_tell_is_an_answer_to_every_question) {
  AtTheScreen person;
  person.types("t");
  BOOST_TEST(person.view().step == "emergency");  // nobody can say whether the child wakes
  AtTheScreen other;
  other.types("1").types("?").types("?");
  BOOST_TEST(other.view().step == "treat");
}

BOOST_AUTO_TEST_CASE(cant_tell_without_a_question_changes_nothing) {
  AtTheScreen person = treating();
  person.types("t");
  BOOST_TEST(!person.turn().what.has_value());
}

BOOST_AUTO_TEST_CASE(one_action_that_was_refused_is_named_by_its_number) {
  AtTheScreen person = treating();
  person.types("1");
  BOOST_TEST(is<NamingOutcome>(person.dialog()));
  BOOST_TEST(person.shows("2. Refuses it, or spits it out"));
  person.types("2");
  BOOST_TEST(person.view().step == "call-clinic");
  BOOST_TEST((person.episode().given.back().outcome == Outcome::refused));
}

BOOST_AUTO_TEST_CASE(vomiting_during_the_wait_is_said_with_the_trouble_key) {
  AtTheScreen person = treating();
  person.types("").at("02:15").types("x");
  BOOST_TEST(is<NamingOutcome>(person.dialog()));
  person.types("3");
  BOOST_TEST(person.view().step == "call-clinic");
}

BOOST_AUTO_TEST_CASE(a_mistyped_reading_is_corrected_and_what_was_given_stays) {
  AtTheScreen person = treating();
  person.types("").at("02:12").types("b");
  BOOST_TEST(person.shows("1. What is the glucose? 52 mg/dL"));
  person.types("1");
  BOOST_TEST(is<Correcting>(person.dialog()));
  person.types("4.2");
  BOOST_TEST(is<Correcting>(person.dialog()));
  BOOST_TEST(person.shows("4.2 mg/dL cannot be right."));
  person.types("152");
  BOOST_TEST((person.turn().what && std::holds_alternative<Corrected>(*person.turn().what)));
  BOOST_TEST(person.episode().given.size() == 1);
  BOOST_TEST(person.shows("Changed. Now it says: 152 mg/dL"));
}

BOOST_AUTO_TEST_CASE(a_very_high_reading_counts_only_when_it_is_typed_twice) {
  AtTheScreen person;
  person.types("1").types("1").types("520");
  BOOST_TEST(!person.turn().what.has_value());
  BOOST_TEST(person.shows("520 mg/dL is very high."));
  BOOST_TEST(person.shows("Type 520 again if the meter shows it, or type what it shows."));
  person.types("520");
  BOOST_TEST((person.turn().what && std::holds_alternative<Answered>(*person.turn().what)));
  BOOST_TEST(person.view().ended);  // not low
}

BOOST_AUTO_TEST_CASE(what_the_meter_really_shows_replaces_a_slip_of_the_finger) {
  AtTheScreen person;
  person.types("1").types("1").types("520").types("52");
  BOOST_TEST(person.view().step == "treat");
  BOOST_TEST(person.shows("You said: 52 mg/dL"));
}

BOOST_AUTO_TEST_CASE(another_very_high_reading_is_asked_about_again) {
  AtTheScreen person;
  person.types("1").types("1").types("520").types("530");
  BOOST_TEST(is<TypingAgain>(person.dialog()));
  BOOST_TEST(person.shows("530 mg/dL is very high."));
  person.types("7O");
  BOOST_TEST(is<TypingAgain>(person.dialog()));
  person.types("");
  BOOST_TEST(is<OnStep>(person.dialog()));
  BOOST_TEST(person.shows("530 mg/dL is not kept."));
  BOOST_TEST(person.view().step == "measure");
}

BOOST_AUTO_TEST_CASE(from_400_up_a_reading_is_typed_twice_and_hi_is_not_a_slip) {
  const auto asked_again = [](const char* typed, GlucoseUnit unit) {
    Child child = test::mara();
    child.unit = unit;
    AtTheScreen person(child);
    person.types("1").types("1").types(typed);
    return is<TypingAgain>(person.dialog());
  };
  BOOST_TEST(!asked_again("399", GlucoseUnit::mg_per_dl));
  BOOST_TEST(asked_again("400", GlucoseUnit::mg_per_dl));
  BOOST_TEST(asked_again("22.2 mmol", GlucoseUnit::mg_per_dl));
  BOOST_TEST(!asked_again("22.1", GlucoseUnit::mmol_per_l));
  BOOST_TEST(asked_again("22.2", GlucoseUnit::mmol_per_l));
  BOOST_TEST(!asked_again("HI", GlucoseUnit::mg_per_dl));
}

BOOST_AUTO_TEST_CASE(a_very_high_reading_is_typed_twice_during_the_wait_and_as_a_correction_too) {
  AtTheScreen person = treating();
  person.types("").at("02:15").types("520");
  BOOST_TEST(is<TypingAgain>(person.dialog()));
  person.types("52");
  BOOST_TEST(person.shows("52 mg/dL is kept. It is early"));
  person.types("b").types("1").types("520");
  BOOST_TEST(is<TypingAgain>(person.dialog()));
  person.types("520");
  BOOST_TEST((person.turn().what && std::holds_alternative<Corrected>(*person.turn().what)));
}

BOOST_AUTO_TEST_CASE(a_reading_that_ended_the_episode_by_mistake_is_taken_back_on_the_last_screen) {
  AtTheScreen person;
  person.types("1").types("1").types("152");
  BOOST_TEST(person.view().ended);
  BOOST_TEST(person.shows("b: mistyped."));
  person.types("b").types("1").types("52");
  BOOST_TEST(!person.view().ended);
  BOOST_TEST(person.view().step == "treat");
  BOOST_TEST(person.shows("Give sugar now."));
}

BOOST_AUTO_TEST_CASE(enter_says_before_what_it_will_put_on_record) {
  AtTheScreen person = treating();
  BOOST_TEST(person.shows("Enter: all done, all 7 g went in. Only part, or none? Type 1."));
  person.types("");
  BOOST_TEST((person.turn().what && std::holds_alternative<AllDone>(*person.turn().what)));
}

BOOST_AUTO_TEST_CASE(after_sugar_that_did_not_go_in_enter_asks_how_much_did) {
  AtTheScreen person = treating();
  person.types("1").types("1").at("02:25").types("61");  // only part of the first went in, still low
  BOOST_TEST(person.view().step == "treat");
  BOOST_TEST(person.shows("Enter: done. Then say how much went in: all, some or none."));
  person.types("");
  BOOST_TEST(!person.turn().what.has_value());
  BOOST_TEST(is<SayingHowMuch>(person.dialog()));
  BOOST_TEST(person.shows("1. All of it: 7 g"));
  BOOST_TEST(person.shows("2. Only part of it went in"));
  BOOST_TEST(person.shows("3. Refuses it, or spits it out"));
  person.types("");
  BOOST_TEST(is<OnStep>(person.dialog()));
  person.types("").types("1");
  BOOST_TEST((person.episode().given.back().outcome == Outcome::given));
  person.at("02:40").types("84");
  BOOST_TEST(person.view().step == "after");
}

BOOST_AUTO_TEST_CASE(what_is_no_dose_is_marked_done_while_the_dose_is_asked_about) {
  Child child = test::mara();
  child.delivery = Delivery::pump;
  AtTheScreen person(child);
  person.types("1").types("1").types("52").types("1").types("1").at("02:25").types("61").types("");
  BOOST_TEST(is<SayingHowMuch>(person.dialog()));
  BOOST_TEST(person.view().actions[1].outcome.has_value());   // the pump
  BOOST_TEST(!person.view().actions[0].outcome.has_value());  // the sugar
}

BOOST_AUTO_TEST_CASE(a_menu_about_a_step_that_time_has_left_gives_way_to_the_step) {
  AtTheScreen person = treating();
  person.types("").types("x");
  BOOST_TEST(is<NamingOutcome>(person.dialog()));
  person.at("02:36");  // the check is late: another step
  BOOST_TEST(is<OnStep>(person.dialog()));
}

BOOST_AUTO_TEST_CASE(a_menu_about_a_call_that_has_moved_on_gives_way_to_the_next_number) {
  AtTheScreen person = treating();
  person.types("1").types("2").types("");  // refused: the on-call line is called
  BOOST_TEST(is<ReportingCall>(person.dialog()));
  person.at("02:21");  // nobody said anything for ten minutes
  BOOST_TEST(is<OnStep>(person.dialog()));
  BOOST_TEST((person.view().urgency == Urgency::emergency));
}

BOOST_AUTO_TEST_CASE(the_trouble_key_on_a_question_says_what_helps_there) {
  AtTheScreen person;
  person.types("x");
  BOOST_TEST(person.shows("This is a question. Not sure? Type t."));
  person.types("1").types("1").types("x");
  BOOST_TEST(person.shows("No meter or strips here? Type t."));
}

BOOST_AUTO_TEST_CASE(the_letters_of_both_languages_count_on_every_screen) {
  AtTheScreen person = treating();
  person.types("p");
  BOOST_TEST(is<NamingWorse>(person.dialog()));
  person.types("").types("v");
  BOOST_TEST(is<ChoosingCorrection>(person.dialog()));
  AtTheScreen other;
  other.types("d");
  BOOST_TEST(other.view().step == "emergency");
}

BOOST_AUTO_TEST_CASE(nothing_to_correct_is_said) {
  AtTheScreen person;
  person.types("b");
  BOOST_TEST(person.shows("There is no answer to change yet."));
  person.types("1");
  BOOST_TEST(!person.turn().what.has_value());
}

BOOST_AUTO_TEST_CASE(a_call_is_reported_as_answered_unanswered_or_with_what_was_said) {
  AtTheScreen person = treating();
  person.types("1").types("2");  // refused: call the clinic
  BOOST_TEST(person.shows("your clinic's on-call number"));
  person.types("");
  BOOST_TEST(is<ReportingCall>(person.dialog()));
  person.types("2");
  BOOST_TEST((person.view().urgency == Urgency::emergency));  // nobody answers: the next number
  person.types("c").types("3").types("Give 10 g more");
  BOOST_TEST(person.episode().told == "Give 10 g more");
}

BOOST_AUTO_TEST_CASE(the_call_that_is_asked_about_is_the_one_it_has_moved_on_to) {
  AtTheScreen person;
  person.happens(Called{Contact::clinic, Outcome::no_answer, ""});  // nobody opened it: nothing changes
  person.types("1").types("1").types("52").types("1").types("2");
  BOOST_TEST((pending_call(person.view())->contact == Contact::on_call));
  person.types("").types("2").types("c");
  BOOST_TEST((std::get<ReportingCall>(person.dialog()).contact == Contact::emergency));
  person.types("").types("");
  BOOST_TEST((std::get<ReportingCall>(person.dialog()).contact == Contact::emergency));  // the step's own call, too
}

BOOST_AUTO_TEST_CASE(a_part_that_went_in_is_told_as_a_part) {
  AtTheScreen person = treating();
  person.types("1").types("1");
  BOOST_TEST(person.shows("At 02:10 only part went in: Fast sugar"));
  BOOST_TEST(!person.shows("7 g of sugar now"));
}

BOOST_AUTO_TEST_CASE(done_on_a_call_step_asks_how_the_call_went) {
  AtTheScreen person;
  person.types("3");  // will not wake
  BOOST_TEST(person.view().step == "emergency");
  person.types("");
  BOOST_TEST((person.turn().what && std::holds_alternative<AllDone>(*person.turn().what)));
  BOOST_TEST(is<ReportingCall>(person.dialog()));
  person.types("");
  BOOST_TEST(is<OnStep>(person.dialog()));
}

BOOST_AUTO_TEST_CASE(an_early_reading_is_kept_and_the_wait_goes_on) {
  AtTheScreen person = treating();
  person.types("").at("02:15").types("58");
  BOOST_TEST((person.turn().what && std::holds_alternative<Answered>(*person.turn().what)));
  BOOST_TEST((phase_of(person.situation()) == Phase::wait));
  BOOST_TEST(person.shows("58 mg/dL is kept. It is early: check again at 02:25."));
}

BOOST_AUTO_TEST_CASE(a_reading_typed_before_the_sugar_is_said_to_be_in_is_kept_and_the_sugar_still_asked_for) {
  AtTheScreen person = treating();
  person.at("02:16").types("58");
  BOOST_TEST((person.turn().what && std::holds_alternative<Answered>(*person.turn().what)));
  BOOST_TEST(person.shows("58 mg/dL is kept. First do what stands here. Then Enter."));
  BOOST_TEST(person.view().step == "treat");
  BOOST_TEST((phase_of(person.situation()) == Phase::act));
}

BOOST_AUTO_TEST_CASE(an_implausible_reading_during_the_wait_is_asked_about) {
  AtTheScreen person = treating();
  person.types("").at("02:15").types("4.2");
  BOOST_TEST(!person.turn().what.has_value());
  BOOST_TEST(person.shows("4.2 mg/dL cannot be right."));
}

BOOST_AUTO_TEST_CASE(the_language_changes_and_the_step_stays) {
  AtTheScreen person = treating();
  person.types("m").types("5");
  BOOST_TEST(person.view().step == "treat");
  BOOST_TEST((person.view().language == Language::es));
  BOOST_TEST(person.shows("Dé azúcar ahora."));
  person.types("p");
  BOOST_TEST(is<NamingWorse>(person.dialog()));
}

BOOST_AUTO_TEST_CASE(somebody_else_who_carries_on_is_asked_the_opening_questions) {
  AtTheScreen person = treating();
  person.types("m").types("4").types("Ana");
  BOOST_TEST(person.episode().carer == "Ana");
  BOOST_TEST(person.shows("Try to wake Mara."));
}

BOOST_AUTO_TEST_CASE(ending_for_good_is_asked_twice) {
  AtTheScreen person = treating();
  person.types("m").types("7").types("");
  BOOST_TEST(!person.view().ended);
  person.types("m").types("7").types("1");
  BOOST_TEST(person.view().ended);
}

BOOST_AUTO_TEST_CASE(stop_is_a_command_and_no_event) {
  AtTheScreen person = treating();
  person.types("q");
  BOOST_TEST((person.turn().command == Command::stop));
  BOOST_TEST(!person.turn().what.has_value());
}

BOOST_AUTO_TEST_CASE(after_the_end_worse_opens_the_episode_again) {
  AtTheScreen person;
  person.types("1").types("1").types("120");
  BOOST_TEST(person.view().ended);
  person.types("w").types("1");
  BOOST_TEST(!person.view().ended);
  BOOST_TEST(person.view().step == "emergency");
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace
}  // namespace rushlight
