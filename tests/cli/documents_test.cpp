#include <boost/test/unit_test.hpp>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>

#include "cli/clinic_copy.hpp"
#include "wire/child_from_json.hpp"

namespace rushlight::tests {

namespace {

using Json = nlohmann::json;

/// What stands in the fenced block of this name.
std::string block(const std::string& page, const std::string& name) {
  const std::string fence = "```" + name + "\n";
  const std::size_t begin = page.find(fence);
  BOOST_REQUIRE_MESSAGE(begin != std::string::npos, "no block " << name);
  const std::size_t end = page.find("```", begin + fence.size());
  return page.substr(begin + fence.size(), end - begin - fence.size());
}

}  // namespace

BOOST_AUTO_TEST_SUITE(documents)

BOOST_AUTO_TEST_CASE(every_event_in_the_wire_format_page_is_taken) {
  const std::string events = block(file_in_tree("docs/wire-format.md"), "events");
  const std::vector<std::string> views = lines_of(run_program({"walk", "--json"}, events).out);
  BOOST_TEST(views.size() == lines_of(events).size());
  for (const std::string& view : views) BOOST_TEST(!Json::parse(view).contains("error"), view);
}

// When the set's wording has changed, RUSHLIGHT_REWRITE=1 puts the new view into the page; read it before it is
// committed.
BOOST_AUTO_TEST_CASE(view_in_the_wire_format_page_is_the_one_that_comes_out) {
  std::string page = file_in_tree("docs/wire-format.md");
  const std::vector<std::string> views = lines_of(run_program({"walk", "--json"}, block(page, "night")).out);
  BOOST_REQUIRE(!views.empty());
  const std::string old = block(page, "view");
  const std::string now = nlohmann::ordered_json::parse(views.back()).dump(2) + "\n";
  if (std::getenv("RUSHLIGHT_REWRITE") != nullptr) {
    page.replace(page.find(old), old.size(), now);
    std::ofstream(std::string(RUSHLIGHT_SOURCE_DIR) + "/docs/wire-format.md", std::ios::binary) << page;
  }
  BOOST_TEST(now == block(page, "view"));
}

BOOST_AUTO_TEST_CASE(refusals_in_the_wire_format_page_are_the_ones_that_come_out) {
  const std::vector<std::string> lines = lines_of(block(file_in_tree("docs/wire-format.md"), "refused"));
  BOOST_REQUIRE(!lines.empty());
  for (std::size_t i = 0; i + 1 < lines.size(); i += 2) {
    BOOST_TEST(run_program({"walk", "--json"}, lines[i] + "\n").out == lines[i + 1] + "\n");
  }
}

// As above, RUSHLIGHT_REWRITE=1 puts what comes out now into the page.
BOOST_AUTO_TEST_CASE(check_in_the_wire_format_page_is_the_one_that_comes_out) {
  std::string page = file_in_tree("docs/wire-format.md");
  const std::string path = std::string(RUSHLIGHT_SOURCE_DIR) + "/tests/findings/bad/sense/dead-rule.xml";
  std::string now = nlohmann::ordered_json::parse(run_program({"check", "--json", path}).out).dump(2) + "\n";
  for (std::size_t at = now.find(path); at != std::string::npos; at = now.find(path))
    now.replace(at, path.size(), "clinic/low.xml");
  const std::string old = "```check\n" + block(page, "check");
  if (std::getenv("RUSHLIGHT_REWRITE") != nullptr) {
    page.replace(page.find(old), old.size(), "```check\n" + now);
    std::ofstream(std::string(RUSHLIGHT_SOURCE_DIR) + "/docs/wire-format.md", std::ios::binary) << page;
  }
  BOOST_TEST(now == block(page, "check"));
}

// What the page for the clinic shows of `thresholds`, run on a copy that is called as there. As above,
// RUSHLIGHT_REWRITE=1 puts what comes out now into the page.
BOOST_AUTO_TEST_CASE(numbers_in_the_page_for_the_clinic_are_the_ones_that_come_out) {
  const ClinicCopy clinic;
  const std::filesystem::path here = std::filesystem::current_path();
  std::filesystem::current_path(std::filesystem::path(clinic.path()).parent_path());
  std::filesystem::rename("clinic", "my-clinic");
  const auto run = [](const std::vector<std::string>& more) {
    std::vector<std::string> words{"thresholds", "my-clinic"};
    words.insert(words.end(), more.begin(), more.end());
    return run_program(words);
  };
  const std::string list = run({}).out;
  // In the order of the page: whoever follows it sees what stands there.
  const Run change = run({"--change", "low=66 mg/dL, 3.7 mmol/L"});
  const Run together = run({"--change", "snack-size=12 g", "honey-age=13 months"});
  const Run refused = run({"--change", "recheck=20 min"});
  std::filesystem::current_path(here);

  const auto first_lines = [](const std::string& text, std::size_t count) {
    std::string some;
    for (std::size_t i = 0; i < count; ++i) some += lines_of(text).at(i) + "\n";
    return some;
  };
  const std::pair<std::string, std::string> blocks[] = {
      {"list", first_lines(list, 13)}, {"change", change.out}, {"refused", first_lines(refused.out, 7)}};
  std::string page = file_in_tree("docs/clinic.md");
  BOOST_TEST(page.find(" --change 'snack-size=12 g' 'honey-age=13 months'\n") != std::string::npos);
  BOOST_TEST(together.status == 0, together.out << together.err);
  BOOST_TEST(together.out.find("Written: ") != std::string::npos);
  BOOST_TEST(refused.out.find("only after 4 h 43 min when answers come as late") != std::string::npos, refused.out);
  for (const auto& [name, now] : blocks) {
    const std::string old = "```" + name + "\n" + block(page, name);
    if (std::getenv("RUSHLIGHT_REWRITE") != nullptr)
      page.replace(page.find(old), old.size(), "```" + name + "\n" + now);
    BOOST_TEST(now == block(page, name));
  }
  if (std::getenv("RUSHLIGHT_REWRITE") != nullptr)
    std::ofstream(std::string(RUSHLIGHT_SOURCE_DIR) + "/docs/clinic.md", std::ios::binary) << page;
}

BOOST_AUTO_TEST_CASE(comparison_in_the_page_for_the_clinic_is_the_one_that_comes_out) {
  const ClinicCopy was, now;
  BOOST_REQUIRE(now.run({"--change", "low=66 mg/dL, 3.7 mmol/L"}).status == 0);
  const std::string out = run_program({"compare", was.path(), now.path()}).out;
  const std::size_t begin = out.find("\nlow\n") + 1, same = out.find("\nThe same: ", begin) + 1;
  BOOST_REQUIRE(begin < same);
  const std::string low = out.substr(begin, out.find('\n', same) + 1 - begin);
  std::string page = file_in_tree("docs/clinic.md");
  const std::string old = "```compared\n" + block(page, "compared");
  if (std::getenv("RUSHLIGHT_REWRITE") != nullptr) {
    page.replace(page.find(old), old.size(), "```compared\n" + low);
    std::ofstream(std::string(RUSHLIGHT_SOURCE_DIR) + "/docs/clinic.md", std::ios::binary) << page;
  }
  BOOST_TEST(low == block(page, "compared"));
}

BOOST_AUTO_TEST_CASE(child_in_the_child_file_page_is_read_without_a_word) {
  const Day today{std::chrono::year{2026}, std::chrono::March, std::chrono::day{1}};
  const Read<Child> read = child_from_json(block(file_in_tree("docs/child-file.md"), "json"), "child-file.md", today);
  BOOST_TEST(read.findings.empty());
  BOOST_TEST(read.value.has_value());
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace rushlight::tests
