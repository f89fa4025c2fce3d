#define BOOST_TEST_DYN_LINK
#include "journal/resume.hpp"

#include <signal.h>
#include <sys/wait.h>
#include <unistd.h>

#include <boost/test/unit_test.hpp>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <set>

#include "episode/view.hpp"
#include "read/resolved_from_xml.hpp"
#include "wire/child_from_json.hpp"
#include "wire/event_from_line.hpp"
#include "wire/json_from_view.hpp"
#include "wire/line_from_event.hpp"

using namespace rushlight;

namespace {

// A low with two treatments, a mistyped reading, a refusal, a call without an answer, another pair of hands and a clock
// that went back.
const std::vector<std::string> kNight = {
    R"({"at":"2026-03-01T02:10:00-05:00","answer":{"awake":"yes","already-given":"no"}})",
    R"({"at":"2026-03-01T02:11:00-05:00","answer":{"glucose":"52 mg/dL"}})",
    R"({"at":"2026-03-01T02:11:20-05:00","answer":{"reading-from":"meter"}})",
    R"({"at":"2026-03-01T02:12:00-05:00","done":{"action":"sugar","outcome":"refused"}})",
    R"({"at":"2026-03-01T02:12:30-05:00","answer":{"swallow":"yes"}})",
    R"({"at":"2026-03-01T02:14:00-05:00","done":true})",
    R"({"at":"2026-03-01T02:20:00-05:00","tick":true})",
    R"({"at":"2026-03-01T02:29:30-05:00","answer":{"glucose":"72 mg/dL"}})",
    R"({"at":"2026-03-01T02:29:50-05:00","correct":{"glucose":"62 mg/dL"}})",
    R"({"at":"2026-03-01T02:30:10-05:00","takeover":{"by":"Robin"}})",
    R"({"at":"2026-03-01T02:31:00-05:00","done":true})",
    R"({"at":"2026-03-01T02:05:00-05:00","tick":true})",
    R"({"at":"2026-03-01T02:46:30-05:00","answer":{"glucose":"58 mg/dL"}})",
    R"({"at":"2026-03-01T02:47:00-05:00","call":{"contact":"clinic","outcome":"no-answer"}})",
    R"({"at":"2026-03-01T02:50:00-05:00","worse":{"awake":"no"}})",
    R"({"at":"2026-03-01T02:51:00-05:00","done":true})",
};

std::string bytes_of(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
}

struct Night {
  std::string protocol_bytes, child_bytes;
  Protocol protocol;
  Child child;
  Moment began;
  std::vector<Event> events;
  std::vector<std::string> lines;  // as the journal keeps them
};

Night read_night(const std::string& protocol_bytes, const std::string& child_bytes) {
  const Moment began = *moment_from_text("2026-03-01T02:09:30-05:00");
  auto protocol = resolved_from_xml(protocol_bytes, "low.xml");
  BOOST_REQUIRE(protocol.value);
  auto child = child_from_json(child_bytes, "child.json", local_day_of(began));
  BOOST_REQUIRE(child.value);
  Night night{protocol_bytes, child_bytes, std::move(*protocol.value), std::move(*child.value), began, {}, {}};
  for (const std::string& line : kNight) {
    auto event = event_from_line(line, night.protocol, night.child);
    if (auto* findings = std::get_if<std::vector<Finding>>(&event))
      BOOST_FAIL(line << ": " << sentence(findings->at(0).kind));
    night.events.push_back(std::get<Event>(event));
    night.lines.push_back(line_from_event(night.events.back(), night.protocol));
  }
  return night;
}

// What a face shows at the event and once every wait has passed: the second tells a deadline that moved.
std::string shown(const Night& night, const Episode& episode, Moment at) {
  const Moment later{at.utc + std::chrono::minutes(40), at.offset};
  return json_from_view(view_of(night.protocol, night.child, episode, at)) + "\n" +
         json_from_view(view_of(night.protocol, night.child, episode, later));
}

// Another process takes the walk up, keeps one more event (none when `line` is null) and is killed.
void walk_on_and_be_killed(const std::string& path, const Night& night, const std::string* line) {
  const pid_t pid = fork();
  if (pid == 0) {
    auto journal = Journal::open(path);
    if (!journal.value) _exit(1);
    auto claimed = journal.value->claim(night.child.name, this_walker(night.began, ""));
    if (!std::holds_alternative<Claimed>(claimed)) _exit(2);
    const Claim claim = std::get<Claimed>(claimed).claim;
    if (line == nullptr) {
      const auto begun =
          journal.value->begin_episode(claim, {night.child.name, night.began, night.protocol.set, night.protocol.name,
                                               night.protocol.version, night.protocol_bytes, night.child_bytes});
      if (!std::holds_alternative<EpisodeNumber>(begun)) _exit(3);
    } else {
      const auto open = journal.value->open_episode_of(night.child.name);
      if (!open.value || !*open.value) _exit(4);
      if (journal.value->append(claim, (**open.value).number, (**open.value).events, *line)) _exit(5);
    }
    raise(SIGKILL);
  }
  int how = 0;
  waitpid(pid, &how, 0);
  BOOST_REQUIRE_MESSAGE(WIFSIGNALED(how), "the walk ended by itself with " << WEXITSTATUS(how));
}

}  // namespace

BOOST_AUTO_TEST_SUITE(a_walk_taken_up_again)

BOOST_AUTO_TEST_CASE(a_walk_killed_after_any_event_shows_what_it_would_have_shown) {
  std::string folder = "/tmp/rushlight-XXXXXX";
  BOOST_REQUIRE(mkdtemp(folder.data()) != nullptr);
  const std::string path = folder + "/journal.db";
  const std::string root = RUSHLIGHT_SOURCE_DIR;
  const Night night =
      read_night(bytes_of(root + "/protocols/reference/low.xml"), bytes_of(root + "/protocols/demo-child.json"));

  Episode uninterrupted = begun(night.protocol, night.child, night.began);
  std::set<std::string> different;
  for (std::size_t kept = 0; kept <= night.events.size(); ++kept) {
    walk_on_and_be_killed(path, night, kept == 0 ? nullptr : &night.lines[kept - 1]);
    const Moment at = kept == 0 ? night.began : night.events[kept - 1].at;
    if (kept > 0) uninterrupted = folded(night.protocol, night.child, std::move(uninterrupted), night.events[kept - 1]);

    auto journal = Journal::open(path);
    BOOST_REQUIRE(journal.value);
    const auto found = unfinished_episode(*journal.value, night.child.name);
    BOOST_REQUIRE(found.value && *found.value);
    const Unfinished& unfinished = **found.value;
    BOOST_REQUIRE_EQUAL(unfinished.lines.size(), kept);
    // Everything comes out of the journal: the protocol, the child and the beginning too.
    const Night again = read_night(unfinished.record.start.protocol_bytes, unfinished.record.start.child_bytes);
    const auto resumed =
        episode_from_lines(again.protocol, again.child, unfinished.record.start.began, unfinished.lines, path);
    BOOST_REQUIRE(resumed.value);
    const std::string expected = shown(night, uninterrupted, at);
    BOOST_TEST(shown(again, *resumed.value, at) == expected, "after event " << kept);
    different.insert(expected);
  }
  BOOST_TEST(different.size() >= 12U);  // a night on which nothing changed would show nothing
  std::filesystem::remove_all(folder);
}

BOOST_AUTO_TEST_CASE(a_line_that_is_no_event_of_the_protocol_is_refused_with_its_number) {
  const std::string root = RUSHLIGHT_SOURCE_DIR;
  const Night night =
      read_night(bytes_of(root + "/protocols/reference/low.xml"), bytes_of(root + "/protocols/demo-child.json"));
  std::vector<std::string> lines = night.lines;
  lines[4] = R"({"at":"2026-03-01T02:12:30-05:00","answer":{"weather":"yes"}})";
  const auto refused = episode_from_lines(night.protocol, night.child, night.began, lines, "journal.db");
  BOOST_CHECK(!refused.value);
  BOOST_REQUIRE(!refused.findings.empty());
  BOOST_TEST(refused.findings[0].where.line == 5U);
  BOOST_TEST(refused.findings[0].where.file.text() == "journal.db");
}

BOOST_AUTO_TEST_SUITE_END()
