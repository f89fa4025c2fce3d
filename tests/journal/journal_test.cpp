#define BOOST_TEST_DYN_LINK
#include <boost/test/unit_test.hpp>

#include "journal/kept.hpp"

using namespace rushlight;
using namespace rushlight::kept;
using Why = SaveFailed::Why;

BOOST_AUTO_TEST_SUITE(journal)

BOOST_AUTO_TEST_CASE(what_was_acknowledged_is_read_back_in_order_after_reopening) {
  const Folder folder;
  {
    Journal journal = opened(folder.file());
    walk_with(journal, 30);
  }
  BOOST_TEST(lines_at(folder.file()) == lines(30), boost::test_tools::per_element());
}

BOOST_AUTO_TEST_CASE(an_open_episode_is_found_with_the_bytes_it_began_with) {
  const Folder folder;
  {
    Journal journal = opened(folder.file());
    walk_with(journal, 3);
  }
  const Journal journal = opened(folder.file());
  const auto read = journal.open_episode_of("Wren");
  BOOST_REQUIRE(read.value && *read.value);
  const EpisodeRecord& found = **read.value;
  const EpisodeStart start = start_of("Wren");
  BOOST_TEST(found.start.protocol_bytes == start.protocol_bytes);
  BOOST_TEST(found.start.child_bytes == start.child_bytes);
  BOOST_TEST(found.start.set == "reference");
  BOOST_TEST(found.start.protocol == "low");
  BOOST_TEST(found.start.version == "1");
  BOOST_CHECK(found.start.began == kTwoAtNight);
  BOOST_TEST(found.events == 3);
  BOOST_CHECK(!found.ended);
}

BOOST_AUTO_TEST_CASE(an_empty_protocol_and_child_file_are_kept_as_such) {
  const Folder folder;
  Journal journal = opened(folder.file());
  const Claim claim = std::get<Claimed>(journal.claim("Wren", walker())).claim;
  BOOST_REQUIRE(std::holds_alternative<EpisodeNumber>(
      journal.begin_episode(claim, {"Wren", kTwoAtNight, "s", "low", "1", "", ""})));
  BOOST_TEST((**journal.open_episode_of("Wren").value).start.protocol_bytes.empty());
  BOOST_TEST(refusal(folder.file()) == "");
}

BOOST_AUTO_TEST_CASE(a_closed_episode_is_not_resumed_and_takes_no_event) {
  const Folder folder;
  Journal journal = opened(folder.file());
  const Walk walk = walk_with(journal, 2);
  BOOST_REQUIRE(!journal.close_episode(walk.claim, walk.episode, kTwoAtNight));
  const auto refused = journal.append(walk.claim, walk.episode, 2, line(2));
  BOOST_REQUIRE(refused);
  BOOST_CHECK(refused->why == Why::out_of_step);
  BOOST_CHECK(!*journal.open_episode_of("Wren").value);
  BOOST_CHECK(!journal.close_episode(walk.claim, walk.episode, *moment_from_text("2026-03-01T05:00:00Z")));
  const auto all = journal.episodes_of("Wren");
  BOOST_REQUIRE_EQUAL(all.value->size(), 1U);
  BOOST_CHECK(all.value->front().ended == kTwoAtNight);
}

BOOST_AUTO_TEST_CASE(an_episode_left_open_ends_when_the_next_begins) {
  const Folder folder;
  Journal journal = opened(folder.file());
  const Walk first = walk_with(journal, 1);
  EpisodeStart next = start_of("Wren");
  next.began = *moment_from_text("2026-03-02T03:00:00-05:00");
  const auto second = journal.begin_episode(first.claim, next);
  BOOST_REQUIRE(std::holds_alternative<EpisodeNumber>(second));
  const auto all = journal.episodes_of("Wren");
  BOOST_REQUIRE_EQUAL(all.value->size(), 2U);
  BOOST_CHECK(!all.value->front().ended);
  BOOST_CHECK(all.value->back().ended == next.began);
  BOOST_TEST(refusal(folder.file()) == "");
}

BOOST_AUTO_TEST_CASE(the_same_protocol_on_many_nights_is_kept_once) {
  const Folder folder;
  Journal journal = opened(folder.file());
  const Walk first = walk_with(journal, 1);
  const auto before = bytes_of(folder.file()).size();
  for (int night = 0; night < 20; ++night)
    BOOST_REQUIRE(std::holds_alternative<EpisodeNumber>(journal.begin_episode(first.claim, start_of("Wren"))));
  BOOST_TEST(bytes_of(folder.file()).size() < before + start_of("Wren").protocol_bytes.size());
}

BOOST_AUTO_TEST_CASE(the_episodes_of_another_child_stay_apart) {
  const Folder folder;
  Journal journal = opened(folder.file());
  const Walk wren = walk_with(journal, 2);
  const Claim finch = std::get<Claimed>(journal.claim("Finch", walker())).claim;
  BOOST_CHECK(!*journal.open_episode_of("Finch").value);
  const auto refused = journal.append(finch, wren.episode, 2, line(2));
  BOOST_REQUIRE(refused);
  BOOST_CHECK(refused->why == Why::out_of_step);
  BOOST_CHECK(std::holds_alternative<SaveFailed>(journal.begin_episode(finch, start_of("Wren"))));
  BOOST_CHECK(!journal.append(wren.claim, wren.episode, 2, line(2)));
}

BOOST_AUTO_TEST_CASE(an_event_said_twice_is_kept_once) {
  const Folder folder;
  Journal journal = opened(folder.file());
  const Walk walk = walk_with(journal, 4);
  BOOST_CHECK(!journal.append(walk.claim, walk.episode, 3, line(3)));
  BOOST_CHECK(!journal.append(walk.claim, walk.episode, 0, line(0)));
  BOOST_TEST(lines_at(folder.file()) == lines(4), boost::test_tools::per_element());
}

BOOST_AUTO_TEST_CASE(another_event_under_a_number_that_is_taken_is_refused) {
  const Folder folder;
  Journal journal = opened(folder.file());
  const Walk walk = walk_with(journal, 4);
  for (const std::int64_t seq : {std::int64_t{-1}, std::int64_t{3}, std::int64_t{5}}) {
    const auto refused = journal.append(walk.claim, walk.episode, seq, "{\"other\":true}");
    BOOST_REQUIRE(refused);
    BOOST_CHECK(refused->why == Why::out_of_step);
  }
  BOOST_CHECK(journal.append(walk.claim, EpisodeNumber{7}, 0, line(0))->why == Why::out_of_step);
  BOOST_TEST(lines_at(folder.file()) == lines(4), boost::test_tools::per_element());
}

BOOST_AUTO_TEST_CASE(what_is_not_one_line_is_refused) {
  const Folder folder;
  Journal journal = opened(folder.file());
  const Walk walk = walk_with(journal, 0);
  for (const std::string& not_a_line : {std::string(), std::string("a\nb"), std::string("a\r"), std::string("a\0b", 3),
                                        std::string(kMostLineBytes + 1, 'x')}) {
    const auto refused = journal.append(walk.claim, walk.episode, 0, not_a_line);
    BOOST_REQUIRE(refused);
    BOOST_CHECK(refused->why == Why::not_a_line);
  }
  const std::string longest(kMostLineBytes, 'x');
  BOOST_CHECK(!journal.append(walk.claim, walk.episode, 0, longest));
  BOOST_CHECK(!journal.append(walk.claim, walk.episode, 1, "\xc3\xb1 \xff not utf-8"));
  BOOST_TEST(lines_at(folder.file())[0] == longest);
  BOOST_TEST(lines_at(folder.file())[1] == "\xc3\xb1 \xff not utf-8");
}

BOOST_AUTO_TEST_CASE(a_journal_deleted_while_it_is_open_says_gone_instead_of_keeping_nothing) {
  const Folder folder;
  Journal journal = opened(folder.file());
  const Walk walk = walk_with(journal, 1);
  std::remove(folder.file().c_str());
  const auto refused = journal.append(walk.claim, walk.episode, 1, line(1));
  BOOST_REQUIRE(refused);
  BOOST_CHECK_MESSAGE(refused->why == Why::gone, refused->detail);
}

BOOST_AUTO_TEST_CASE(two_open_journals_write_in_turn) {
  const Folder folder;
  Journal one = opened(folder.file());
  Journal other = opened(folder.file());
  const Walk walk = walk_with(one, 0);
  for (std::int64_t seq = 0; seq < 10; ++seq)
    BOOST_REQUIRE(!(seq % 2 == 0 ? one : other).append(walk.claim, walk.episode, seq, line(seq)));
  BOOST_TEST(lines_at(folder.file()) == lines(10), boost::test_tools::per_element());
}

BOOST_AUTO_TEST_SUITE_END()
