#include <boost/test/unit_test.hpp>

#include "house/source_text.hpp"
#include "printed_by.hpp"

using namespace rushlight::house;
using rushlight::tests::printed_by;

namespace {

/// The indented parts of the section "A walk", which "[...]" lines divide.
std::vector<std::string> parts_of_the_walk(const std::string& readme) {
  std::vector<std::string> parts = {""};
  bool in_walk = false;
  for (const std::string& line : lines_of(readme)) {
    if (line.rfind("## ", 0) == 0) in_walk = line == "## A walk";
    if (!in_walk) continue;
    if (line == "    [...]") {
      parts.emplace_back();
    } else if (line.rfind("    ", 0) == 0) {
      parts.back() += line.substr(4) + "\n";
    } else if (line.empty() && !parts.back().empty()) {
      parts.back() += "\n";
    }
  }
  while (!parts.back().empty() && parts.back().back() == '\n') parts.back().pop_back();
  return parts;
}

}  // namespace

BOOST_AUTO_TEST_SUITE(readme)

BOOST_AUTO_TEST_CASE(the_walk_in_the_readme_is_what_the_program_prints) {
  std::string printed = printed_by(RUSHLIGHT_PROGRAM " demo --lang en </dev/null");
  for (std::size_t at; (at = printed.find(" \n")) != std::string::npos;) printed.erase(at, 1);  // blanks at a line's end

  const std::vector<std::string> parts = parts_of_the_walk(text_of(std::string(RUSHLIGHT_SOURCE_DIR) + "/README.md"));

  BOOST_TEST(parts.size() >= 4U);
  for (const std::string& part : parts) {
    BOOST_TEST(!part.empty());
    BOOST_TEST((printed.find(part) != std::string::npos), "the program prints otherwise:\n" << part);
  }
}

BOOST_AUTO_TEST_SUITE_END()
