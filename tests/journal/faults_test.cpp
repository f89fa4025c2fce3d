#define BOOST_TEST_DYN_LINK
#include <algorithm>
#include <boost/test/data/test_case.hpp>
#include <boost/test/unit_test.hpp>
#include <filesystem>
#include <functional>
#include <iostream>

#include "journal/kept.hpp"
#include "journal/test_disk.hpp"

using namespace rushlight;
using namespace rushlight::kept;
using Fault = TestDisk::Fault;
using Why = SaveFailed::Why;

namespace {

constexpr std::int64_t kEvents = 5;
constexpr std::uint64_t kRounds = tests::kSanitized ? 3 : 12;

struct Row {
  Fault fault;
  bool for_ever;
  const char* name;
};
std::ostream& operator<<(std::ostream& out, const Row& row) { return out << row.name; }
const Row kFaults[] = {
    {Fault::disk_full, false, "disk full, once"},   {Fault::disk_full, true, "disk full, for ever"},
    {Fault::torn_write, false, "torn write, once"}, {Fault::torn_write, true, "torn write, for ever"},
    {Fault::device, false, "device fails, once"},   {Fault::device, true, "device fails, for ever"}};

const Row kFaultsOnce[] = {kFaults[0], kFaults[2], kFaults[4]};

struct Started {
  Folder folder;
  std::string path = folder.file();
  Files whole;
  Walk walk{};
  Started() {
    TestDisk::heal();
    Journal journal = opened(path);
    walk = walk_with(journal, kEvents);
    whole = files_at(path);
  }
};

// Runs `write` on a fresh copy with the 1st call failing, then the 2nd ..., until it meets no fault. After each fault,
// what `acknowledged_or_before` says of the reopened journal must hold.
long faults_of(const Started& start, const Row& row, const std::function<bool(Journal&)>& write,
               const std::function<bool(const Journal&, bool acknowledged)>& holds) {
  long met = 0;
  for (long nth = 1;; ++nth) {
    put_files(start.path, start.whole);
    TestDisk::heal();
    bool acknowledged = false;
    long now = 0;
    {
      Journal journal = opened(start.path, TestDisk::kName);
      TestDisk::order(row.fault, nth, row.for_ever);
      acknowledged = write(journal);
      now = TestDisk::faults_met();
    }
    TestDisk::heal();
    const Journal reopened = opened(start.path);
    BOOST_REQUIRE_MESSAGE(holds(reopened, acknowledged), row << ", call " << nth << ", acknowledged: " << acknowledged);
    if (now == 0) {
      BOOST_REQUIRE(acknowledged);
      return met;
    }
    ++met;
  }
}

bool has_events(const Journal& journal, std::int64_t count) {
  const auto read = journal.lines_of(EpisodeNumber{1});
  return read.value && *read.value == lines(count);
}

bool seen(const std::vector<Files>& earlier, const Files& files) {
  return std::any_of(earlier.begin(), earlier.end(), [&files](const Files& one) { return same_point(one, files); });
}

}  // namespace

BOOST_AUTO_TEST_SUITE(a_disk_that_fails)

BOOST_DATA_TEST_CASE(an_acknowledged_event_is_kept_and_no_event_is_torn, kFaults) {
  const Started start;
  const long met = faults_of(
      start, sample,
      [&](Journal& journal) { return !journal.append(start.walk.claim, start.walk.episode, kEvents, line(kEvents)); },
      [](const Journal& journal, bool acknowledged) {
        return has_events(journal, kEvents + 1) || (!acknowledged && has_events(journal, kEvents));
      });
  std::cout << sample << ": " << met << " faults while appending\n";
  BOOST_TEST(met > 2);
}

BOOST_DATA_TEST_CASE(the_same_save_said_again_after_a_fault_succeeds, kFaultsOnce) {
  const Started start;
  for (long nth = 1;; ++nth) {
    put_files(start.path, start.whole);
    TestDisk::heal();
    Journal journal = opened(start.path, TestDisk::kName);
    TestDisk::order(sample.fault, nth, false);
    const auto first = journal.append(start.walk.claim, start.walk.episode, kEvents, line(kEvents));
    const bool met = TestDisk::faults_met() > 0;
    TestDisk::heal();
    const auto again = journal.append(start.walk.claim, start.walk.episode, kEvents, line(kEvents));
    BOOST_REQUIRE_MESSAGE(!again, "call " << nth << ": " << (again ? again->detail : ""));
    BOOST_REQUIRE(!journal.append(start.walk.claim, start.walk.episode, kEvents + 1, line(kEvents + 1)));
    BOOST_REQUIRE(has_events(journal, kEvents + 2));
    if (!met) break;
  }
}

BOOST_AUTO_TEST_CASE(a_full_disk_is_named_and_an_earlier_night_stays_readable) {
  const Started start;
  Journal journal = opened(start.path, TestDisk::kName);
  TestDisk::order(Fault::disk_full, 1, true);
  for (int tries = 0; tries < 3; ++tries) {
    const auto failed = journal.append(start.walk.claim, start.walk.episode, kEvents, line(kEvents));
    BOOST_REQUIRE(failed);
    BOOST_CHECK_MESSAGE(failed->why == Why::disk_full, failed->detail);
  }
  BOOST_CHECK(has_events(journal, kEvents));
  TestDisk::heal();
}

BOOST_AUTO_TEST_CASE(a_journal_that_can_only_be_read_is_resumed_from_and_says_it_saves_nothing) {
  const Started start;
  TestDisk::order(Fault::read_only, 1, true);
  Journal journal = opened(start.path, TestDisk::kName);
  BOOST_CHECK(has_events(journal, kEvents));
  const auto failed = journal.append(start.walk.claim, start.walk.episode, kEvents, line(kEvents));
  BOOST_REQUIRE(failed);
  BOOST_CHECK_MESSAGE(failed->why == Why::read_only, failed->detail);
  TestDisk::heal();
}

BOOST_DATA_TEST_CASE(an_episode_begins_whole_or_not_at_all, kFaults) {
  const Started start;
  EpisodeStart next = start_of("Wren");
  next.version = "2";
  next.protocol_bytes += "other";
  const long met = faults_of(
      start, sample,
      [&](Journal& journal) {
        return std::holds_alternative<EpisodeNumber>(journal.begin_episode(start.walk.claim, next));
      },
      [&](const Journal& journal, bool acknowledged) {
        const auto open = journal.open_episode_of("Wren");
        const auto& version = (**open.value).start.version;
        const bool whole = version == "2" && (**open.value).start.protocol_bytes == next.protocol_bytes;
        return has_events(journal, kEvents) && (whole || (!acknowledged && version == "1"));
      });
  std::cout << sample << ": " << met << " faults while an episode begins\n";
  BOOST_TEST(met > 2);
}

BOOST_DATA_TEST_CASE(a_takeover_happens_or_does_not, kFaults) {
  const Started start;
  const long met = faults_of(
      start, sample,
      [&](Journal& journal) { return std::holds_alternative<Claimed>(journal.take_over("Wren", walker())); },
      [&](const Journal& journal, bool) { return has_events(journal, kEvents); });
  BOOST_TEST(met > 2);
}

BOOST_DATA_TEST_CASE(an_episode_closes_or_stays_open, kFaults) {
  const Started start;
  const long met = faults_of(
      start, sample,
      [&](Journal& journal) { return !journal.close_episode(start.walk.claim, start.walk.episode, kTwoAtNight); },
      [&](const Journal& journal, bool acknowledged) {
        const bool open = journal.open_episode_of("Wren").value->has_value();
        return has_events(journal, kEvents) && !(acknowledged && open);
      });
  BOOST_TEST(met > 2);
}

BOOST_DATA_TEST_CASE(a_new_journal_is_made_whole_or_not_at_all, kFaults) {
  long met = 0;
  for (long nth = 1;; ++nth) {
    const Folder folder;
    TestDisk::order(sample.fault, nth, sample.for_ever);
    Journal::Options options;
    options.disk = TestDisk::kName;
    options.patience = 0;
    const bool made = Journal::open(folder.file(), options).value.has_value();
    const long now = TestDisk::faults_met();
    TestDisk::heal();
    std::size_t files = 0;
    for (const auto& entry : std::filesystem::directory_iterator(folder.path())) files += entry.is_regular_file();
    BOOST_REQUIRE_MESSAGE(files <= 1, "call " << nth << " leaves " << files << " files");
    BOOST_REQUIRE_MESSAGE(refusal(folder.file()) == "", "call " << nth);
    if (now == 0) {
      BOOST_REQUIRE(made);
      break;
    }
    ++met;
  }
  std::cout << sample << ": " << met << " faults while a journal is made\n";
  BOOST_TEST(met > 2);
}

BOOST_DATA_TEST_CASE(a_fault_while_an_unfinished_write_is_undone_loses_nothing, kFaults) {
  const Started start;
  long met = 0;
  std::vector<Files> unfinished;
  for (long ends_at = 1;; ++ends_at) {
    put_files(start.path, start.whole);
    TestDisk::heal();
    Files left;
    {
      Journal journal = opened(start.path, TestDisk::kName);
      TestDisk::order(Fault::device, ends_at, true);
      if (!journal.append(start.walk.claim, start.walk.episode, kEvents, line(kEvents))) break;
      left = files_at(start.path);
    }
    if (left.rollback.empty() || seen(unfinished, left)) continue;
    unfinished.push_back(left);
    for (long nth = 1;; ++nth) {
      put_files(start.path, left);
      TestDisk::order(sample.fault, nth, sample.for_ever);
      {
        Journal::Options options;
        options.disk = TestDisk::kName;
        options.patience = 0;
        auto read = Journal::open(start.path, options);
        if (read.value) read.value->append(start.walk.claim, start.walk.episode, kEvents, line(kEvents));
      }
      const long now = TestDisk::faults_met();
      TestDisk::heal();
      const Journal reopened = opened(start.path);
      BOOST_REQUIRE_MESSAGE(has_events(reopened, kEvents) || has_events(reopened, kEvents + 1), ends_at << "/" << nth);
      if (now == 0) break;
      ++met;
    }
  }
  TestDisk::heal();
  std::cout << sample << ": " << met << " faults while " << unfinished.size() << " unfinished writes are undone\n";
  BOOST_TEST(unfinished.size() > 3U);
  BOOST_TEST(met > 10);
}

BOOST_AUTO_TEST_CASE(the_plug_pulled_at_any_call_loses_no_acknowledged_event) {
  const Started start;
  const std::uint64_t seed = 20260301;
  std::cout << "plug: seed " << seed << "\n";
  long plugs = 0;
  for (std::uint64_t round = 0; round < kRounds; ++round) {
    for (long nth = 1;; ++nth) {
      put_files(start.path, start.whole);
      TestDisk::heal();
      std::int64_t acknowledged = kEvents;
      long now = 0;
      {
        Journal journal = opened(start.path, TestDisk::kName);
        TestDisk::watch_syncs(start.path);
        TestDisk::order(Fault::device, nth, true);
        while (acknowledged < kEvents + 3 &&
               !journal.append(start.walk.claim, start.walk.episode, acknowledged, line(acknowledged)))
          ++acknowledged;
        now = TestDisk::faults_met();
      }
      TestDisk::heal();
      TestDisk::pull_the_plug(start.path, seed + round * 1000 + static_cast<std::uint64_t>(nth));
      const Journal reopened = opened(start.path);
      BOOST_REQUIRE_MESSAGE(has_events(reopened, acknowledged) || has_events(reopened, acknowledged + 1),
                            "round " << round << ", call " << nth << ", acknowledged " << acknowledged);
      ++plugs;
      if (now == 0) break;
    }
  }
  std::cout << "plug pulled " << plugs << " times\n";
  BOOST_TEST(plugs > static_cast<long>(40 * kRounds));
}

BOOST_AUTO_TEST_SUITE_END()
