#include "cli/told_differences.hpp"

#include <boost/test/unit_test.hpp>

#include "cli/program.hpp"
#include "read/resolved_from_xml.hpp"

namespace rushlight::tests {

BOOST_AUTO_TEST_SUITE(told_differences_in_brief)

BOOST_AUTO_TEST_CASE(one_difference_is_told_as_one_and_two_as_two) {
  const Read<Protocol> low = resolved_from_xml(file_in_tree("tests/episode/small_low.xml"), "low.xml");
  BOOST_REQUIRE(low.value.has_value());
  Differences all = compare(*low.value, *low.value, Detail::worst_first);
  BOOST_REQUIRE(all.changes.empty());
  all.in_brief = true;
  Difference one{};
  one.kind = Difference::Kind::put_in;
  one.turn = Difference::Turn::otherwise;
  one.at = {{"after", low.value->steps.front().name}};
  one.was = "nothing";
  one.now = "first `door`";
  one.is_told = true;
  all.changes = {one};
  BOOST_TEST(told_differences(all).in_brief == "1 difference, told with one case; `--all` tells all.");
  Difference other = one;
  other.now = "first `gate`";
  all.changes.push_back(other);
  BOOST_TEST(told_differences(all).in_brief ==
             "2 differences. Told are the worst, each with one case; `--all` tells all.");
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace rushlight::tests
