#include <boost/test/unit_test.hpp>

#include "cli/at_the_screen.hpp"
#include "cli/plain_text.hpp"
#include "cli/protocol_set.hpp"

// What stands above what on a screen while somebody has to be called, in the set that travels inside the program.

namespace rushlight {
namespace {

using test::AtTheScreen;
using test::mara;

constexpr Terminal::Size kUsual{24, 80}, kSmall{12, 40};

AtTheScreen at_home(Language language = Language::en) {
  static const ProtocolSet set = embedded_set("reference");
  const LoadedProtocol* low = set.find("low");
  BOOST_REQUIRE(low != nullptr);
  Child child = mara();
  child.language = language;
  child.contacts.clinic = "555 0101";
  child.contacts.on_call = "555 0102";
  child.contacts.emergency = "555 0999";
  return {std::move(child), low->checked};
}

/// The sugar was refused twice: no sugar goes in, and the on-call line is to be called.
AtTheScreen no_sugar_goes_in(Language language = Language::en) {
  AtTheScreen person = at_home(language);
  person.types("1").types("1").types("62").types("1");
  person.types("1").types("2").types("").types("1");
  person.types("1").types("2");
  BOOST_REQUIRE(person.view().step == "sugar-trouble");
  return person;
}

std::vector<std::string> rows(const AtTheScreen& person) {
  std::vector<std::string> all;
  const auto pages = pages_of(person.screen(), kUsual, person.view().language);
  for (const Line& line : pages.front()) {
    if (!line.text.empty()) all.push_back(line.text);
  }
  return all;
}

BOOST_AUTO_TEST_SUITE(calling_screen)

BOOST_AUTO_TEST_CASE(a_call_graver_than_the_step_is_the_headline_and_the_step_stands_below_it) {
  AtTheScreen person = no_sugar_goes_in();
  person.happens(Called{Contact::on_call, Outcome::no_answer, ""});
  const std::vector<std::string> shown = rows(person);
  BOOST_TEST(shown[0] == "EMERGENCY");
  BOOST_TEST(shown[2] == "Call 555 0999 now. Nobody was reached.");
  BOOST_TEST(shown[3] == "No sugar goes in. Call now.");
  BOOST_TEST(person.shows("1. Call 555 0999 now. Nobody was reached."));
  BOOST_TEST(!person.shows("555 0102"));
}

BOOST_AUTO_TEST_CASE(how_the_call_went_is_asked_of_the_contact_that_the_screen_names) {
  AtTheScreen person = no_sugar_goes_in();
  person.happens(Called{Contact::on_call, Outcome::no_answer, ""}).types("1").types("1");
  BOOST_TEST(person.view().open_calls.empty());
  BOOST_TEST(person.shows("(no answer) Call 555 0102."));
  BOOST_TEST(rows(person)[2] == "No sugar goes in. Call now.");
}

BOOST_AUTO_TEST_CASE(a_graver_call_stays_above_the_wait) {
  AtTheScreen person = no_sugar_goes_in();
  person.happens(Called{Contact::on_call, Outcome::no_answer, ""});
  person.happens(AllDone{});
  const std::vector<std::string> shown = rows(person);
  BOOST_TEST(shown[2] == "Call 555 0999 now. Nobody was reached.");
  BOOST_TEST(!person.shows("555 0102"));
}

BOOST_AUTO_TEST_CASE(a_danger_that_the_step_handles_stands_right_below_the_headline) {
  AtTheScreen person = no_sugar_goes_in();
  person.types("w").types("8");
  BOOST_TEST(person.view().step == "sugar-trouble");
  BOOST_TEST(rows(person)[2] == "No sugar goes in. Call now.");
  BOOST_TEST(rows(person)[3] == "Insulin by mistake: tell them which, how much, when. No more insulin.");
  person.happens(LanguageChanged{Language::es});
  BOOST_TEST(rows(person)[3] == "Insulina por error: diga cuál, cuánta y cuándo. No más insulina.");
}

BOOST_AUTO_TEST_CASE(what_was_given_stands_on_the_screen_while_somebody_is_called) {
  AtTheScreen person = at_home();
  person.types("1").types("1").types("62").types("1").types("");
  person.at("02:30").happens(GotWorse{{{*person.situation().protocol.fact_named("wrong-insulin"), Chosen{0}}}});
  BOOST_TEST(person.view().step == "wrong-dose");
  BOOST_TEST(person.shows("Given at 02:10: Fast sugar: 7 g"));
  BOOST_TEST(person.shows("1. Call 555 0101. Say which insulin, how much, when."));
}

BOOST_AUTO_TEST_CASE(the_screens_of_a_call_that_moved_on_fit_the_usual_terminal) {
  for (const Language language : {Language::en, Language::es}) {
    AtTheScreen person = no_sugar_goes_in(language);
    person.happens(Called{Contact::on_call, Outcome::no_answer, ""}).types("w").types("6");
    BOOST_TEST(pages_of(person.screen(), kUsual, language).size() == 1);
    for (const auto& page : pages_of(person.screen(), kSmall, language)) {
      BOOST_TEST(page.front().strong);
      for (const Line& line : page) BOOST_TEST(columns_of(line.text) < kSmall.columns);
    }
  }
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace
}  // namespace rushlight
