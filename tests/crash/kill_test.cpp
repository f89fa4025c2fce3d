#define BOOST_TEST_DYN_LINK
#include <signal.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <boost/test/data/test_case.hpp>
#include <boost/test/unit_test.hpp>
#include <chrono>
#include <cstdlib>
#include <filesystem>
#include <iostream>
#include <random>
#include <thread>

#include "journal/journal.hpp"

using namespace rushlight;

namespace {

// The writer as a second process. What it printed is what it acknowledged.
class Writer {
 public:
  explicit Writer(const std::string& path) {
    int ends[2];
    if (pipe(ends) != 0) std::abort();
    pid_ = fork();
    if (pid_ == 0) {
      dup2(ends[1], STDOUT_FILENO);
      close(ends[0]);
      close(ends[1]);
      execl(RUSHLIGHT_CRASH_WRITER, "crash_writer", path.c_str(), static_cast<char*>(nullptr));
      _exit(127);
    }
    close(ends[1]);
    from_ = ends[0];
  }
  Writer(const Writer&) = delete;
  Writer& operator=(const Writer&) = delete;
  ~Writer() { close(from_); }

  // The writer must still be at work when it is killed. Gives the last acknowledged number, -1 for none.
  std::int64_t kill_and_count() {
    kill(pid_, SIGKILL);
    int how = 0;
    waitpid(pid_, &how, 0);
    BOOST_REQUIRE_MESSAGE(WIFSIGNALED(how) && WTERMSIG(how) == SIGKILL, "the writer ended by itself");
    std::string printed;
    char piece[4096];
    for (ssize_t size = read(from_, piece, sizeof piece); size > 0; size = read(from_, piece, sizeof piece)) {
      printed.append(piece, static_cast<std::size_t>(size));
    }
    const auto end = printed.rfind('\n');
    if (end == std::string::npos) return -1;
    const auto begin = printed.rfind('\n', end - 1);
    return std::atoll(printed.c_str() + (end == 0 || begin == std::string::npos ? 0 : begin + 1));
  }

 private:
  pid_t pid_ = 0;
  int from_ = 0;
};

struct Where {
  const char* folder;
  int kills;
  unsigned longest;  // a writer's life in microseconds, at most
};
std::ostream& operator<<(std::ostream& out, const Where& where) {
  return out << where.kills << " kills in " << where.folder;
}
// In memory a write takes microseconds, so that kills meet every part of it; on the disk most of them meet the sync.
const Where kWhere[] = {{"/dev/shm", 200, 60000}, {"/tmp", 40, 400000}};

}  // namespace

BOOST_AUTO_TEST_SUITE(a_walk_that_is_killed)

BOOST_DATA_TEST_CASE(every_acknowledged_event_is_there_after_a_kill_at_any_moment, kWhere) {
  std::string folder = std::string(access(sample.folder, W_OK) == 0 ? sample.folder : "/tmp") + "/rushlight-XXXXXX";
  BOOST_REQUIRE(mkdtemp(folder.data()) != nullptr);
  const std::string path = folder + "/journal.db";
  const std::uint64_t seed = std::random_device{}();
  std::cout << "kill: seed " << seed << std::endl;
  std::mt19937_64 chance(seed);

  int unfinished = 0;
  int one_more = 0;
  std::int64_t most = 0;
  std::int64_t before = 0;
  unsigned longest = sample.longest;
  for (int round = 0; round < sample.kills; ++round) {
    // Every tenth begins a journal of its own, so that kills also meet its making.
    if (round % 10 == 0) {
      std::filesystem::remove_all(folder);
      before = 0;
      if (round > 0 && most == 0) longest *= 3;  // a machine so busy that no writer comes to its first event
    }
    const auto moment = std::chrono::microseconds(chance() % (round % 3 == 0 ? longest / 15 : longest));
    std::int64_t acknowledged = 0;
    {
      Writer writer(path);
      std::this_thread::sleep_for(moment);
      acknowledged = writer.kill_and_count() + 1;
    }
    acknowledged = std::max(acknowledged, before);
    unfinished += std::filesystem::exists(path + "-journal");

    auto opened = Journal::open(path);
    BOOST_REQUIRE_MESSAGE(opened.value,
                          "round " << round << ": " << (opened.value ? "" : sentence(opened.findings.at(0).kind)));
    auto open = opened.value->open_episode_of("Wren");
    BOOST_REQUIRE(open.value);
    std::int64_t found = 0;
    if (*open.value) {
      const auto lines = opened.value->lines_of((**open.value).number);
      BOOST_REQUIRE(lines.value);
      for (const auto& line : *lines.value) BOOST_REQUIRE_EQUAL(line, "event " + std::to_string(found++));
    }
    BOOST_REQUIRE_MESSAGE(found == acknowledged || found == acknowledged + 1,
                          "round " << round << ": " << acknowledged << " acknowledged, " << found << " found");
    one_more += found - acknowledged == 1;
    before = found;
    most = std::max(most, found);
  }
  std::cout << sample << ": " << unfinished << " in the middle of a write, " << one_more
            << " between the write and its acknowledgement, up to " << most << " events in one journal\n";
  std::filesystem::remove_all(folder);
  BOOST_TEST(most > 0);
}

BOOST_AUTO_TEST_SUITE_END()
