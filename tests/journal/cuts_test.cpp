#define BOOST_TEST_DYN_LINK
#include <unistd.h>

#include <algorithm>
#include <boost/test/unit_test.hpp>
#include <iostream>

#include "journal/kept.hpp"
#include "journal/test_disk.hpp"

using namespace rushlight;
using namespace rushlight::kept;

namespace {

constexpr std::int64_t kEvents = 12;

// The journal as it lies there when the program ends in the middle of writing event 12: the n-th call and all later
// fail. Empty when the write got through.
std::optional<Files> files_after_a_write_that_ends_at(long nth, const Claim& claim, const Files& whole,
                                                      const std::string& path) {
  put_files(path, whole);
  std::optional<Files> left;
  {
    TestDisk::heal();
    Journal journal = opened(path, TestDisk::kName);
    TestDisk::order(TestDisk::Fault::device, nth, true);
    if (journal.append(claim, EpisodeNumber{1}, kEvents, line(kEvents))) left = files_at(path);
  }
  TestDisk::heal();
  if (left) put_files(path, *left);
  return left;
}

bool seen(const std::vector<Files>& earlier, const Files& files) {
  return std::any_of(earlier.begin(), earlier.end(), [&files](const Files& one) { return same_point(one, files); });
}

}  // namespace

BOOST_AUTO_TEST_SUITE(a_journal_cut_short)

BOOST_AUTO_TEST_CASE(a_journal_cut_at_any_length_is_refused_and_left_as_it_is) {
  const Folder folder;
  const std::string path = folder.file();
  {
    Journal journal = opened(path);
    walk_with(journal, kEvents);
  }
  const std::string whole = bytes_of(path);
  long cuts = 0;
  for (std::size_t length = whole.size(); length-- > 0; ++cuts) {
    BOOST_REQUIRE_EQUAL(truncate(path.c_str(), static_cast<off_t>(length)), 0);
    if (refusal(path) != "journal-damaged") BOOST_ERROR("cut to " << length << " bytes it opens");
    if (length % 97 == 0 && bytes_of(path) != whole.substr(0, length))
      BOOST_ERROR("cut to " << length << " it was changed");
  }
  std::cout << "journal cut at " << cuts << " lengths: all refused\n";
  write_bytes(path, whole);
  BOOST_TEST(lines_at(path) == lines(kEvents), boost::test_tools::per_element());
}

BOOST_AUTO_TEST_CASE(a_rollback_file_cut_at_any_length_is_refused_or_loses_no_acknowledged_event) {
  const Folder folder;
  const std::string path = folder.file();
  Claim claim;
  {
    Journal journal = opened(path);
    claim = walk_with(journal, kEvents).claim;
  }
  const Files whole = files_at(path);
  long cuts = 0;
  long refused = 0;
  std::vector<Files> unfinished;
  for (long nth = 1; auto left = files_after_a_write_that_ends_at(nth, claim, whole, path); ++nth) {
    if (left->rollback.empty() || seen(unfinished, *left)) continue;
    unfinished.push_back(*left);
    for (std::size_t length = 0; length <= left->rollback.size(); length += kStride * (length < 600 ? 3 : 23), ++cuts) {
      const Files cut{left->journal, left->rollback.substr(0, length)};
      put_files(path, cut);
      if (refusal(path) != "") {
        ++refused;
        if (files_at(path) != cut) BOOST_ERROR("refused, and changed, at " << length);
        continue;
      }
      const auto found = lines_at(path);
      if (found != lines(kEvents) && found != lines(kEvents + 1))
        BOOST_ERROR("cut to " << length << ": " << found.size() << " events");
    }
    put_files(path, *left);
    BOOST_TEST(lines_at(path) == lines(kEvents), boost::test_tools::per_element());
  }
  std::cout << "rollback files of " << unfinished.size() << " unfinished writes cut at " << cuts
            << " lengths: " << refused << " refused, the others whole\n";
  BOOST_TEST(unfinished.size() > 3U);
  BOOST_TEST(refused > static_cast<long>(100 / kStride));
}

BOOST_AUTO_TEST_CASE(a_rollback_file_that_changed_is_refused_or_loses_no_acknowledged_event) {
  const Folder folder;
  const std::string path = folder.file();
  Claim claim;
  {
    Journal journal = opened(path);
    claim = walk_with(journal, kEvents).claim;
  }
  const Files whole = files_at(path);
  Files last;
  for (long nth = 1; auto left = files_after_a_write_that_ends_at(nth, claim, whole, path); ++nth) {
    if (!left->rollback.empty()) last = *left;
  }
  BOOST_REQUIRE(!last.rollback.empty());
  long changes = 0;
  for (std::size_t at = 0; at < last.rollback.size(); at += 17, ++changes) {
    Files other = last;
    other.rollback[at] = static_cast<char>(other.rollback[at] ^ 0x10);
    put_files(path, other);
    if (refusal(path) != "") {
      if (files_at(path) != other) BOOST_ERROR("refused, and changed, at " << at);
      continue;
    }
    const auto found = lines_at(path);
    if (found != lines(kEvents) && found != lines(kEvents + 1))
      BOOST_ERROR("byte " << at << ": " << found.size() << " events");
  }
  BOOST_TEST(changes > 500);
}

BOOST_AUTO_TEST_SUITE_END()
