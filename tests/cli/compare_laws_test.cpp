#include <boost/test/unit_test.hpp>
#include <filesystem>
#include <nlohmann/json.hpp>

#include "cli/clinic.hpp"

namespace rushlight::tests {

namespace {

Run comparison_of(const std::string& was, const std::string& now) { return clinic().run({"compare", was, now}); }

std::string laws_of(const Run& run) {
  const std::size_t at = run.out.find("The clinic's laws");
  return at == std::string::npos ? "" : run.out.substr(at);
}

}  // namespace

BOOST_AUTO_TEST_SUITE(compared_laws)

BOOST_AUTO_TEST_CASE(approved_copy_has_the_laws_of_what_it_was_made_from) {
  const std::string draft = own_set(), approved = own_set();
  BOOST_REQUIRE(approve(approved).status == 0);
  const Run run = comparison_of(draft, approved);
  BOOST_TEST(run.status == 0, run.out);
  BOOST_TEST(!tells(run.out, "laws"), run.out);
}

BOOST_AUTO_TEST_CASE(set_of_another_name_has_the_same_laws) {
  const std::string set = own_set(), other = clinic().path("other-clinic");
  BOOST_REQUIRE(clinic().run({"new-set", "other-clinic", "--from", "reference", "--out", other}).status == 0);
  const Run run = comparison_of(set, other);
  BOOST_TEST(run.status == 0, run.out);
  BOOST_TEST(comparison_of("reference", set).status == 0);
}

BOOST_AUTO_TEST_CASE(comment_blanks_order_and_source_of_a_law_say_nothing) {
  const std::string was = own_set(), now = own_set();
  change_file(now + "/safety.xml", "<!-- Never. -->", "<!-- What no row may do. -->\n\n");
  change_file(now + "/safety.xml", " at-once=\"45 min\" late=\"4 h\"", "\n  late='4 h'   at-once = '45 min' ");
  change_file(now + "/safety.xml",
              "<never id=\"no-mini-dose-with-ketones\" protocol=\"illness\" does=\"glucagon\" source=\"icmr-2022\">",
              "<never id=\"no-mini-dose-with-ketones\" protocol=\"illness\" does=\"glucagon\" source=\"practice\">");
  const Run run = comparison_of(was, now);
  BOOST_TEST(run.status == 0, run.out << run.err);
  const auto json = nlohmann::json::parse(clinic().run({"compare", was, now, "--json"}).out);
  BOOST_TEST(json["laws_differ"] == false);
}

BOOST_AUTO_TEST_CASE(changed_gone_and_new_law_are_each_told_with_their_line) {
  const std::string was = own_set(), now = own_set();
  change_file(now + "/safety.xml", "at-once=\"45 min\" late=\"4 h\"", "at-once=\"1 h\" late=\"4 h\"");
  change_file(now + "/safety.xml",
              "<never id=\"no-glucagon-for-a-child-who-is-awake\" protocol=\"low\" does=\"glucagon\" "
              "source=\"practice\"><if fact=\"awake\" is=\"yes\"/></never>\n",
              "");
  change_file(now + "/safety.xml", "<!-- In time.",
              "<never id=\"no-food-for-a-child-who-cannot-swallow\" protocol=\"low\" does=\"by-mouth\" "
              "source=\"practice\"><if fact=\"swallow\" is=\"no\"/></never>\n<!-- In time.");
  const Run run = comparison_of(was, now);
  BOOST_TEST(run.status == 1, run.err);
  std::string laws;
  for (const std::string& line : lines_of(laws_of(run))) laws += line.substr(line.find_first_not_of(' ')) + " ";
  for (const char* told :
       {"The clinic's laws in safety.xml are other ones: ",
        "- changed: `very-low-is-on-the-phone` (line 24): at once: was 45 min, now 1 h ",
        "- gone: `no-glucagon-for-a-child-who-is-awake` (was line 14): never: protocol low, does glucagon, if awake is "
        "yes ",
        "- new: `no-food-for-a-child-who-cannot-swallow` (line 22): never: protocol low, does by-mouth, if swallow is "
        "no "})
    BOOST_TEST(tells(laws, told), told << "\n" << laws);
  BOOST_TEST(!tells(laws, "no-mini-dose"), laws);
  const auto json = nlohmann::json::parse(clinic().run({"compare", was, now, "--json"}).out);
  BOOST_TEST(json["laws_differ"] == true);
}

BOOST_AUTO_TEST_CASE(law_with_another_condition_is_told_with_both) {
  const std::string was = own_set(), now = own_set();
  change_file(now + "/safety.xml", "<if fact=\"urine-ketones\" is=\"large\"/>",
              "<if fact=\"urine-ketones\" is=\"large\"/><if fact=\"glucose\" at-least=\"high\"/>");
  BOOST_TEST(tells(laws_of(comparison_of(was, now)),
                   "if: was urine-ketones is large, now\n  glucose at least high and urine-ketones is large"),
             laws_of(comparison_of(was, now)));
}

BOOST_AUTO_TEST_CASE(laws_that_only_one_set_has_are_told_in_one_line) {
  const std::string was = own_set(), now = own_set();
  std::filesystem::remove(now + "/safety.xml");
  const Run gone = comparison_of(was, now), come = comparison_of(now, was);
  BOOST_TEST(gone.status == 1, gone.err);
  BOOST_TEST(tells(gone.out, "The laws of the clinic: safety.xml is gone, and its 33 laws with it."), gone.out);
  BOOST_TEST(tells(come.out, "The laws of the clinic: safety.xml is new, with its 33 laws."), come.out);
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace rushlight::tests
