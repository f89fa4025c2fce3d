#include <boost/test/unit_test.hpp>

#include "cli/at_the_screen.hpp"
#include "cli/protocol_set.hpp"

// Insulin and small doses of glucagon come out of the same syringe: no screen about one may be read as about the other.

namespace rushlight {
namespace {

using test::AtTheScreen;
using test::mara;
using Said = std::vector<std::pair<std::string, std::string>>;

AtTheScreen sick_until(const std::string& step, const Said& said) {
  static const ProtocolSet set = embedded_set("reference");
  const LoadedProtocol* illness = set.find("illness");
  BOOST_REQUIRE(illness != nullptr);
  Child child = mara();
  child.strips = Strips::blood;
  child.contacts.on_call = "555 0101";
  child.contacts.emergency = "555 0999";
  child.contacts.address = "12 Mill Road";
  child.rescue.clear();
  child.rescue.push_back(
      {RescueKind::injection, std::nullopt, "kitchen", Quantity{Decimal::whole(1), Unit::mg_per_ml}});
  AtTheScreen person{std::move(child), illness->checked};
  for (int typed = 0; typed < 20 && person.view().step != step; ++typed) {
    for (const auto& [fact, line] : said) {
      if (person.view().ask.empty() || person.view().ask.front().name != fact) continue;
      person.types(line);
      break;
    }
  }
  BOOST_REQUIRE(person.view().step == step);
  return person;
}

const Said kAtFirst = {
    {"awake", "1"}, {"already-given", "1"}, {"breathing", "1"}, {"drowsy", "1"}, {"what-is-wrong", "1"}};

Said after_the_first(const Said& more) {
  Said all = kAtFirst;
  all.insert(all.end(), more.begin(), more.end());
  return all;
}

/// Near low, does not drink, no ketones: 6 years old, so 60 micrograms (Haymond and Schreiner 2001: 10 for each year).
AtTheScreen mini_dose() {
  return sick_until("mini-dose", after_the_first({{"glucose", "72"}, {"drinking", "3"}, {"ketones", "0.3"}}));
}

/// Raised ketones under a set that nobody approved: the dose is the clinic's to say.
AtTheScreen insulin_by_telephone() {
  return sick_until("dose-sugar-free", after_the_first({{"glucose", "280"},
                                                        {"drinking", "1"},
                                                        {"ketones", "0.9"},
                                                        {"vomits", "0"},
                                                        {"belly-pain", "1"},
                                                        {"rescue-given", "2"},
                                                        {"last-rapid-insulin", "5 h"}}));
}

BOOST_AUTO_TEST_SUITE(through_the_skin_screen)

BOOST_AUTO_TEST_CASE(small_dose_of_glucagon_is_named_where_its_outcome_is_asked) {
  AtTheScreen person = mini_dose();
  person.types("1");
  BOOST_TEST(person.shows("Mini-dose glucagon: 60 micrograms"));
}

BOOST_AUTO_TEST_CASE(why_there_is_no_dose_is_nothing_that_can_be_given) {
  AtTheScreen person = insulin_by_telephone();
  person.types("").types("2");
  BOOST_TEST(person.shows("How much went in?"));
  BOOST_TEST(person.shows("Extra rapid-acting insulin"));
  BOOST_TEST(!person.shows("No insulin dose here"));
  person.types("1").types("");
  BOOST_TEST(!person.shows("Given at 02:10: No insulin dose here"));
  person.types("").types("m").types("3");
  BOOST_TEST(person.shows("02:10 Extra rapid-acting insulin"));
}

BOOST_AUTO_TEST_CASE(address_stands_by_the_emergency_number_and_not_by_the_clinic) {
  AtTheScreen person = mini_dose();
  person.types("c");
  BOOST_TEST(person.shows("555 0101"));
  BOOST_TEST(!person.shows("Address: 12 Mill Road"));
  person.types("2").types("c");
  BOOST_TEST(person.shows("555 0999"));
  BOOST_TEST(person.shows("- Address: 12 Mill Road"));
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace
}  // namespace rushlight
