#define BOOST_TEST_DYN_LINK
#include <signal.h>
#include <sys/wait.h>
#include <unistd.h>

#include <boost/test/unit_test.hpp>

#include "journal/kept.hpp"

using namespace rushlight;
using namespace rushlight::kept;
using Why = SaveFailed::Why;

namespace {

// A second process that lives until it is told to end.
class OtherProcess {
 public:
  OtherProcess() {
    int ends[2];
    BOOST_REQUIRE_EQUAL(pipe(ends), 0);
    pid_ = fork();
    if (pid_ == 0) {
      const std::string born = this_walker(kTwoAtNight, "").born;
      if (write(ends[1], born.data(), born.size()) < 0) _exit(1);
      close(ends[1]);
      while (true) pause();
    }
    close(ends[1]);
    char letter = 0;
    std::string born;
    while (read(ends[0], &letter, 1) == 1) born += letter;
    close(ends[0]);
    walker = {pid_, born, *moment_from_text("2026-03-01T01:55:00-05:00"), "terminal 3"};
  }
  OtherProcess(const OtherProcess&) = delete;
  OtherProcess& operator=(const OtherProcess&) = delete;
  ~OtherProcess() { end(); }
  void end_uncollected() {
    kill(pid_, SIGKILL);
    siginfo_t ended;
    waitid(P_PID, static_cast<id_t>(pid_), &ended, WEXITED | WNOWAIT);
  }
  void end() {
    if (pid_ <= 0) return;
    kill(pid_, SIGKILL);
    waitpid(pid_, nullptr, 0);
    pid_ = 0;
  }
  Walker walker{};

 private:
  pid_t pid_ = 0;
};

}  // namespace

BOOST_AUTO_TEST_SUITE(two_walks_of_one_child)

BOOST_AUTO_TEST_CASE(the_second_walk_is_told_who_walks_and_since_when) {
  const Folder folder;
  Journal journal = opened(folder.file());
  OtherProcess other;
  BOOST_REQUIRE(std::holds_alternative<Claimed>(journal.claim("Wren", other.walker)));
  const auto second = journal.claim("Wren", walker());
  BOOST_REQUIRE(std::holds_alternative<HeldBy>(second));
  const Walker& holder = std::get<HeldBy>(second).walker;
  BOOST_TEST(holder.pid == other.walker.pid);
  BOOST_TEST(holder.who == "terminal 3");
  BOOST_TEST(text_from_moment(holder.since) == "2026-03-01T01:55:00-05:00");
}

BOOST_AUTO_TEST_CASE(after_a_takeover_the_first_walk_writes_nothing_and_hears_why) {
  const Folder folder;
  Journal first = opened(folder.file());
  Journal second = opened(folder.file());
  const Walk walk = walk_with(first, 3);
  const auto taken = second.take_over("Wren", walker());
  BOOST_REQUIRE(std::holds_alternative<Claimed>(taken));
  BOOST_REQUIRE(std::get<Claimed>(taken).before);
  BOOST_TEST(std::get<Claimed>(taken).before->pid == getpid());

  const Files before = files_at(folder.file());
  const auto append = first.append(walk.claim, walk.episode, 3, line(3));
  BOOST_REQUIRE(append);
  BOOST_CHECK(append->why == Why::taken_over);
  const auto close = first.close_episode(walk.claim, walk.episode, kTwoAtNight);
  BOOST_REQUIRE(close);
  BOOST_CHECK(close->why == Why::taken_over);
  const auto begin = first.begin_episode(walk.claim, start_of("Wren"));
  BOOST_REQUIRE(std::holds_alternative<SaveFailed>(begin));
  BOOST_CHECK(std::get<SaveFailed>(begin).why == Why::taken_over);
  BOOST_CHECK(!first.release(walk.claim));
  BOOST_CHECK(files_at(folder.file()) == before);

  BOOST_CHECK(!second.append(std::get<Claimed>(taken).claim, walk.episode, 3, "{\"taken\":\"over\"}"));
}

BOOST_AUTO_TEST_CASE(a_crashed_walk_holds_nothing) {
  const Folder folder;
  Journal journal = opened(folder.file());
  OtherProcess other;
  BOOST_REQUIRE(std::holds_alternative<Claimed>(journal.claim("Wren", other.walker)));
  other.end();
  const auto next = journal.claim("Wren", walker());
  BOOST_REQUIRE(std::holds_alternative<Claimed>(next));
  BOOST_REQUIRE(std::get<Claimed>(next).before);
  BOOST_TEST(std::get<Claimed>(next).before->who == "terminal 3");
}

BOOST_AUTO_TEST_CASE(a_walk_killed_but_not_yet_collected_holds_nothing) {
  OtherProcess other;
  BOOST_TEST(is_alive(other.walker));
  other.end_uncollected();
  BOOST_TEST(!is_alive(other.walker));
}

BOOST_AUTO_TEST_CASE(a_process_whose_start_nobody_wrote_down_counts_as_alive) {
  OtherProcess other;
  other.walker.born.clear();
  BOOST_TEST(is_alive(other.walker));
}

BOOST_AUTO_TEST_CASE(another_process_with_the_same_number_holds_nothing) {
  const Folder folder;
  Journal journal = opened(folder.file());
  Walker earlier = walker();
  BOOST_REQUIRE(!earlier.born.empty());
  BOOST_TEST(is_alive(earlier));
  earlier.born += "1";
  BOOST_REQUIRE(std::holds_alternative<Claimed>(journal.claim("Wren", earlier)));
  BOOST_CHECK(std::holds_alternative<Claimed>(journal.claim("Wren", walker())));
}

BOOST_AUTO_TEST_CASE(a_walk_before_the_machine_started_again_holds_nothing) {
  Walker earlier = walker();
  earlier.born = "00000000-0000-0000-0000-000000000000" + earlier.born.substr(earlier.born.find(' '));
  BOOST_TEST(!is_alive(earlier));
}

BOOST_AUTO_TEST_CASE(a_walk_that_let_go_leaves_nobody_to_ask) {
  const Folder folder;
  Journal journal = opened(folder.file());
  const Claim claim = std::get<Claimed>(journal.claim("Wren", walker())).claim;
  BOOST_REQUIRE(!journal.release(claim));
  const auto next = journal.claim("Wren", walker());
  BOOST_REQUIRE(std::holds_alternative<Claimed>(next));
  BOOST_CHECK(!std::get<Claimed>(next).before);
}

BOOST_AUTO_TEST_CASE(walks_of_two_children_do_not_meet) {
  const Folder folder;
  Journal journal = opened(folder.file());
  const Walk wren = walk_with(journal, 1);
  BOOST_CHECK(std::holds_alternative<Claimed>(journal.claim("Finch", walker())));
  BOOST_CHECK(!journal.append(wren.claim, wren.episode, 1, line(1)));
}

BOOST_AUTO_TEST_SUITE_END()
