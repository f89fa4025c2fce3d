#define BOOST_TEST_DYN_LINK
#include <sqlite3.h>

#include <boost/test/unit_test.hpp>
#include <filesystem>
#include <iostream>

#include "journal/kept.hpp"

using namespace rushlight;
using namespace rushlight::kept;

// docs/journal-format.md, "Each way the bytes can be wrong": one case a line, in its order.

namespace {

struct Kept {
  Folder folder;
  std::string path = folder.file();
  Kept() {
    Journal journal = opened(path);
    walk_with(journal, 12);
  }
  void bytes(std::size_t at, const std::string& other) const {
    std::string all = bytes_of(path);
    all.replace(at, other.size(), other);
    write_bytes(path, all);
  }
  // As another program would change it: every page stays in order, only the content is not ours.
  void changed_by(const char* sql) const {
    sqlite3* store = nullptr;
    BOOST_REQUIRE_EQUAL(sqlite3_open(path.c_str(), &store), SQLITE_OK);
    char* error = nullptr;
    sqlite3_exec(store, sql, nullptr, nullptr, &error);
    BOOST_REQUIRE_MESSAGE(error == nullptr, sql);
    sqlite3_close(store);
  }
  void refused(const std::string& id, const std::string& words) const {
    const Files before = files_at(path);
    BOOST_TEST(refusal(path) == id);
    BOOST_TEST(refusal_text(path).find(words) != std::string::npos, "said: " << refusal_text(path));
    BOOST_CHECK(files_at(path) == before);
  }
};

}  // namespace

BOOST_AUTO_TEST_SUITE(each_way_the_bytes_can_be_wrong)

BOOST_AUTO_TEST_CASE(an_empty_file_is_refused) {
  const Kept kept;
  write_bytes(kept.path, "");
  kept.refused("journal-damaged", "empty");
}

BOOST_AUTO_TEST_CASE(a_file_of_another_kind_is_refused) {
  const Kept kept;
  for (const std::string& other :
       {std::string("xy"), std::string(200, '\0'), std::string("<protocol/>") + std::string(5000, ' ')}) {
    write_bytes(kept.path, other);
    kept.refused("wrong-use", "not a Rushlight journal");
  }
}

BOOST_AUTO_TEST_CASE(a_database_of_another_program_is_refused) {
  const Folder folder;
  const std::string path = folder.file();
  write_bytes(path, "");
  sqlite3* store = nullptr;
  BOOST_REQUIRE_EQUAL(sqlite3_open(path.c_str(), &store), SQLITE_OK);
  BOOST_REQUIRE_EQUAL(sqlite3_exec(store, "CREATE TABLE other(x)", nullptr, nullptr, nullptr), SQLITE_OK);
  sqlite3_close(store);
  const Files before = files_at(path);
  BOOST_TEST(refusal_text(path).find("not a Rushlight journal") != std::string::npos);
  BOOST_CHECK(files_at(path) == before);
}

BOOST_AUTO_TEST_CASE(the_unfinished_write_of_another_program_is_not_undone) {
  const Kept kept;
  kept.bytes(68, "Bird");
  write_bytes(kept.path + "-journal", std::string("\xd9\xd5\x05\xf9\x20\xa1\x63\xd7", 8) + std::string(600, '\0'));
  kept.refused("wrong-use", "not a Rushlight journal");
}

BOOST_AUTO_TEST_CASE(a_newer_format_is_refused_as_newer) {
  const Kept kept;
  kept.changed_by("PRAGMA user_version = 2; CREATE TABLE weather(x)");
  kept.refused("journal-newer", "format 2");
}

BOOST_AUTO_TEST_CASE(a_version_that_never_was_is_refused) {
  const Kept kept;
  kept.changed_by("PRAGMA user_version = 0");
  kept.refused("journal-damaged", "first page");
}

BOOST_AUTO_TEST_CASE(another_page_size_or_way_of_writing_is_refused) {
  for (const auto& [at, other] :
       {std::pair<std::size_t, std::string>{16, std::string("\x20\x00", 2)}, {18, "\2"}, {19, "\2"}, {20, "\x20"}}) {
    const Kept kept;
    kept.bytes(at, other);
    kept.refused("journal-damaged", "first page");
  }
}

BOOST_AUTO_TEST_CASE(bytes_behind_the_end_are_refused) {
  const Kept kept;
  write_bytes(kept.path, bytes_of(kept.path) + "x");
  kept.refused("journal-damaged", "behind its end");
}

BOOST_AUTO_TEST_CASE(tables_that_are_not_ours_are_refused) {
  for (const char* sql : {"CREATE TABLE weather(x)", "DROP TABLE walker", "CREATE INDEX fast ON event(line)",
                          "CREATE TRIGGER forget AFTER INSERT ON event BEGIN DELETE FROM event; END",
                          "ALTER TABLE event ADD COLUMN more TEXT"}) {
    const Kept kept;
    kept.changed_by(sql);
    kept.refused("journal-damaged", "tables");
  }
}

BOOST_AUTO_TEST_CASE(pages_that_do_not_fit_together_are_refused) {
  const Kept kept;
  // The last page belongs to a tree: its kind byte becomes one that no page has.
  const std::size_t last = bytes_of(kept.path).size() - 4096;
  std::string all = bytes_of(kept.path);
  all.replace(last, 4096, std::string(4096, '\xee'));
  write_bytes(kept.path, all);
  kept.refused("journal-damaged", "");
}

BOOST_AUTO_TEST_CASE(an_event_changed_lost_added_or_moved_is_refused) {
  for (const auto& [sql, words] :
       {std::pair<const char*, const char*>{"UPDATE event SET line = replace(line, ':5', ':6') WHERE seq = 5",
                                            "event 5 of episode 1"},
        {"UPDATE event SET sum = sum + 1 WHERE seq = 11", "event 11 of episode 1"},
        {"DELETE FROM event WHERE seq = 11", "11 of 12 events"},
        {"DELETE FROM event WHERE seq = 4", "event 4 of episode 1"},
        {"INSERT INTO event VALUES(1, 12, '{}', 0)", "event 12 of episode 1"},
        {"INSERT INTO event VALUES(2, 0, '{}', 0)", "belong to no episode"},
        {"UPDATE event SET seq = 20 WHERE seq = 3", "event 3 of episode 1"}}) {
    const Kept kept;
    kept.changed_by(sql);
    kept.refused("journal-damaged", words);
  }
}

BOOST_AUTO_TEST_CASE(an_episode_changed_or_lost_is_refused) {
  for (const auto& [sql, words] :
       {std::pair<const char*, const char*>{"UPDATE episode SET child = 'Finch'", "episode 1 has changed"},
        {"UPDATE episode SET began = '2026-03-01T02:11:00-05:00'", "episode 1 has changed"},
        {"UPDATE episode SET ended = '2026-03-01T02:11:00-05:00'", "episode 1 has changed"},
        {"UPDATE episode SET events = 11", "episode 1 has changed"},
        {"UPDATE episode SET protocol_document = 2", "episode 1 has changed"},
        {"DELETE FROM episode", "belong to no episode"}}) {
    const Kept kept;
    kept.changed_by(sql);
    kept.refused("journal-damaged", words);
  }
}

BOOST_AUTO_TEST_CASE(a_kept_file_changed_or_lost_is_refused) {
  const Kept changed;
  changed.changed_by("UPDATE document SET bytes = CAST(replace(CAST(bytes AS TEXT), 'Wren', 'Crow') AS BLOB)");
  changed.refused("journal-damaged", "child file in it has changed");
  const Kept lost;
  lost.changed_by("DELETE FROM document WHERE id = 1");
  lost.refused("journal-damaged", "lost its protocol");
}

BOOST_AUTO_TEST_CASE(a_rollback_file_alone_is_refused) {
  const Kept kept;
  write_bytes(kept.path + "-journal", "x");
  std::filesystem::remove(kept.path);
  BOOST_TEST(refusal(kept.path) == "journal-damaged");
  BOOST_TEST(!exists(kept.path));
  BOOST_TEST(bytes_of(kept.path + "-journal") == "x");
}

BOOST_AUTO_TEST_CASE(a_write_ahead_file_beside_it_is_refused) {
  const Kept kept;
  write_bytes(kept.path + "-wal", "x");
  kept.refused("journal-damaged", "-wal");
}

BOOST_AUTO_TEST_CASE(no_change_of_one_byte_goes_unnoticed_and_changes_an_event) {
  const Kept kept;
  const std::string whole = bytes_of(kept.path);
  long refused = 0;
  long harmless = 0;
  for (std::size_t at = 0; at < whole.size(); at += kStride) {
    // Long runs of one letter in the kept files say the same at every place: some of them will do.
    if (at >= 4 && at % 61 != 0 && whole.compare(at - 4, 5, std::string(5, whole[at])) == 0) continue;
    kept.bytes(at, std::string(1, static_cast<char>(whole[at] ^ (1 << at % 8))));
    Journal::Options options;
    options.patience = 0;
    const auto read = Journal::open(kept.path, options);
    if (!read.value) {
      ++refused;
    } else {
      ++harmless;
      const auto lines_read = read.value->lines_of(EpisodeNumber{1});
      const auto found = read.value->open_episode_of("Wren");
      const bool same = lines_read.value && *lines_read.value == lines(12) && found.value && *found.value &&
                        (**found.value).start.protocol_bytes == start_of("Wren").protocol_bytes;
      if (!same) BOOST_ERROR("a change of byte " << at << " goes unnoticed");
    }
    kept.bytes(at, std::string(1, whole[at]));
  }
  std::cout << "one bit changed at " << refused + harmless << " places: " << refused << " refused, " << harmless
            << " where nothing is kept\n";
  BOOST_TEST(refused > static_cast<long>(1000 / kStride));
}

BOOST_AUTO_TEST_SUITE_END()
