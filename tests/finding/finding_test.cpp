#define BOOST_TEST_DYN_LINK
#include "finding/finding.hpp"

#include <boost/test/data/monomorphic.hpp>
#include <boost/test/data/test_case.hpp>
#include <boost/test/unit_test.hpp>
#include <ostream>

#include "finding/quoted.hpp"

using namespace rushlight;
namespace data = boost::unit_test::data;

namespace {

const std::string kFile = "protocols/harbour/low.xml";

Finding rule_three(Where where) {
  return Finding{Severity::error, std::move(where), RuleNeverMatches{3, "recheck", 1}, std::nullopt};
}

struct Near {
  std::string written;
  std::vector<std::string> known;
  std::string found;
};
std::ostream& operator<<(std::ostream& out, const Near& row) { return out << row.written; }

const std::vector<Near> kNear = {
    {"tresholds", {"thresholds", "steps"}, "thresholds"},
    {"stepp", {"step", "steps"}, ""},     // one letter from both
    {"stpe", {"step", "steps"}, "step"},  // two neighbours swapped
    {"step", {"step", "steps"}, "step"},  // the word itself
    {"glucoes", {"glucose", "ketones"}, "glucose"},
    {"ketnxess", {"ketones"}, ""},  // three changes
    {"is", {"go", "as"}, "as"},     // a short word bears one change
    {"is", {"go"}, ""},
    {"lwo", {"low", "log"}, "low"},
    {"owl", {"low"}, ""},  // two changes in three letters leave little of a word
    {"x", {"y"}, ""},
    {"", {"a"}, ""},
    {"low", {}, ""},
    {"low-c", {"low-a", "low-b"}, ""},
    {"low-c", {"low-a", "low-a"}, "low-a"},
    {"correction", {"ketone-insulin", "correction-insulin"}, "correction-insulin"},  // the first of its words
    {"correction", {"correction-insulin", "correction-dose"}, ""},
    {"insulin", {"correction-insulin"}, ""},
    {"call", {"call-clinic"}, ""},  // a short word begins too much
    {std::string(100'000, 'a'), {std::string(100'000, 'a')}, ""},
};

}  // namespace

BOOST_AUTO_TEST_SUITE(finding)

BOOST_AUTO_TEST_CASE(a_finding_shows_its_line_its_caret_the_other_end_and_the_remedy) {
  Finding finding = rule_three(Where{kFile, 41, 3, 5});
  finding.because = Because{"rule 1 already takes every glucose below `low`, 70 mg/dL", Where{kFile, 33, 3, 5}};
  BOOST_TEST(text_from_finding(finding, "  <rule go=\"treat\">") ==
             "protocols/harbour/low.xml:41:3: error: rule 3 of step `recheck` can never match\n"
             "   41 |   <rule go=\"treat\">\n"
             "      |   ^~~~~\n"
             "  because  rule 1 already takes every glucose below `low`, 70 mg/dL (line 33)\n"
             "  try      move rule 3 above rule 1, or delete it");
}

BOOST_AUTO_TEST_CASE(a_finding_without_its_line_is_complete_in_its_first_line) {
  BOOST_TEST(text_from_finding(rule_three(Where{kFile, 41, 3, 5}), std::nullopt) ==
             "protocols/harbour/low.xml:41:3: error: rule 3 of step `recheck` can never match\n"
             "  try      move rule 3 above rule 1, or delete it");
}

BOOST_AUTO_TEST_CASE(a_finding_about_the_whole_file_has_no_line) {
  const Finding finding{Severity::warning, Where{"child.json", 0, 0, 0}, NotReadable{"it is a folder"}, std::nullopt};
  BOOST_TEST(text_from_finding(finding, "never shown") ==
             "child.json: warning: this file cannot be read: it is a folder");
}

BOOST_AUTO_TEST_CASE(a_cause_in_another_file_names_that_file) {
  Finding finding = rule_three(Where{kFile, 41, 3, 5});
  finding.because = Because{"the weight is here", Where{"child.json", 7, 2, 1}};
  BOOST_TEST(text_from_finding(finding, std::nullopt).find("because  the weight is here (child.json:7:2)\n") !=
             std::string::npos);
  finding.because = Because{"the weight is missing", std::nullopt};
  BOOST_TEST(text_from_finding(finding, std::nullopt).find("because  the weight is missing\n") != std::string::npos);
}

BOOST_AUTO_TEST_CASE(tabs_are_echoed_so_that_the_caret_stands_under_its_word) {
  BOOST_TEST(text_from_finding(rule_three(Where{kFile, 7, 4, 4}), "\t\tx<go/>")
                 .find("    7 | \t\tx<go/>\n"
                       "      | \t\t ^~~~\n") != std::string::npos);
}

BOOST_AUTO_TEST_CASE(columns_count_code_points_and_not_bytes) {
  BOOST_TEST(text_from_finding(rule_three(Where{kFile, 7, 6, 3}), "ni\u00f1o <b>").find("\n      |      ^~~\n") !=
             std::string::npos);
}

BOOST_AUTO_TEST_CASE(the_underlining_ends_with_the_line) {
  const auto carets = [](std::uint32_t column, std::uint32_t length, const std::string& line) {
    const std::string text = text_from_finding(rule_three(Where{kFile, 7, column, length}), line);
    const std::string shown = text.substr(text.find("\n      | ") + 9);
    return shown.substr(0, shown.find('\n'));
  };
  BOOST_TEST(carets(2, 50, "<abc>") == " ^~~~");
  BOOST_TEST(carets(2, 0, "<abc>") == " ^");
  BOOST_TEST(carets(6, 1, "<abc>") == "     ^");
  BOOST_TEST(carets(60, 9, "<abc>") == "     ^");
  BOOST_TEST(carets(0, 1, "<abc>") == "^");
  BOOST_TEST(carets(1, 3, "") == "^");
  BOOST_TEST(carets(1, 9, "<abc>\r\nnext line") == "^~~~~");
}

BOOST_AUTO_TEST_CASE(a_line_of_a_file_cannot_reach_the_terminal_and_keeps_its_columns) {
  const std::string text = text_from_finding(rule_three(Where{kFile, 7, 4, 1}), "\x1B\xFF\x80<b>");
  BOOST_TEST(text.find('\x1B') == std::string::npos);
  BOOST_TEST(text.find("    7 | \uFFFD\uFFFD\uFFFD<b>\n      |    ^\n") != std::string::npos);
}

BOOST_AUTO_TEST_CASE(a_line_number_of_six_digits_moves_the_caret_along) {
  BOOST_TEST(text_from_finding(rule_three(Where{kFile, 123456, 1, 2}), "<b>").find("\n123456 | <b>\n       | ^~\n") !=
             std::string::npos);
}

BOOST_AUTO_TEST_CASE(findings_are_sorted_by_place_and_one_place_keeps_its_order) {
  const auto at = [](const char* file, std::uint32_t line, std::uint32_t column, const char* key) {
    return Finding{Severity::error, Where{file, line, column, 1}, RepeatedKey{key}, std::nullopt};
  };
  std::vector<Finding> findings = {at("b", 1, 1, "6"), at("a", 10, 1, "5"), at("a", 9, 9, "4"),
                                   at("a", 9, 2, "2"), at("a", 9, 2, "3"),  at("a", 0, 0, "1")};
  sort_findings(findings);
  std::string order;
  for (const Finding& finding : findings) order += finding.kind.get<RepeatedKey>().key;
  BOOST_TEST(order == "123456");
}

BOOST_AUTO_TEST_CASE(a_file_name_is_compared_by_what_it_says_and_not_by_who_made_it) {
  const FileName once("low.xml"), again("low.xml"), other("sick.xml"), copy = once;
  BOOST_TEST((once == again && once == copy && !(once == other)));
  BOOST_TEST((once < other && !(other < once) && !(once < again) && !(once < copy)));
  BOOST_TEST((FileName() == FileName("") && FileName() < once));
  BOOST_TEST(copy.text() == "low.xml");
}

BOOST_AUTO_TEST_CASE(a_hundred_findings_of_one_place_keep_their_order) {
  std::vector<Finding> findings;
  for (int rule = 100; rule > 0; --rule) {
    const Where where{kFile, rule % 2 == 0 ? 7U : 5U, 1, 1};
    findings.push_back(Finding{Severity::error, where, RuleNeverMatches{rule, "treat", 0}, std::nullopt});
  }
  sort_findings(findings);
  for (std::size_t i = 0; i < 100; ++i) {
    const int expected = i < 50 ? 99 - 2 * static_cast<int>(i) : 200 - 2 * static_cast<int>(i);
    BOOST_REQUIRE(findings[i].kind.get<RuleNeverMatches>().rule == expected);
  }
}

BOOST_AUTO_TEST_CASE(a_warning_alone_is_no_error) {
  std::vector<Finding> findings;
  BOOST_TEST(!has_error(findings));
  findings.push_back(Finding{Severity::warning, Where{kFile, 1, 1, 1}, NotUtf8{}, std::nullopt});
  BOOST_TEST(!has_error(findings));
  findings.push_back(Finding{Severity::error, Where{kFile, 1, 1, 1}, NotUtf8{}, std::nullopt});
  BOOST_TEST(has_error(findings));
}

BOOST_DATA_TEST_CASE(a_word_is_near_within_two_changes_when_no_other_is_as_near, data::make(kNear), row) {
  BOOST_TEST(near_word(row.written, row.known).value_or("") == row.found);
}

BOOST_AUTO_TEST_CASE(what_is_no_utf8_becomes_one_replacement_sign_a_byte) {
  BOOST_TEST(one_line("a\xC3(") == "a\uFFFD(");
  BOOST_TEST(one_line("\xC0\xAF") == "\uFFFD\uFFFD");                      // overlong
  BOOST_TEST(one_line("\xED\xA0\x80") == "\uFFFD\uFFFD\uFFFD");            // a surrogate
  BOOST_TEST(one_line("\xF4\x90\x80\x80") == "\uFFFD\uFFFD\uFFFD\uFFFD");  // beyond Unicode
  BOOST_TEST(one_line("\xE2\x82") == "\uFFFD\uFFFD");                      // cut short
  BOOST_TEST(one_line("\u202E") == "\uFFFD");                              // turns the writing direction
  BOOST_TEST(one_line("\u00f1 \u20ac \U0001F36F\t") == "\u00f1 \u20ac \U0001F36F\t");
}

BOOST_AUTO_TEST_SUITE_END()
