#include <boost/test/data/monomorphic.hpp>
#include <boost/test/data/test_case.hpp>
#include <boost/test/unit_test.hpp>
#include <iostream>
#include <sstream>

#include "cli/demo.hpp"
#include "cli/first_aid_card.hpp"
#include "cli/program.hpp"
#include "journal/journal.hpp"
#include "wire/kept_set.hpp"

// No face shows a protocol that has an error in it, whatever the error is and however the protocol came there.

namespace rushlight::tests {

namespace {

const std::string kChild = "Mika (practice)";  // of the demo child
const Moment kTwoAtNight = *moment_from_text("2026-03-01T02:10:00-05:00");

/// A sound file of the reference set with one rule that can never match put behind the last of its step.
std::string with_a_dead_rule(const std::string& file) {
  std::string text = file_in_tree("protocols/reference/" + file);
  const std::size_t end = text.find("</step>", text.find("<steps>"));
  const std::size_t rule = text.rfind("<rule ", end);
  const std::string last = text.substr(rule, end - rule);
  return text.replace(end, 0, last);
}

/// The reference set, one file of it with the error.
void write_set(const Folder& folder, const std::string& broken) {
  for (const char* file : {"low.xml", "ketones.xml", "illness.xml"}) {
    folder.write(file,
                 file == broken ? with_a_dead_rule(file) : file_in_tree(std::string("protocols/reference/") + file));
  }
}

bool has_card(const std::string& text) { return text.find(first_aid_card(Language::en)) != std::string::npos; }

const std::string kFaces[] = {
    "", "--plain", "--json", "--from 02:10", "--no-journal", "--protocol low", "--json --protocol low"};
const std::string kFiles[] = {"low.xml", "ketones.xml", "illness.xml"};

std::vector<std::string> walk_of(const std::string& options, const std::string& folder) {
  std::vector<std::string> words{"walk", "--demo-child", "--protocols", folder};
  std::istringstream more(options);
  for (std::string word; more >> word;) words.push_back(word);
  return words;
}

}  // namespace

BOOST_AUTO_TEST_SUITE(refused_protocol)

BOOST_DATA_TEST_CASE(every_face_of_the_walk_refuses_a_set_with_an_error_in_any_file_and_shows_the_card,
                     boost::unit_test::data::make(kFaces) * boost::unit_test::data::make(kFiles), face, broken) {
  const Folder folder;
  write_set(folder, broken);
  const Run run = run_program(walk_of(face, folder.path("")), "1\n");
  BOOST_TEST(run.status == 1);
  BOOST_TEST(run.err.find(broken + ":") != std::string::npos, run.err);
  BOOST_TEST(run.err.find("can never match") != std::string::npos, run.err);
  BOOST_TEST(has_card(run.err), run.err);
  BOOST_TEST(run.out.find("\"step\"") == std::string::npos, run.out);
  BOOST_TEST(run.out.find("Mika") == std::string::npos, run.out);
}

BOOST_AUTO_TEST_CASE(set_that_the_child_file_names_is_refused_the_same) {
  const Folder folder;
  write_set(folder, "low.xml");
  std::string child = file_in_tree("protocols/demo-child.json");
  const std::string set = "\"set\": \"reference\"";
  child.replace(child.find(set), set.size(), "\"protocols\": \".\"");
  folder.write("child.json", child);
  const Run run = run_program({"walk", "--child", folder.path("child.json")}, "1\n");
  BOOST_TEST(run.status == 1);
  BOOST_TEST(has_card(run.err), run.err);
}

BOOST_AUTO_TEST_CASE(night_kept_with_a_protocol_that_is_refused_today_is_not_gone_on_with) {
  const Folder folder;
  {
    auto journal = Journal::open(folder.path("kept"));
    BOOST_REQUIRE(journal.value);
    const Walker nobody{};
    auto claimed = journal.value->claim(kChild, nobody);
    const Claim claim = std::get<Claimed>(claimed).claim;
    const std::string kept = text_from_kept({{"low.xml", with_a_dead_rule("low.xml")}});
    auto number = journal.value->begin_episode(
        claim, {kChild, kTwoAtNight, "reference", "low", "1", kept, file_in_tree("protocols/demo-child.json")});
    BOOST_REQUIRE(std::holds_alternative<EpisodeNumber>(number));
    journal.value->release(claim);
  }
  for (const char* face : {"--json", "--plain"}) {
    const Run run = run_program({"walk", "--demo-child", "--journal", folder.path("kept"), face}, "1\n");
    BOOST_TEST(run.status == 1, run.out << run.err);
    BOOST_TEST(has_card(run.out + run.err), run.out << run.err);  // the terminal's own question stands below it
    BOOST_TEST(run.out.find("TREAT HERE") == std::string::npos, run.out);
  }
}

BOOST_AUTO_TEST_CASE(demo_of_a_refused_set_is_the_card) {
  const ProtocolSet set = set_of_files({{"low.xml", with_a_dead_rule("low.xml")}});
  std::ostringstream said;
  std::streambuf* before = std::cerr.rdbuf(said.rdbuf());
  const int status = demo(Language::en, set);
  std::cerr.rdbuf(before);
  BOOST_TEST(status == 1);
  BOOST_TEST(said.str().find("can never match") != std::string::npos, said.str());
  BOOST_TEST(has_card(said.str()), said.str());
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace rushlight::tests
