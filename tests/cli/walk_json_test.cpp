#include <sys/stat.h>

#include <boost/test/unit_test.hpp>
#include <nlohmann/json.hpp>

#include "cli/program.hpp"
#include "journal/journal.hpp"

namespace rushlight::tests {

namespace {

using Json = nlohmann::json;

std::string event(const std::string& time, const std::string& what) {
  return "{\"at\":\"2026-03-01T" + time + "-05:00\"," + what + "}\n";
}

std::vector<Json> views_of(const Run& run) {
  std::vector<Json> views;
  for (const std::string& line : lines_of(run.out)) views.push_back(Json::parse(line));
  return views;
}

const std::string kLow =
    event("02:10:00", R"("answer":{"awake":"yes","already-given":"no"})") +
    event("02:10:30", R"("answer":{"swallow":"yes","breathing-normally":"yes","reading-from":"meter",)"
                      R"("wrong-insulin":"no","seizure":"no","symptoms":"yes","glucose":"52 mg/dL"})") +
    event("02:11:00", R"("done":true)");

}  // namespace

BOOST_AUTO_TEST_SUITE(walk_json)

BOOST_AUTO_TEST_CASE(awake_child_at_52_is_told_7_g_of_sugar_and_when_to_check_again) {
  // 0.3 g/kg x 21 kg = 6.3 g, up to 7 g. Source: Indian Council of Medical Research 2022, 0.3 g of glucose for each kg.
  const Run run = run_program({"walk", "--json"}, kLow);
  BOOST_TEST(run.status == 0, run.err);
  const std::vector<Json> views = views_of(run);
  BOOST_REQUIRE_EQUAL(views.size(), 3u);
  const Json& treat = views[1];
  BOOST_TEST(treat["protocol"] == "low");
  bool found = false;
  for (const Json& action : treat["do"]) {
    if (action["kind"] != "by-mouth" || !action.contains("amount") || action["amount"].is_null()) continue;
    found = true;
    BOOST_TEST(action["amount"]["value"].dump() == "7");
    BOOST_TEST(action["amount"]["unit"] == "g");
  }
  BOOST_TEST(found, treat.dump(2));
  BOOST_TEST(views[2]["wait"]["until"] == "2026-03-01T02:26:00-05:00");
  BOOST_TEST(views[2]["waiting"] == true);
}

BOOST_AUTO_TEST_CASE(child_that_will_not_wake_is_an_emergency_at_once) {
  const Run run = run_program({"walk", "--json"}, event("02:10:00", R"("answer":{"awake":"no"})"));
  const std::vector<Json> views = views_of(run);
  BOOST_REQUIRE_EQUAL(views.size(), 1u);
  BOOST_TEST(views[0]["urgency"] == "emergency");
  for (const Json& action : views[0]["do"]) BOOST_TEST(action["kind"] != "by-mouth");
}

BOOST_AUTO_TEST_CASE(bad_line_gets_an_error_changes_nothing_and_the_next_line_goes_on) {
  const std::string first = event("02:10:00", R"("answer":{"awake":"yes","already-given":"no"})");
  const std::string bad = event("02:10:20", R"("answer":{"glucose":"7O"})");
  const std::string next = event("02:10:30", R"("answer":{"glucose":"52 mg/dL"})");
  const Run with = run_program({"walk", "--json"}, first + bad + "\n" + next);
  const Run without = run_program({"walk", "--json"}, first + next);
  const std::vector<std::string> answers = lines_of(with.out);
  BOOST_REQUIRE_EQUAL(answers.size(), 4u);
  BOOST_TEST(Json::parse(answers[1])["error"]["kind"] == "bad-number");
  BOOST_TEST(Json::parse(answers[1])["error"]["line"] == 2);
  BOOST_TEST(Json::parse(answers[2])["error"]["kind"] == "not-json");
  BOOST_TEST(answers[3] == lines_of(without.out).at(1));
  BOOST_TEST(with.status == 1);
  BOOST_TEST(without.status == 0);
}

BOOST_AUTO_TEST_CASE(outcome_of_an_action_that_is_not_shown_is_refused_with_the_actions_that_are) {
  const Run run = run_program({"walk", "--json"},
                              kLow + event("02:12:00", R"("done":{"action":"pause-again","outcome":"refused"})"));
  BOOST_TEST(run.status == 1);
  const std::vector<Json> views = views_of(run);
  BOOST_REQUIRE_EQUAL(views.size(), 4u);
  BOOST_REQUIRE(views[3].contains("error"));
  const std::string said = views[3]["error"].dump();
  for (const Json& action : views[2]["do"])
    BOOST_TEST(said.find(action["id"].get<std::string>()) != std::string::npos, said);
}

BOOST_AUTO_TEST_CASE(every_input_line_has_exactly_one_output_line) {
  std::string input;
  for (int i = 0; i < 200; ++i)
    input += i % 3 == 0 ? std::string(70'000, 'x') + "\n" : event("02:10:00", R"("tick":true)");
  input += "{\"no line end\":1";
  BOOST_TEST(lines_of(run_program({"walk", "--json"}, input).out).size() == 201u);
}

BOOST_AUTO_TEST_CASE(language_is_spanish_when_asked_for) {
  const Run run = run_program({"walk", "--json", "--lang", "es"}, event("02:10:00", R"("tick":true)"));
  BOOST_TEST(views_of(run).at(0)["language"] == "es");
}

BOOST_AUTO_TEST_CASE(walk_cut_in_two_with_a_journal_shows_the_same_views_as_one_walk) {
  const Folder folder;
  const std::string journal = folder.path("journal.db");
  const std::vector<std::string> events = lines_of(kLow);
  const std::vector<std::string> whole = lines_of(run_program({"walk", "--json"}, kLow).out);
  for (std::size_t i = 0; i < events.size(); ++i) {
    const Run part = run_program({"walk", "--json", "--journal", journal}, events[i] + "\n");
    BOOST_TEST(part.status == 0, part.err);
    Json view = Json::parse(part.out);
    BOOST_TEST(view["saved"] == true);
    view.erase("saved");
    BOOST_TEST(view == Json::parse(whole.at(i)));
  }
}

BOOST_AUTO_TEST_CASE(program_that_drives_a_walk_hears_in_one_line_why_it_cannot_begin) {
  const Folder folder;
  folder.write("low.xml", file_in_tree("tests/findings/bad/protocol/unknown-attribute.xml"));
  const std::string child = std::string(RUSHLIGHT_SOURCE_DIR) + "/tests/findings/bad/child/pounds-as-kilograms.json";
  const std::vector<std::pair<std::vector<std::string>, std::string>> refused = {
      {{"walk", "--json", "--protocols", folder.path("")}, "unknown-attribute"},
      {{"walk", "--json", "--child", child}, "implausible-value"},
      {{"walk", "--json", "--child", "/no/such/child.json"}, "not-readable"},
      {{"walk", "--json", "--protocol", "lwo"}, "unknown-id"}};
  for (const auto& [words, kind] : refused) {
    const std::vector<Json> lines = views_of(run_program(words, kLow));
    BOOST_REQUIRE_EQUAL(lines.size(), 1u);
    BOOST_TEST(lines[0]["error"]["kind"] == kind);
    BOOST_TEST(lines[0]["error"]["severity"] == "error");
  }
}

BOOST_AUTO_TEST_CASE(file_that_is_no_journal_is_refused_left_untouched_and_the_first_aid_card_stands_below) {
  const Folder folder;
  const std::string bytes = "this was never a journal";
  folder.write("journal.db", bytes);
  ::chmod(folder.path("journal.db").c_str(), 0600);
  const Run run = run_program({"walk", "--json", "--journal", folder.path("journal.db")}, kLow);
  BOOST_TEST(run.status == 1);
  const std::vector<Json> lines = views_of(run);
  BOOST_REQUIRE_EQUAL(lines.size(), 1u);
  BOOST_TEST(lines[0]["error"]["kind"] == "wrong-use");
  BOOST_TEST(run.err.find("this file is not a Rushlight journal") != std::string::npos);
  BOOST_TEST(run.err.find("FIRST AID") != std::string::npos);
  BOOST_TEST(folder.read("journal.db") == bytes);
}

BOOST_AUTO_TEST_CASE(sugar_of_the_night_before_is_told_to_the_next_whether_all_was_done_or_it_was_named) {
  for (const char* deed : {R"("done":true)", R"("done":{"action":"sugar-very-low","outcome":"given"})"}) {
    const Folder folder;
    const std::string path = folder.path("journal.db");
    const std::string before = kLow.substr(0, kLow.find(event("02:11:00", R"("done":true)"))) +
                               event("02:11:00", deed) + event("09:00:00", R"("abandon":{})");
    BOOST_REQUIRE_EQUAL(run_program({"walk", "--json", "--journal", path}, before).status, 0);
    const std::string next = R"({"at":"2026-03-02T02:00:00-05:00","answer":{"awake":"yes"}})";
    BOOST_REQUIRE_EQUAL(run_program({"walk", "--json", "--journal", path}, next + "\n").status, 0);
    const Read<Journal> journal = Journal::open(path);
    BOOST_REQUIRE(journal.value.has_value());
    const std::vector<EpisodeRecord> episodes = *journal.value->episodes_of("Mika (practice)").value;
    BOOST_REQUIRE_EQUAL(episodes.size(), 2u);
    const Json past = Json::parse(journal.value->lines_of(episodes.front().number).value->front())["past"];
    BOOST_TEST(past["treated"].dump() == R"(["2026-03-01T02:11:00-05:00"])", deed);
    BOOST_TEST(past["readings"].size() == 1u);
  }
}

BOOST_AUTO_TEST_CASE(night_that_was_ended_for_good_is_recorded_though_nobody_said_why) {
  for (const char* end : {R"("abandon":{"why":""})", R"("abandon":{})"}) {
    const Folder folder;
    const std::string path = folder.path("journal.db");
    BOOST_REQUIRE_EQUAL(run_program({"walk", "--json", "--journal", path}, kLow + event("09:00:00", end)).status, 0);
    folder.write("child.json", file_in_tree("protocols/demo-child.json"));
    const Run record = run_program({"record", "--text", "--child", folder.path("child.json"), "--journal", path});
    BOOST_TEST(record.status == 0, record.err);
    BOOST_TEST(record.out.find("Was closed by hand.") != std::string::npos, record.out);
  }
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace rushlight::tests
