#include <algorithm>
#include <boost/test/unit_test.hpp>
#include <nlohmann/json.hpp>

#include "cli/program.hpp"

namespace rushlight::tests {

namespace {

bool is_in(const std::string& text, const std::string& words) { return text.find(words) != std::string::npos; }

std::string edited(std::string text, const std::string& old, const std::string& now) {
  const std::size_t at = text.find(old);
  BOOST_REQUIRE(at != std::string::npos);
  return text.replace(at, old.size(), now);
}

const std::string& reference_set() {
  static const std::string path = RUSHLIGHT_SOURCE_DIR "/protocols/reference";
  return path;
}

/// The reference set in a folder, one number of all protocols changed.
struct EditedSet {
  Folder set;
  EditedSet(const std::string& was, const std::string& now) {
    for (const char* file : {"low.xml", "illness.xml", "ketones.xml"})
      set.write(file, edited(file_in_tree(std::string("protocols/reference/") + file), was, now));
    for (const char* file : {"safety.xml", "examples.xml"})
      set.write(file, file_in_tree(std::string("protocols/reference/") + file));
  }
};

constexpr const char* kLowFrom70 = R"(id="low" mg-dl="70" mmol-l="3.9")";
constexpr const char* kLowFrom66 = R"(id="low" mg-dl="66" mmol-l="3.7")";

}  // namespace

BOOST_AUTO_TEST_SUITE(compare_drafts)

BOOST_AUTO_TEST_CASE(number_that_check_refuses_is_compared_and_its_first_line_says_that_nobody_can_walk_it) {
  const EditedSet draft(R"(id="recheck" value="15 min")", R"(id="recheck" value="20 min")");
  const std::string now = draft.set.path("");
  const Run run = run_program({"compare", reference_set(), now});
  BOOST_TEST(run.status == 1, run.err);
  BOOST_TEST(run.out.starts_with("DRAFT: " + now + " has 2 errors, and nobody can walk it."), run.out);
  BOOST_TEST(is_in(run.out, "See the errors: rushlight check " + now));
  BOOST_TEST(is_in(run.out, "was  wait 15 min\n   now  wait 20 min"), run.out);
  const nlohmann::json json = nlohmann::json::parse(run_program({"compare", reference_set(), now, "--json"}).out);
  BOOST_TEST(json["errors"]["was"] == 0);
  BOOST_TEST(json["errors"]["now"] == 2);
  const Run sound = run_program({"compare", reference_set(), reference_set()});
  BOOST_TEST(!is_in(sound.out, "DRAFT"));
}

// Nothing checks them again before they are compared.
BOOST_AUTO_TEST_CASE(sets_inside_the_program_have_no_error_and_are_told_as_their_folders_are) {
  const std::string other = RUSHLIGHT_SOURCE_DIR "/protocols/harbour-lane";
  for (const std::string& set : {reference_set(), other}) BOOST_TEST(run_program({"check", set}).status == 0, set);
  const Run inside = run_program({"compare", "reference", "harbour-lane"});
  const Run folders = run_program({"compare", reference_set(), other});
  BOOST_TEST(inside.status == 1);
  BOOST_TEST(inside.out == folders.out);
}

BOOST_AUTO_TEST_CASE(one_file_with_an_error_is_compared_and_says_so) {
  const Folder draft;
  draft.write("low.xml", edited(file_in_tree("protocols/reference/low.xml"),
                                R"(<rule go="measure"><if fact="already-given" is="no yes unknown"/></rule>)",
                                R"(<rule go="measure"><if fact="already-given" is="no yes"/></rule>)"));
  const Run run = run_program({"compare", reference_set() + "/low.xml", draft.path("low.xml")});
  BOOST_TEST(run.status == 1, run.err);
  BOOST_TEST(run.out.starts_with("DRAFT: " + draft.path("low.xml") + " has 1 error, "), run.out);
  BOOST_TEST(is_in(run.out, "now  no rule"), run.out);
}

BOOST_AUTO_TEST_CASE(map_of_a_draft_is_not_drawn) {
  const EditedSet draft(R"(id="recheck" value="15 min")", R"(id="recheck" value="20 min")");
  const Run run = run_program({"compare", reference_set(), draft.set.path(""), "--map", "still-low:glucose", "--out",
                               draft.set.path("map.svg")});
  BOOST_TEST(run.status == 2, run.out);
  BOOST_TEST(is_in(run.err, "very-low-is-on-the-phone"), run.err);
}

BOOST_AUTO_TEST_CASE(file_beside_a_set_is_refused_with_what_would_be_right) {
  const EditedSet edited(kLowFrom70, kLowFrom66);
  const std::string set = edited.set.path(""), file = edited.set.path("low.xml");
  const Run run = run_program({"compare", reference_set(), file});
  BOOST_TEST(run.status == 2);
  BOOST_TEST(run.out == "");
  BOOST_TEST(is_in(run.err, "`" + file + "` is one protocol, and `" + reference_set() + "` is a whole set"), run.err);
  BOOST_TEST(is_in(run.err, "`rushlight compare " + reference_set() + "/low.xml " + file + "`"), run.err);
  const Run inside = run_program({"compare", file, "reference"});
  BOOST_TEST(inside.status == 2);
  BOOST_TEST(is_in(inside.err, "`rushlight compare " + set.substr(0, set.size() - 1) + " reference`"), inside.err);
}

BOOST_AUTO_TEST_CASE(what_is_not_there_is_refused_with_what_would_be_right) {
  for (const char* name : {"was", "nowhere/low.xml"}) {
    const Run run = run_program({"compare", name, "reference"});
    BOOST_TEST(run.status == 2);
    BOOST_TEST(is_in(run.err, std::string(name) + ": error: there is no folder, file or set of this name"), run.err);
    BOOST_TEST(is_in(run.err,
                     "name a folder or a file that is there, or a set of the program: `harbour-lane` or "
                     "`reference`"),
               run.err);
  }
}

BOOST_AUTO_TEST_CASE(numbers_of_a_set_that_is_not_there_are_refused_with_what_would_be_right) {
  const Run run = run_program({"thresholds", "nowhere"});
  BOOST_TEST(run.status == 2);
  BOOST_TEST(is_in(run.err, "name a folder or a file that is there, or a set of the program: `harbour-lane`"), run.err);
}

BOOST_AUTO_TEST_CASE(asked_for_all_every_place_is_told_with_every_step_of_it) {
  const EditedSet edited(kLowFrom70, kLowFrom66);
  const std::string now = edited.set.path("");
  const Run all = run_program({"compare", reference_set(), now, "--all"});
  for (const char* left : {" more step", " more place", " more answer"}) BOOST_TEST(!is_in(all.out, left), left);
  BOOST_TEST(std::count(all.out.begin(), all.out.end(), '\n') < 8'000);
  std::string unwrapped = all.out;
  std::replace(unwrapped.begin(), unwrapped.end(), '\n', ' ');
  BOOST_TEST(is_in(unwrapped, "`--json` lists every case, and who comes to which step where it is one of several."));
  // Each step in which anything leads elsewhere is named.
  const nlohmann::json json = nlohmann::json::parse(run_program({"compare", reference_set(), now, "--json"}).out);
  for (const nlohmann::json& protocol : json["protocols"]) {
    for (const nlohmann::json& change : protocol["changes"]) {
      for (const nlohmann::json& place : change["at"]) {
        if (place.contains("step"))
          BOOST_TEST(is_in(all.out, "`" + place["step"].get<std::string>() + "`"), place["step"]);
      }
    }
  }
}

BOOST_AUTO_TEST_CASE(in_brief_a_case_is_told_with_all_its_answers_and_the_well_child_first) {
  const EditedSet edited(kLowFrom70, kLowFrom66);
  const Run brief = run_program({"compare", reference_set() + "/low.xml", edited.set.path("low.xml")});
  BOOST_TEST(!is_in(brief.out, "more answer"), brief.out);
  const std::size_t first = brief.out.find("WHERE THE FIRST ANSWERS OF A NIGHT LEAD\n");
  BOOST_REQUIRE(first != std::string::npos);
  const std::string line = brief.out.substr(first, brief.out.find("- GRAVER", first) - first);
  BOOST_TEST(is_in(line, "symptoms: no\n"), line);
  BOOST_TEST(is_in(line, "was  `treat`, Treat here; now `bedtime-check`, Treat here"), line);
}

BOOST_AUTO_TEST_CASE(rescue_kit_that_nobody_gets_ready_any_more_is_told_as_less_with_what_is_left_out) {
  const Folder now;
  now.write("low.xml", edited(file_in_tree("protocols/reference/low.xml"), R"(id="very-low" mg-dl="54" mmol-l="3.0")",
                              R"(id="very-low" mg-dl="45" mmol-l="2.5")"));
  const Run run = run_program({"compare", reference_set() + "/low.xml", now.path("low.xml")});
  const std::size_t less = run.out.find("\n- LESS: after `which-very-low`"), next = run.out.find("\n- ", less + 1);
  BOOST_REQUIRE(less < next);
  const std::string line = run.out.substr(less, next - less);
  BOOST_TEST(is_in(line, "was  `treat-very-low`, Treat here; now `treat`, Treat here; left out: Get the rescue"), line);
  BOOST_TEST(is_in(run.out, "LESS IS DONE, OR LATER"), run.out);
}

BOOST_AUTO_TEST_CASE(ages_and_insulin_are_told_in_words_and_not_in_the_codes_of_a_file) {
  const Folder now;
  now.write("low.xml", edited(file_in_tree("protocols/reference/low.xml"), R"(age-up-to="6 a" value="5 g")",
                              R"(age-up-to="6 a" value="4 g")"));
  const Run run = run_program({"compare", reference_set() + "/low.xml", now.path("low.xml")});
  BOOST_TEST(run.status == 1, run.err);
  BOOST_TEST(is_in(run.out, "below 6 years"), run.out);
  BOOST_TEST(!is_in(run.out, " 6 a"), run.out);
  const Run sets = run_program({"compare", "reference", "harbour-lane", "--all"});
  BOOST_TEST(sets.status == 1);
  BOOST_TEST(!is_in(sets.out, "[iU]"));
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace rushlight::tests
