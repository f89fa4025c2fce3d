#include <boost/test/unit_test.hpp>

#include "cli/at_the_screen.hpp"
#include "cli/protocol_set.hpp"

// A house with urine strips: the strip is to be dipped before its colour is asked for.

namespace rushlight {
namespace {

using test::AtTheScreen;
using test::mara;

BOOST_AUTO_TEST_SUITE(urine_strip_screen)

BOOST_AUTO_TEST_CASE(strip_is_dipped_and_its_colour_is_typed_on_one_screen) {
  static const ProtocolSet set = embedded_set("reference");
  const LoadedProtocol* illness = set.find("illness");
  BOOST_REQUIRE(illness != nullptr);
  Child child = mara();
  child.strips = Strips::urine;
  AtTheScreen person{std::move(child), illness->checked};
  person.types("1").types("1").types("1").types("1").types("1").types("142");
  BOOST_REQUIRE(person.view().step == "urine-test");
  const std::string dip = person.view().actions.front().text;
  BOOST_TEST(person.shows("- " + dip));
  BOOST_TEST(person.shows(person.view().ask.front().text));
  BOOST_TEST(person.text(1000).find(dip) < person.text(1000).find("1. Negative"));
  person.types("1");
  BOOST_TEST(person.shows("You said: Negative"));
  BOOST_TEST(!person.shows(dip));
}

BOOST_AUTO_TEST_CASE(house_without_urine_strips_says_so_with_the_trouble_key) {
  static const ProtocolSet set = embedded_set("reference");
  Child child = mara();
  child.strips = Strips::urine;
  AtTheScreen person{std::move(child), set.find("illness")->checked};
  person.types("1").types("1").types("1").types("1").types("1").types("142").types("x").types("1");
  BOOST_TEST(person.view().step == "no-check");
  person.types("1");  // drinks as usual
  BOOST_TEST(person.view().step == "no-strips");
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace
}  // namespace rushlight
