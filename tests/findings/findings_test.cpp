#include <boost/test/data/monomorphic.hpp>
#include <boost/test/data/test_case.hpp>
#include <boost/test/unit_test.hpp>
#include <filesystem>
#include <string>
#include <utility>
#include <vector>

#include "findings/case_file.hpp"
#include "findings/pipeline.hpp"

namespace rushlight::tests {

namespace {

const std::string kRoot = std::string(RUSHLIGHT_SOURCE_DIR) + "/tests/findings/";

/// Every case below bad/ or good/, with its folder.
std::vector<std::pair<std::string, std::string>> cases_below(const std::string& root) {
  std::vector<std::pair<std::string, std::string>> all;
  for (const auto& entry : std::filesystem::directory_iterator(kRoot + root)) {
    if (!entry.is_directory()) continue;
    const std::string folder = entry.path().filename().string();
    for (const std::string& path : case_paths(root + "/" + folder)) all.emplace_back(folder, path);
  }
  return all;
}

std::string list_of(const std::vector<std::string>& lines) {
  std::string list;
  for (const std::string& line : lines) list += "\n    expect: " + line;
  return list.empty() ? "\n    nothing" : list;
}

std::vector<std::string> named_findings(const std::string& folder, const CaseFile& input) {
  std::vector<std::string> found;
  for (const Finding& finding : findings_of(folder, input.bytes, input.name))
    found.push_back(named(finding, input.bytes));
  return found;
}

}  // namespace

BOOST_AUTO_TEST_SUITE(findings)

BOOST_AUTO_TEST_CASE(every_bad_file_gets_exactly_its_findings_with_the_right_text_underlined) {
  for (const auto& [folder, path] : cases_below("bad")) {
    const CaseFile input = case_file(path);
    const std::vector<std::string> found = named_findings(folder, input);
    BOOST_CHECK_MESSAGE(!input.expected.empty(), input.name << " says nothing that is expected of it");
    BOOST_CHECK_MESSAGE(found == input.expected,
                        input.name << "\n  expected" << list_of(input.expected) << "\n  found" << list_of(found));
  }
}

BOOST_AUTO_TEST_CASE(good_files_are_read_without_a_word) {
  for (const auto& [folder, path] : cases_below("good")) {
    const CaseFile input = case_file(path);
    const std::vector<std::string> found = named_findings(folder, input);
    BOOST_CHECK_MESSAGE(found.empty(), input.name << "\n  found" << list_of(found));
  }
}

BOOST_AUTO_TEST_CASE(findings_come_in_file_order_and_have_a_place) {
  for (const auto& [folder, path] : cases_below("bad")) {
    const CaseFile input = case_file(path);
    std::vector<Finding> found = findings_of(folder, input.bytes, input.name);
    std::pair<std::uint32_t, std::uint32_t> before{0, 0};
    for (const Finding& finding : found) {
      const std::pair here{finding.where.line, finding.where.column};
      BOOST_CHECK_MESSAGE(before <= here, input.name << ": line " << here.first << " comes too late");
      BOOST_CHECK_EQUAL(finding.where.file.text(), input.name);
      before = here;
    }
  }
}

BOOST_AUTO_TEST_CASE(readme_says_of_every_bad_file_what_it_is_for) {
  const std::string readme = bytes_of(kRoot + "README.md");
  for (const auto& [folder, path] : cases_below("bad")) {
    const std::string row = "| `" + folder + "/" + std::filesystem::path(path).stem().string() + "` | ";
    BOOST_CHECK_MESSAGE(readme.find(row) != std::string::npos, "tests/findings/README.md has no row " << row);
  }
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace rushlight::tests
