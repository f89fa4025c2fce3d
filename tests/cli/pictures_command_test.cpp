#include <boost/test/unit_test.hpp>

#include "cli/program.hpp"

namespace rushlight::tests {

namespace {

const std::string kReferenceLow = std::string(RUSHLIGHT_SOURCE_DIR) + "/protocols/reference/low.xml";

bool says(const std::string& text, const std::string& words) { return text.find(words) != std::string::npos; }

std::string without(std::string text, const std::string& part) {
  const std::size_t at = text.find(part);
  BOOST_REQUIRE(at != std::string::npos);
  return text.erase(at, part.size());
}

}  // namespace

BOOST_AUTO_TEST_SUITE(pictures_command)

BOOST_AUTO_TEST_CASE(map_of_a_step_is_written_as_svg) {
  const Folder folder;
  const Run run = run_program(
      {"check", kReferenceLow, "--map", "still-low:glucose,low-treatments", "--out", folder.path("map.svg")});
  BOOST_TEST(run.status == 0, run.out << run.err);
  BOOST_TEST(says(run.out, "drawn on A4"));
  BOOST_TEST(says(folder.read("map.svg"), "CALL THE CLINIC NOW"));
}

BOOST_AUTO_TEST_CASE(flow_is_written_as_png_when_the_name_says_so) {
  const Folder folder;
  const Run run = run_program({"check", kReferenceLow, "--flow", "--out", folder.path("low.png")});
  BOOST_TEST(run.status == 0, run.out << run.err);
  BOOST_TEST(folder.read("low.png").substr(1, 3) == "PNG");
}

BOOST_AUTO_TEST_CASE(answer_held_fast_is_said_on_the_map) {
  const Folder folder;
  const Run run = run_program({"check", kReferenceLow, "--map", "not-low:glucose,finger-pricks", "--given",
                               "symptoms=yes", "--out", folder.path("map.svg")});
  BOOST_TEST(run.status == 0, run.out << run.err);
  BOOST_TEST(says(folder.read("map.svg"), "Only when symptoms is yes."));
}

BOOST_AUTO_TEST_CASE(protocol_with_a_hole_is_drawn_with_the_hole_and_ends_with_1) {
  const Folder folder;
  folder.write("low.xml", without(file_in_tree("protocols/reference/low.xml"),
                                  R"(    <rule go="no-meter"><if fact="glucose" is="unknown"/></rule>
    <rule go="which-very-low"><if fact="glucose" below="very-low"/></rule>
    <rule go="which-reading"><if fact="glucose" below="low"/></rule>
)"));
  const Run run =
      run_program({"check", folder.path("low.xml"), "--map", "measure:glucose", "--out", folder.path("map.svg")});
  BOOST_TEST(run.status == 1, run.out << run.err);
  BOOST_TEST(says(run.out, "has mistakes. To see them: rushlight check "));
  BOOST_TEST(says(folder.read("map.svg"), "NO RULE"));
}

BOOST_AUTO_TEST_CASE(an_answer_held_fast_does_not_take_the_file_behind_it_for_another) {
  const Folder folder;
  const Run run = run_program(
      {"check", "--map", "not-low:glucose", "--given", "symptoms=yes", kReferenceLow, "--out", folder.path("map.svg")});
  BOOST_TEST(run.status == 0, run.out << run.err);
  BOOST_TEST(!folder.read("map.svg").empty());
}

BOOST_AUTO_TEST_CASE(what_cannot_be_drawn_is_refused_with_what_would_be_right) {
  const Folder folder;
  const std::string out = folder.path("map.svg");
  const auto refused = [&](const std::vector<std::string>& words) {
    std::vector<std::string> all{"check", kReferenceLow};
    all.insert(all.end(), words.begin(), words.end());
    const Run run = run_program(all);
    BOOST_TEST(run.status == 2, run.out << run.err);
    return run.out + run.err;
  };
  BOOST_TEST(says(refused({"--map", "still-lwo:glucose", "--out", out}), "still-low"));
  BOOST_TEST(says(refused({"--map", "still-low:ketones", "--out", out}), "fact or counter that this step reads"));
  BOOST_TEST(says(refused({"--map", "still-low", "--out", out}), "--map STEP:FACT,FACT"));
  BOOST_TEST(says(refused({"--map", "still-low:glucose,glucose", "--out", out}), "name two facts, or one"));
  BOOST_TEST(says(refused({"--map", "still-low:glucose"}), "add `--out FILE.svg` or `--out FILE.png`"));
  BOOST_TEST(says(refused({"--map", "not-low:glucose", "--given", "symptoms=maybe", "--out", out}), "symptoms"));
  BOOST_TEST(says(refused({"--out", out}), "add `--flow`, or `--map STEP:FACT,FACT`"));
  BOOST_TEST(says(refused({"--flow", "--out", "/no/such/folder/low.svg"}), "cannot be written"));
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace rushlight::tests
