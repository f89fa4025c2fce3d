#define BOOST_TEST_DYN_LINK
#include <boost/test/unit_test.hpp>
#include <cstdlib>
#include <fstream>
#include <set>
#include <sstream>

#include "finding/examples.hpp"

using namespace rushlight;

namespace {

const std::string kPage = std::string(RUSHLIGHT_SOURCE_DIR) + "/docs/findings.md";

std::string page() {
  std::string text =
      "# Findings\n\n"
      "Everything Rushlight has to say about a file. A finding names the file, the line and the column, says what is\n"
      "wrong, and says under `try` what would be right where that is certain. Each kind has an id that stays the "
      "same.\n"
      "Below are examples of each kind. The tests write this page: `RUSHLIGHT_REWRITE=1 "
      "build/tests/test_finding`.\n\n"
      "```\n" +
      text_from_finding(
          Finding{
              Severity::error, Where{"protocols/harbour/low.xml", 41, 3, 5}, RuleNeverMatches{3, "recheck", 1},
              Because{"rule 1 already takes every glucose below `low`", Where{"protocols/harbour/low.xml", 33, 3, 5}}},
          "  <rule go=\"treat\">") +
      "\n```\n\n";
  std::string last;
  for (const tests::Example& row : tests::examples()) {
    if (last != row.id) text += "## " + id_of(row.kind) + "\n\n";
    last = row.id;
    text += "```\n" + sentence(row.kind) + "\n";
    const std::string right = remedy(row.kind);
    if (!right.empty()) text += "  try      " + right + "\n";
    text += "```\n\n";
  }
  text.pop_back();
  return text;
}

std::string written_page(const std::string& path = kPage) {
  std::ifstream file(path, std::ios::binary);
  std::ostringstream text;
  text << file.rdbuf();
  return text.str();
}

}  // namespace

BOOST_AUTO_TEST_SUITE(findings_page)

BOOST_AUTO_TEST_CASE(the_page_of_findings_is_what_the_program_says) {
  const char* rewrite = std::getenv("RUSHLIGHT_REWRITE");
  if (rewrite && std::string(rewrite) == "1") std::ofstream(kPage, std::ios::binary) << page();
  BOOST_TEST((written_page() == page()), "docs/findings.md differs: RUSHLIGHT_REWRITE=1 writes it anew");
}

BOOST_AUTO_TEST_CASE(the_page_of_the_format_names_findings_by_the_ids_they_have) {
  std::set<std::string> ids;
  for (const tests::Example& row : tests::examples()) ids.insert(id_of(row.kind));
  const std::string format = written_page(std::string(RUSHLIGHT_SOURCE_DIR) + "/docs/protocol-format.md");
  std::istringstream refused(format.substr(format.find("## What the check refuses")));
  int named = 0;
  for (std::string line; std::getline(refused, line);) {
    if (line.rfind("| `", 0) != 0) continue;
    std::istringstream words(line.substr(0, line.find('|', 1)));
    for (std::string id; std::getline(words, id, '`') && std::getline(words, id, '`'); ++named) {
      BOOST_TEST(ids.count(id) == 1U, id << " is no id of a finding");
    }
  }
  BOOST_TEST(named > 20);
}

BOOST_AUTO_TEST_SUITE_END()
