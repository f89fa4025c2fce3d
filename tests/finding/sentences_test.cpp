#define BOOST_TEST_DYN_LINK
#include <algorithm>
#include <boost/test/data/monomorphic.hpp>
#include <boost/test/data/test_case.hpp>
#include <boost/test/unit_test.hpp>
#include <cctype>
#include <map>
#include <ostream>
#include <set>

#include "finding/examples.hpp"
#include "finding/number_words.hpp"
#include "finding/unit_words.hpp"

using namespace rushlight;
namespace data = boost::unit_test::data;

namespace rushlight::tests {

std::ostream& operator<<(std::ostream& out, const Example& row) { return out << row.id; }

}  // namespace rushlight::tests

namespace {

using tests::Example;
using tests::examples;

// The text outside backticks: the house's own words.
std::string own_words(const std::string& text) {
  std::string words;
  bool inside = false;
  for (const char c : text) {
    if (c == '`') inside = !inside;
    if (!inside && c != '`') words += c;
  }
  return words;
}

// Words of programmers that no nurse needs, and words that promise what no program can.
const std::vector<std::string> kUnwanted = {"parse", "token",  "null",     "string",  "integer", "exception", "invalid",
                                            "node",  "schema", "variable", "boolean", "element", "attribute", "syntax",
                                            "safe",  "proven", "normal",   "please",  "should",  "error"};

struct NumberRow {
  std::string written;
  std::string meant;
};
std::ostream& operator<<(std::ostream& out, const NumberRow& row) { return out << row.written; }

const std::vector<NumberRow> kMeant = {
    {"3,9 mmol/L", "3.9 mmol/L"},
    {"070mg/dL", "70 mg/dL"},
    {"3,9 mmol/l", "3.9 mmol/L"},
    {"3,5 gramos", "3.5 g"},
    {"3,9 mmol", ""},
    {"7O mg/dL", ""},
    {"70", ""},
    {"1.5", ""},
    {"70 mg/dL", ""},
    {"3,9", "3.9"},
    {"070", "70"},
    {".5", "0.5"},
    {"5.", "5"},
    {"+5", "5"},
    {"0003.9", "3.9"},
    {"-,5", "-0.5"},
    {"7O", ""},
    {"1e3", ""},
    {"1,000", ""},
    {"70mg", ""},
    {"nan", ""},
    {"1.2345", ""},
    {"99999999999", ""},
    {"", ""},
    {".", ""},
    {"+", ""},
    {"--5", ""},
    {"3,9,1", ""},
    {"+-5", ""},
};

const std::vector<NumberRow> kSpelledOut = {
    {"15 minutes", "15 min"},
    {"15minutos", "15 min"},
    {"2 HRS", "2 h"},
    {"7 Grams", "7 g"},
    {"200 ml", "200 mL"},
    {"70 MG/DL", "70 mg/dL"},
    {"9.6 g / 100 ml", "9.6 g/(100.mL)"},
    {"500 \xC2\xB5g", "500 ug"},
    {"6 a\xC3\xB1os", "6 a"},
    {"15 m", ""},
    {"15 min", ""},
    {"15 s min", ""},
    {"fifteen minutes", ""},
    {"15", ""},
};

}  // namespace

BOOST_AUTO_TEST_SUITE(sentences)

BOOST_DATA_TEST_CASE(a_finding_speaks_as_the_golden_table_says, data::make(examples()), row) {
  BOOST_TEST(id_of(row.kind) == row.id);
  BOOST_TEST(sentence(row.kind) == row.sentence);
  BOOST_TEST(remedy(row.kind) == row.remedy);
}

BOOST_AUTO_TEST_CASE(every_kind_has_its_example_and_the_table_keeps_their_order) {
  std::size_t next = 0;
  for (const Example& row : examples()) {
    if (next > 0 && row.kind.index() == next - 1) continue;  // a second example of the same kind
    BOOST_TEST_CONTEXT(row.id) BOOST_REQUIRE(row.kind.index() == next);
    ++next;
  }
  BOOST_TEST(next == AllKinds::kSize);
}

BOOST_AUTO_TEST_CASE(no_two_kinds_share_an_id) {
  std::map<std::string, std::size_t> kinds;
  for (const Example& row : examples())
    BOOST_TEST(kinds.emplace(id_of(row.kind), row.kind.index()).first->second == row.kind.index());
}

BOOST_DATA_TEST_CASE(a_sentence_is_one_calm_line_in_the_words_of_a_nurse, data::make(examples()), row) {
  for (const std::string& text : {sentence(row.kind), remedy(row.kind)}) {
    if (text.empty()) continue;
    BOOST_TEST(text.find('\n') == std::string::npos);
    BOOST_TEST(text.back() != '.');
    BOOST_TEST(!std::isupper(static_cast<unsigned char>(text.front())));
    BOOST_TEST(std::count(text.begin(), text.end(), '`') % 2 == 0);
    const std::string words = own_words(text);
    for (const std::string& unwanted : kUnwanted) BOOST_TEST(words.find(unwanted) == std::string::npos, unwanted);
  }
}

BOOST_AUTO_TEST_CASE(words_of_a_file_cannot_break_the_line_or_reach_the_terminal) {
  const std::string hostile = "a`b\n\x1B[2Jc\x7F\xFF";
  const std::string text = sentence(Kind{UnknownElement{hostile, hostile, {}}}) + remedy(Kind{StrayText{hostile, "x"}});
  BOOST_TEST(text.find('\n') == std::string::npos);
  BOOST_TEST(text.find('\x1B') == std::string::npos);
  BOOST_TEST(text.find('\x7F') == std::string::npos);
  BOOST_TEST(text.find('\xFF') == std::string::npos);
  BOOST_TEST(text.find("`<a'b") != std::string::npos);
}

BOOST_AUTO_TEST_CASE(a_very_long_word_is_cut) {
  BOOST_TEST(sentence(Kind{StrayText{std::string(5'000, 'x'), "steps"}}).size() < 200);
}

BOOST_AUTO_TEST_CASE(a_remedy_names_no_word_when_two_are_equally_near) {
  BOOST_TEST(remedy(Kind{UnknownId{"low-c", "threshold", {"low-a", "low-b"}}}) == "write `low-a` or `low-b`");
}

BOOST_AUTO_TEST_CASE(a_remedy_without_known_words_says_what_to_do_instead) {
  BOOST_TEST(remedy(Kind{UnknownId{"low", "threshold", {}}}) == "");
  BOOST_TEST(remedy(Kind{UnknownElement{"b", "if", {}}}) == "delete it: `<if>` holds nothing");
  BOOST_TEST(remedy(Kind{UnknownAttribute{"b", "thresholds", {}}}) == "delete it: `<thresholds>` takes none");
  BOOST_TEST(remedy(Kind{WrongWord{"soon", "urgency", {}}}) == "");
}

BOOST_AUTO_TEST_CASE(the_outermost_part_of_a_file_has_nothing_around_it) {
  const Kind kind{UnknownElement{"protocl", "", {"protocol"}}};
  BOOST_TEST(sentence(kind) == "`<protocl>` is not known as the outermost part of a file");
  BOOST_TEST(remedy(kind) == "write `<protocol>`");
}

BOOST_AUTO_TEST_CASE(a_value_with_one_border_is_above_or_below_it) {
  BOOST_TEST(sentence(Kind{OutOfRange{"weight", "900 kg", "", "300 kg"}}) == "`weight` is 900 kg, above 300 kg");
  BOOST_TEST(remedy(Kind{OutOfRange{"weight", "900 kg", "", "300 kg"}}) == "write 300 kg or less");
  BOOST_TEST(sentence(Kind{OutOfRange{"weight", "0 kg", "1 kg", ""}}) == "`weight` is 0 kg, below 1 kg");
  BOOST_TEST(remedy(Kind{OutOfRange{"weight", "0 kg", "1 kg", ""}}) == "write 1 kg or more");
  BOOST_TEST(sentence(Kind{OutOfRange{"dose", "2 mg", "1 mg", "1 mg"}}) == "`dose` is 2 mg, and may only be 1 mg");
  BOOST_TEST(remedy(Kind{OutOfRange{"dose", "2 mg", "1 mg", "1 mg"}}) == "write 1 mg");
}

BOOST_AUTO_TEST_CASE(a_name_is_proposed_only_when_no_letter_is_made_up) {
  const auto proposed = [](const char* id) { return remedy(Kind{BadId{id}}); };
  BOOST_TEST(proposed("low_at_night") == "write `low-at-night`");
  BOOST_TEST(proposed("lowAtNight") == "write `low-at-night`");
  BOOST_TEST(proposed("LOW") == "write `low`");
  BOOST_TEST(proposed("-low-") == "write `low`");
  BOOST_TEST(proposed("ni\u00f1o") == "");
  BOOST_TEST(proposed("70") == "");
  BOOST_TEST(proposed("") == "");
}

BOOST_AUTO_TEST_CASE(a_rule_that_no_other_rule_hides_can_only_be_deleted) {
  BOOST_TEST(remedy(Kind{RuleNeverMatches{2, "treat", 0}}) == "delete rule 2");
}

BOOST_AUTO_TEST_CASE(a_rule_that_several_take_together_is_deleted_only_when_they_are_right) {
  BOOST_TEST(remedy(Kind{RuleNeverMatches{12, "blood-test", 0, {3, 7, 11}}}) ==
             "see whether rules 3, 7 and 11 take too much; delete rule 12 if they are right");
  BOOST_TEST(remedy(Kind{DoseRowNeverMatches{4, "insulin", 0, {1, 2}}}) ==
             "see whether rows 1 and 2 take too much; delete row 4 if they are right");
}

BOOST_AUTO_TEST_CASE(a_clinic_that_says_to_come_is_followed) {
  BOOST_TEST(sentence(Kind{ComeIgnored{1, "cannot-keep", "supplies"}}) ==
             "rule 1 of step `cannot-keep` goes to `supplies`, which is calmer, when the clinic says to come");
}

BOOST_AUTO_TEST_CASE(a_dose_that_is_not_on_the_screen_is_not_written_into_an_example) {
  const ExampleDiffers gone{"ten-years", "2 min after it began", "dose `mini`", "not on the screen", "100 ug"};
  BOOST_TEST(remedy(Kind{gone}) == "mend the protocol, or take the dose out of the example if the clinic wants it so");
}

BOOST_AUTO_TEST_CASE(a_watch_that_calms_from_many_steps_is_told_with_their_number) {
  BOOST_TEST(sentence(Kind{WatchCalms{"rescue", "pain", "worry", "clinic-now", 23, false}}) ==
             "watch `pain` leads from step `rescue` and 23 others to `worry`, which is calmer");
  BOOST_TEST(
      remedy(Kind{WatchCalms{"rescue", "pain", "worry", "clinic-now", 23, false}}) ==
      "write `told=\"yes\"` on watch `pain` if it is news and no lasting danger, or add `pain` to `handles` of each "
      "of these steps, or make `worry` as urgent");
}

BOOST_AUTO_TEST_CASE(what_stands_in_an_attribute_is_said_where_it_is_certain) {
  BOOST_TEST(remedy(Kind{MissingAttribute{"overdue", "wait"}}) ==
             "add `overdue=\"...\"` to `<wait>`, with the id of a `<time>`");
  BOOST_TEST(remedy(Kind{MissingAttribute{"go", "rule"}}) == "add `go=\"...\"` to `<rule>`, with the id of a step");
  BOOST_TEST(remedy(Kind{MissingAttribute{"role", "approval"}}) == "add `role=\"...\"` to `<approval>`");
}

BOOST_AUTO_TEST_CASE(the_comparison_of_a_number_is_not_is) {
  BOOST_TEST(remedy(Kind{WrongFactKind{"glucose", "glucose", "is"}}) ==
             "compare it with `below`, `at-least`, `above` or `at-most`, or write `is=\"unknown\"`");
  BOOST_TEST(remedy(Kind{WrongFactKind{"rescue", "something-new", "is"}}) == "");
  BOOST_TEST(remedy(Kind{WrongFactKind{"awake", "choice", "records"}}) == "");
}

BOOST_AUTO_TEST_CASE(a_number_that_can_be_read_is_never_proposed_again) {
  BOOST_TEST(remedy(Kind{BadNumber{"1.5", "a count is a whole number"}}) == "");
  BOOST_TEST(sentence(Kind{BadNumber{"1.5", "a count is a whole number"}}) ==
             "`1.5` cannot be used: a count is a whole number");
}

BOOST_AUTO_TEST_CASE(a_word_that_is_missing_is_not_quoted) {
  BOOST_TEST(sentence(Kind{WrongWord{"", "language", {"en", "es"}}}) == "no language is written");
}

BOOST_AUTO_TEST_CASE(what_can_stand_only_once_is_deleted_and_not_renamed) {
  BOOST_TEST(remedy(Kind{RepeatedId{"en", "language"}}) == "delete one of the two");
  BOOST_TEST(remedy(Kind{RepeatedId{"part", "outcome"}}) == "delete one of the two");
}

BOOST_AUTO_TEST_CASE(a_hole_at_a_border_is_mended_by_the_row_that_takes_the_border_too) {
  const DoseNotCovered hole{"rescue-glucagon", "a child (weight 25 kg)", {{1, "at-most", true}, {2, "at-least", true}}};
  BOOST_TEST(remedy(Kind{hole}) ==
             "write `at-most` in row 1, or `at-least` in row 2; or add a last `<row>` to `rescue-glucagon` with "
             "`fixed`, or with "
             "`withheld=\"yes\"` and the reason");
}

BOOST_AUTO_TEST_CASE(words_of_the_house_stand_without_backticks) {
  BOOST_TEST(sentence(Kind{WrongType{"the child file", "a list"}}) == "the child file is not a list");
}

BOOST_AUTO_TEST_CASE(a_brace_is_closed_only_round_one_word) {
  BOOST_TEST(remedy(Kind{BadPlaceholder{"{give food"}}) == "");
  BOOST_TEST(remedy(Kind{BadPlaceholder{"food}"}}) == "");
  BOOST_TEST(remedy(Kind{BadPlaceholder{"{"}}) == "");
}

BOOST_DATA_TEST_CASE(a_number_is_proposed_only_when_no_guess_is_needed, data::make(kMeant), row) {
  BOOST_TEST(value_meant_by(row.written) == row.meant);
}

BOOST_DATA_TEST_CASE(a_unit_is_proposed_for_a_word_that_means_one_thing, data::make(kSpelledOut), row) {
  BOOST_TEST(amount_meant_by(row.written, "g, mL, min, h, a, mg/dL, g/(100.mL) or ug") == row.meant);
}

BOOST_AUTO_TEST_CASE(a_unit_is_proposed_only_where_it_may_stand) {
  BOOST_TEST(amount_meant_by("7 grams", "g/kg") == "");
  BOOST_TEST(amount_meant_by("7 grams", "mg or g") == "7 g");
}

BOOST_AUTO_TEST_CASE(every_mistake_of_a_number_has_words_of_its_own) {
  std::set<std::string> words;
  for (int i = 0; i <= static_cast<int>(NumberMistake::bare_mark); ++i) {
    const std::string text = words_from_mistake(static_cast<NumberMistake>(i));
    BOOST_TEST(!text.empty());
    BOOST_TEST(words.insert(text).second);
  }
}

BOOST_AUTO_TEST_SUITE_END()
