#include <boost/test/unit_test.hpp>

#include "cli/at_the_screen.hpp"
#include "cli/protocol_set.hpp"

// A house with urine strips: the strip is to be dipped before its colour is asked for.

namespace rushlight {
namespace {

using test::AtTheScreen;
using test::mara;

BOOST_AUTO_TEST_SUITE(urine_strip_screen)

BOOST_AUTO_TEST_CASE(strip_is_dipped_before_its_colour_is_asked_for) {
  static const ProtocolSet set = embedded_set("reference");
  const LoadedProtocol* illness = set.find("illness");
  BOOST_REQUIRE(illness != nullptr);
  Child child = mara();
  child.strips = Strips::urine;
  AtTheScreen person{std::move(child), illness->checked};
  person.types("1").types("1").types("1").types("2").types("1").types("142");
  BOOST_REQUIRE(person.view().step == "urine-test");
  const std::string dip = person.view().actions.front().text;
  BOOST_TEST(person.shows("1. " + dip));
  person.types("");
  BOOST_TEST(!person.shows(dip));
  BOOST_TEST(person.shows(person.view().ask.front().text));
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace
}  // namespace rushlight
