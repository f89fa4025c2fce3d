#include <algorithm>
#include <array>
#include <boost/test/data/test_case.hpp>
#include <boost/test/unit_test.hpp>
#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <iterator>
#include <utility>
#include <vector>

#include "read/resolved_from_xml.hpp"
#include "verify/check.hpp"

// Published tables, written down as they are printed: what the check says of each, and that the clinic's decision mends
// it. docs/published-tables.md tells what each prints and who published it.

using namespace rushlight;
namespace data = boost::unit_test::data;

namespace {

const std::string kTree = std::string(RUSHLIGHT_SOURCE_DIR) + "/";
const std::string kFolder = "tests/published/as_printed/";

using Change = std::pair<std::string, std::string>;  // what is printed, and what stands there once it is decided

struct Print {
  std::string file;
  std::vector<std::string> found;  // in file order
  std::vector<Change> decided;
  friend std::ostream& operator<<(std::ostream& out, const Print& print) { return out << print.file; }
};

const Print kPrints[] = {
    {"us_label_rescue_glucagon.xml",
     {"error: no row of `rescue-glucagon` takes a child (weight 25 kg)"},
     {{"above=\"full-weight\"", "at-least=\"full-weight\""}}},
    {"nationwide_rescue_glucagon.xml",
     {"error: no row of `rescue-glucagon` takes a child (age 5 years, weight 20.4 kg)",
      "error: no row of `rescue-glucagon` takes a child (age 6 years, weight 20.4 kg)",
      "error: no row of `rescue-glucagon` takes a child of unknown weight (age 5 years)"},
     {{"above=\"full-age\"", "at-least=\"full-age\""},
      {"above=\"full-weight\"", "at-least=\"full-weight\""},
      {"    </dose>", "      <row fixed=\"half\" source=\"practice\"/>\n    </dose>"}}},
    {"nova_scotia_rescue_glucagon.xml",
     {"error: no row of `rescue-glucagon` takes a child (weight 20 kg, age 5 years)",
      "error: no row of `rescue-glucagon` takes a child of unknown weight (age 5 years)"},
     {{"above=\"full-age\"", "at-least=\"full-age\""}}},
    {"australian_mini_dose.xml",
     {"error: no row of `mini-glucagon` takes a child (age 2 years 1 month)",
      "error: no row of `mini-glucagon` takes a child (age 16 years)"},
     {{"at-most=\"youngest\"", "below=\"by-year-from\""}, {"<if fact=\"age\" at-most=\"by-year-to\"/>", ""}}},
    {"indian_mini_dose.xml",
     {"error: no row of `mini-glucagon` takes a child (age 2 years)"},
     {{"below=\"youngest\"", "below=\"by-year-from\""}}},
    {"indian_extra_insulin.xml",
     {"error: no row of `extra-insulin` takes a child (glucose 180 mg/dL, ketones 0.91 mmol/L)",
      "error: no row of `extra-insulin` takes a child (glucose 180 mg/dL, ketones 1.41 mmol/L)",
      "error: no row of `extra-insulin` takes a child (glucose 180 mg/dL, ketones 3 mmol/L)",
      "warning: rows 3 and 4 of `extra-insulin` both take glucose 250 mg/dL, ketones 0.5 mmol/L and do not agree: row "
      "3 counts",
      "warning: rows 9 and 10 of `extra-insulin` both take glucose 250 mg/dL, ketones 1 mmol/L and do not agree: row 9 "
      "counts",
      "warning: rows 12 and 13 of `extra-insulin` both take glucose 250 mg/dL, ketones 1.5 mmol/L and do not agree: "
      "row 12 counts",
      "warning: rows 15 and 16 of `extra-insulin` both take glucose 250 mg/dL, ketones 4 mmol/L and do not agree: row "
      "15 counts"},
     {{"at-most=\"row-2-ends\"", "below=\"row-3\""},
      {"at-most=\"row-3-ends\"", "below=\"row-4\""},
      {"at-most=\"row-4-ends\"", "below=\"row-5\""},
      {"above=\"row-5\"", "at-least=\"row-5\""},
      {"at-most=\"column-2\"", "below=\"column-2\""}}},
    {"london_extra_insulin.xml",
     {"error: no row of `extra-insulin` takes a child (ketones 3 mmol/L)"},
     {{"at-most=\"first-to\"", "below=\"second-above\""}, {"above=\"second-above\"", "at-least=\"second-above\""}}},
    {"down_east_extra_insulin.xml",
     {"error: no row of `extra-insulin` takes a child (ketones 0.6 mmol/L)",
      "error: no row of `extra-insulin` takes a child (ketones 1.5 mmol/L)"},
     {{"at-least=\"small-from\"", "at-least=\"none-below\""},
      {"at-most=\"small-to\"", "below=\"large-above\""},
      {"above=\"large-above\"", "at-least=\"large-above\""}}},
};

std::string text_of(const std::string& path) {
  std::ifstream file(kTree + path, std::ios::binary);
  BOOST_REQUIRE_MESSAGE(file, path << " cannot be read");
  return {std::istreambuf_iterator<char>(file), {}};
}

std::vector<std::string> found_in(const std::string& text) {
  Read<Protocol> read = resolved_from_xml(text, "as-printed.xml");
  BOOST_REQUIRE(read.value.has_value());
  std::vector<std::string> found;
  for (const Finding& finding : check(std::move(*read.value)).findings) {
    found.push_back((finding.severity == Severity::error ? "error: " : "warning: ") + sentence(finding.kind));
  }
  return found;
}

std::string decided(std::string text, const std::vector<Change>& changes) {
  for (const auto& [printed, instead] : changes) {
    std::size_t at = text.find(printed);
    BOOST_REQUIRE_MESSAGE(at != std::string::npos, "not printed: " << printed);
    for (; at != std::string::npos; at = text.find(printed, at + instead.size()))
      text.replace(at, printed.size(), instead);
  }
  return text;
}

std::string printed_by(const std::string& command) {
  FILE* pipe = popen(("cd " + kTree + " && " + command).c_str(), "r");
  BOOST_REQUIRE(pipe != nullptr);
  std::string text;
  std::array<char, 4096> part{};
  for (std::size_t count; (count = std::fread(part.data(), 1, part.size(), pipe)) > 0;) text.append(part.data(), count);
  pclose(pipe);
  return text;
}

}  // namespace

BOOST_AUTO_TEST_SUITE(published_tables)

BOOST_DATA_TEST_CASE(every_hole_and_every_shared_border_of_a_printed_table_is_found, data::make(kPrints), print) {
  const std::vector<std::string> found = found_in(text_of(kFolder + print.file));
  BOOST_TEST(found == print.found, boost::test_tools::per_element());
}

BOOST_DATA_TEST_CASE(a_printed_table_is_in_order_once_the_clinic_has_decided, data::make(kPrints), print) {
  BOOST_TEST(!print.decided.empty());
  for (const std::string& left : found_in(decided(text_of(kFolder + print.file), print.decided))) BOOST_ERROR(left);
}

// What the page shows is what the program prints. RUSHLIGHT_REWRITE=1 writes it anew: read it before it is committed.
BOOST_AUTO_TEST_CASE(the_page_of_published_tables_shows_what_the_check_prints) {
  const std::string path = "docs/published-tables.md", begin = "```\n$ rushlight check ", end = "```\n";
  std::string page = text_of(path);
  std::vector<std::string> shown;
  for (std::size_t at = 0; (at = page.find(begin, at)) != std::string::npos;) {
    const std::size_t name = at + begin.size(), line_end = page.find('\n', name);
    const std::string file = page.substr(name, line_end - name);
    const std::size_t stop = page.find(end, line_end);
    const std::string now = printed_by(RUSHLIGHT_PROGRAM " check " + file);
    if (std::getenv("RUSHLIGHT_REWRITE") != nullptr) page.replace(line_end + 1, stop - line_end - 1, now);
    BOOST_TEST(page.substr(line_end + 1, page.find(end, line_end) - line_end - 1) == now, file);
    shown.push_back(file);
    at = page.find(end, line_end) + end.size();
  }
  if (std::getenv("RUSHLIGHT_REWRITE") != nullptr) std::ofstream(kTree + path, std::ios::binary) << page;
  BOOST_TEST(shown.size() == std::size(kPrints));
  for (const Print& print : kPrints) {
    BOOST_TEST((std::find(shown.begin(), shown.end(), kFolder + print.file) != shown.end()), print.file);
  }
}

BOOST_AUTO_TEST_SUITE_END()
