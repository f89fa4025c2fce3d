#include <boost/test/unit_test.hpp>

#include "cli/in_the_set.hpp"
#include "cli/typed_units.hpp"

// Insulin whose amount the clinic has to say: no key puts it on record before the clinic has said it.

namespace rushlight {
namespace {

using test::AtTheScreen;
using test::in_the_set;
using test::sick_day;
using test::until;

/// Ketones of 1.6 with 315 mg/dL under a set that nobody approved: "Call the clinic for the dose."
AtTheScreen at_the_dose(Language language = Language::en) {
  Child child = test::ana(language);
  child.delivery = Delivery::pump;
  AtTheScreen person = in_the_set("ketones", std::move(child));
  return until(person, "dose-sugar-free", sick_day({{"glucose", "315"}, {"ketones", "1.6"}}));
}

bool is_on_record(const AtTheScreen& person) {
  const Protocol& protocol = person.situation().protocol;
  const auto& given = person.episode().given;
  return std::any_of(given.begin(), given.end(),
                     [&](const Given& each) { return protocol[each.action].kind == ActionKind::insulin; });
}

BOOST_AUTO_TEST_SUITE(withheld_insulin_screen)

BOOST_AUTO_TEST_CASE(enter_on_a_withheld_dose_asks_what_the_clinic_said_and_records_nothing) {
  AtTheScreen person = at_the_dose();
  BOOST_TEST(person.shows("Enter: done. Then say if the clinic gave a dose."));
  person.types("");
  BOOST_TEST(person.shows("Did the clinic give a dose?"));
  BOOST_TEST(person.shows("1. No, not yet"));
  BOOST_TEST(person.shows("2. Yes"));
  BOOST_TEST(!person.shows("It is done, all of it"));
  for (int again = 0; again < 5; ++again) person.types("");
  BOOST_TEST(!is_on_record(person));
  BOOST_TEST((person.view().open_calls.size() == 1));
}

BOOST_AUTO_TEST_CASE(no_dose_yet_leads_to_the_call_that_is_open) {
  AtTheScreen person = at_the_dose();
  person.types("").types("1");
  BOOST_TEST(std::holds_alternative<ReportingCall>(person.dialog()));
  BOOST_TEST(person.shows("555 0101"));
  BOOST_TEST(person.shows("- Type 1 diabetes: which dose? Extra rapid-acting insulin"));
  BOOST_TEST(!is_on_record(person));
}

BOOST_AUTO_TEST_CASE(clinic_that_answers_is_asked_for_the_dose_and_then_for_the_units) {
  AtTheScreen person = at_the_dose();
  person.types("").types("1").types("1");
  BOOST_TEST(person.view().open_calls.empty());
  BOOST_TEST(person.shows("Did the clinic give a dose?"));
  person.types("2").types("1");
  BOOST_TEST(person.shows("How many units went in?"));
  BOOST_TEST(!is_on_record(person));
  person.types("abc");
  BOOST_TEST(person.shows("Type it like: 2 or 2.5"));
  person.types("2.5");
  BOOST_TEST(is_on_record(person));
  BOOST_TEST(person.shows("Given at 02:10: Extra rapid-acting insulin: 2.5 units"));
}

BOOST_AUTO_TEST_CASE(clinic_that_gave_no_dose_lets_the_wait_begin_with_nothing_on_record) {
  AtTheScreen person = at_the_dose();
  person.types("").types("1").types("1").types("1");
  BOOST_TEST(!is_on_record(person));
  BOOST_TEST((phase_of(person.situation()) == Phase::wait));
  BOOST_TEST(!person.shows("Given at"));
}

BOOST_AUTO_TEST_CASE(dose_that_comes_later_in_the_wait_is_told_with_the_call_key) {
  AtTheScreen person = at_the_dose();
  person.types("").types("");
  person.happens(Called{Contact::on_call, Outcome::reached, ""}).at("02:25");
  BOOST_TEST(person.shows("Did the clinic give a dose? Type c."));
  person.types("c").types("2").types("1").types("");
  BOOST_TEST(is_on_record(person));
}

BOOST_AUTO_TEST_CASE(no_screen_about_a_withheld_dose_says_that_all_of_it_was_given) {
  for (const Language language : {Language::en, Language::es}) {
    const AtTheScreen person = at_the_dose(language);
    BOOST_TEST(!person.shows("was given"));
    BOOST_TEST(!person.shows("se dio todo"));
    BOOST_TEST(!person.shows("Enter starts the wait."));
  }
}

BOOST_AUTO_TEST_CASE(units_are_read_like_a_pen_says_them_and_a_slip_is_refused) {
  const auto read = [](const char* typed, Language language) {
    const std::optional<Quantity> units = units_from_text(typed, language);
    return units ? text_from_quantity(*units) : "";
  };
  BOOST_TEST(read("2", Language::en) == "2 [iU]");
  BOOST_TEST(read("2.5 units", Language::en) == "2.5 [iU]");
  BOOST_TEST(read("2,5 unidades", Language::es) == "2.5 [iU]");
  for (const char* slip : {"", "0", "-1", "51", "250", "2 mL", "2;5", "two"}) {
    BOOST_TEST(read(slip, Language::en) == "", slip);
  }
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace
}  // namespace rushlight
