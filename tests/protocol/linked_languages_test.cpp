#include <boost/test/unit_test.hpp>

#include "protocol/linked.hpp"
#include "tests/protocol/small_protocol.hpp"

using namespace rushlight;
using namespace rushlight::tests;

namespace {

/// The small protocol, which hands over to another one, and that one.
struct Set {
  Protocol low = resolved(with(R"(<rule go="crew"/>)",
                               R"(<rule hand-over="ketones"><if fact="delivery" is="pump"/></rule><rule go="crew"/>)"));
  Protocol ketones = [] {
    Protocol other = resolved();
    other.name = other.parts.front().name = "ketones";
    for (Action& action : other.actions) action.name += "-ketones";
    return other;
  }();

  std::vector<Finding> findings() const { return linked({&low, &ketones}, "low").findings; }
};

}  // namespace

BOOST_AUTO_TEST_SUITE(linked_languages)

BOOST_AUTO_TEST_CASE(a_set_that_speaks_one_language_throughout_is_linked) { BOOST_TEST(told(Set().findings()) == ""); }

BOOST_AUTO_TEST_CASE(a_protocol_without_the_language_one_came_in_is_refused) {
  Set set;
  set.low.languages.push_back(Language::es);
  const std::vector<Finding> findings = set.findings();
  BOOST_TEST_REQUIRE(findings.size() == 1U, told(findings));
  const auto& found = findings.front().kind.get<LanguageLacking>();
  BOOST_TEST(found.protocol == "ketones");
  BOOST_TEST(found.language == "es");
  BOOST_TEST(found.from == "low");
}

BOOST_AUTO_TEST_CASE(a_language_that_nobody_came_in_is_no_matter) {
  Set set;
  set.ketones.languages.push_back(Language::es);
  BOOST_TEST(told(set.findings()) == "");
}

BOOST_AUTO_TEST_SUITE_END()
