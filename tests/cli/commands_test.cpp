#include <algorithm>
#include <boost/test/data/monomorphic.hpp>
#include <boost/test/data/test_case.hpp>
#include <boost/test/unit_test.hpp>
#include <ostream>

#include "cli/first_aid_card.hpp"
#include "cli/plain_text.hpp"
#include "cli/program.hpp"

namespace rushlight::tests {

namespace {

struct Case {
  std::vector<std::string> words;
  int status;
};
std::ostream& operator<<(std::ostream& out, const Case& one) {
  for (const std::string& word : one.words) out << word << ' ';
  return out << "-> " << one.status;
}

const std::string kTree = RUSHLIGHT_SOURCE_DIR;
const Case kStatuses[] = {
    {{"--help"}, 0},
    {{"--version"}, 0},
    {{"walk", "--help"}, 0},
    {{"no-such-command"}, 2},
    {{"walk", "--no-such-option"}, 2},
    {{"walk", "--json", "--lang", "fr"}, 2},
    {{"check"}, 2},
    {{"check", "/no/such/file.xml"}, 2},
    {{"check", kTree + "/protocols/reference"}, 0},
    {{"check", kTree + "/protocols/harbour-lane"}, 0},
    {{"check", kTree + "/protocols/demo-child.json"}, 0},
    {{"check", kTree + "/tests/findings/bad/child/pounds-as-kilograms.json"}, 1},
    {{"check", kTree + "/tests/findings/bad/protocol/unknown-attribute.xml"}, 1},
    {{"walk", "--json", "--child", "/no/such/child.json"}, 2},
    {{"walk", "--json", "--child", kTree + "/tests/findings/bad/child/pounds-as-kilograms.json"}, 1},
    {{"walk", "--json", "--protocol", "lwo"}, 1},
    {{"walk", "--json", "--set", "no-such-set"}, 1},
    {{"walk", "--json", "--protocols", "/no/such/folder"}, 2},
    {{"walk", "--json", "--protocols", kTree + "/protocols/harbour-lane"}, 0},
    {{"walk", "--json", "--protocols", kTree + "/protocols"}, 0},
    {{"walk"}, 2},  // no child file yet
};

bool has_digit(const std::string& text) { return text.find_first_of("0123456789") != std::string::npos; }

}  // namespace

BOOST_AUTO_TEST_SUITE(commands)

BOOST_DATA_TEST_CASE(command_ends_with_its_exit_status, boost::unit_test::data::make(kStatuses), one) {
  const Run run = run_program(one.words);
  BOOST_TEST(run.status == one.status, run.out << run.err);
}

BOOST_AUTO_TEST_CASE(help_and_manual_of_compare_say_what_its_own_exit_statuses_mean) {
  for (const std::vector<std::string>& words : {std::vector<std::string>{"compare", "--help"}, {"man", "compare"}}) {
    const Run run = run_program(words);
    for (const char* told :
         {"nothing changes", "something changes, or the search was given up", "one of them cannot be read or compared"})
      BOOST_TEST(run.out.find(told) != std::string::npos, told << run.out);
    BOOST_TEST(run.out.find("a rule refused it") == std::string::npos, run.out);
  }
}

BOOST_AUTO_TEST_CASE(finding_is_shown_with_its_line_and_a_caret) {
  const Run run = run_program({"check", kTree + "/tests/findings/bad/child/pounds-as-kilograms.json"});
  BOOST_TEST(run.out.find("pounds-as-kilograms.json:4:14: error: ") != std::string::npos, run.out);
  BOOST_TEST(run.out.find("    4 |   \"weight\": \"46 kg\",\n      |              ^~~~~\n") != std::string::npos,
             run.out);
}

BOOST_AUTO_TEST_CASE(folder_without_a_protocol_names_the_folders_inside_that_have_one) {
  const Run run = run_program({"check", kTree + "/protocols"});
  BOOST_TEST(run.status == 2);
  BOOST_TEST(run.out.find("this folder holds no protocol (*.xml)") != std::string::npos, run.out);
  BOOST_TEST(run.out.find("`" + kTree + "/protocols/reference`") != std::string::npos, run.out);
  const Folder empty;
  const Run none = run_program({"check", empty.path("")});
  BOOST_TEST(none.out.find("this folder holds no protocol (*.xml)") != std::string::npos, none.out);
  BOOST_TEST(none.out.find("try") == std::string::npos, none.out);
}

BOOST_AUTO_TEST_CASE(summary_tells_when_mending_can_show_more_and_is_silent_about_what_there_is_none_of) {
  const auto last_line = [](const std::string& file) {
    return lines_of(run_program({"check", kTree + file}).out).back();
  };
  const std::string unread = "/tests/findings/bad/protocol/unknown-attribute.xml";
  BOOST_TEST(last_line(unread) == kTree + unread + ": 1 error; more can show once these are mended");
  const std::string checked = "/tests/findings/bad/sense/dead-rule.xml";
  BOOST_TEST(last_line(checked) == kTree + checked + ": 1 error");
}

BOOST_AUTO_TEST_CASE(refused_protocol_leaves_nobody_alone) {
  const Folder folder;
  folder.write("low.xml", file_in_tree("tests/findings/bad/protocol/unknown-attribute.xml"));
  const Run run = run_program({"walk", "--json", "--protocols", folder.path("")});
  BOOST_TEST(run.status == 1);
  BOOST_TEST(run.err.find("low.xml:") < run.err.find("FIRST AID"));
  BOOST_TEST(run.err.find("error: ") != std::string::npos);
  BOOST_TEST(run.err.find("rushlight check ") != std::string::npos);
}

BOOST_AUTO_TEST_CASE(card_is_in_one_language_and_offers_the_other_in_one_line) {
  const Run run = run_program({"walk"});
  BOOST_TEST(run.err.find("FIRST AID") != std::string::npos);
  BOOST_TEST(run.err.find("PRIMEROS AUXILIOS") == std::string::npos);
  BOOST_TEST(lines_of(run.err).back() == "En español: rushlight walk --lang es");
}

BOOST_AUTO_TEST_CASE(reason_and_card_fit_a_screen_of_24_rows) {
  const Folder folder;
  folder.write("child.json", "{\"name\": \"Ada\", \"langage\": \"es\", \"wieght\": \"21 kg\"}");
  folder.write("low.xml", file_in_tree("tests/findings/bad/protocol/unknown-attribute.xml"));
  for (const std::vector<std::string>& words : {std::vector<std::string>{"walk"},
                                                {"walk", "--child", folder.path("child.json")},
                                                {"walk", "--demo-child", "--protocols", folder.path("")}}) {
    for (const char* language : {"en", "es"}) {
      std::vector<std::string> spoken = words;
      spoken.insert(spoken.end(), {"--lang", language});
      const Run run = run_program(spoken);
      std::size_t rows = 1;  // the prompt that comes after it
      for (const std::string& line : lines_of(run.err)) {
        rows += std::max<std::size_t>(1, (static_cast<std::size_t>(columns_of(line)) + 79) / 80);
      }
      BOOST_TEST(rows <= 24U, rows << " rows:\n" << run.err);
    }
  }
}

BOOST_AUTO_TEST_CASE(first_aid_card_holds_no_number_in_any_language) {
  for (int i = 0; i < kLanguages; ++i) BOOST_TEST(!has_digit(first_aid_card(static_cast<Language>(i))));
}

BOOST_AUTO_TEST_CASE(card_speaks_by_the_option_then_the_child_file_then_the_machine) {
  const Folder folder;
  folder.write("child.json", "{\"name\": \"Ada\", \"language\": \"es\", \"wieght\": \"21 kg\"}");
  folder.write("no-child.json", "not a child at all");
  const std::string child = folder.path("child.json"), none = folder.path("no-child.json");
  const auto speaks_spanish = [](const std::vector<std::string>& words, const char* machine) {
    return run_program(words, "", {std::string("LANG=") + machine}).err.find("PRIMEROS AUXILIOS") != std::string::npos;
  };
  BOOST_TEST(!speaks_spanish({"walk", "--child", child, "--lang", "en"}, "es_MX.UTF-8"));
  BOOST_TEST(speaks_spanish({"walk", "--child", child}, "en_US.UTF-8"));
  BOOST_TEST(speaks_spanish({"walk", "--child", none}, "es_MX.UTF-8"));
  BOOST_TEST(!speaks_spanish({"walk", "--child", none}, "C.UTF-8"));
}

BOOST_AUTO_TEST_CASE(child_file_without_an_emergency_number_is_warned_about) {
  const Folder folder;
  std::string child = file_in_tree("protocols/demo-child.json");
  folder.write("without.json", child);
  const Run without = run_program({"check", folder.path("without.json")});
  BOOST_TEST(without.status == 0);
  BOOST_TEST(without.out.find("warning: no emergency number is in the child file") != std::string::npos, without.out);
  const std::string contacts = "\"contacts\": {";
  folder.write("with.json",
               child.replace(child.find(contacts), contacts.size(), contacts + "\"emergency\": \"555 0999\","));
  BOOST_TEST(run_program({"check", folder.path("with.json")}).out == folder.path("with.json") + ": 0 errors\n");
}

BOOST_AUTO_TEST_CASE(text_of_a_file_never_steers_the_terminal) {
  const Folder folder;
  folder.write("child.json", "{\"name\": \"A\x1b[2J\"}");
  const Run run = run_program({"check", folder.path("child.json")});
  BOOST_TEST(run.status == 1);
  BOOST_TEST((run.out + run.err).find('\x1b') == std::string::npos);
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace rushlight::tests
