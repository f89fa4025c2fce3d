#define BOOST_TEST_DYN_LINK
#include <sys/stat.h>
#include <unistd.h>

#include <boost/test/unit_test.hpp>
#include <filesystem>

#include "journal/kept.hpp"

using namespace rushlight;
using namespace rushlight::kept;

namespace {

unsigned mode_of(const std::string& path) {
  struct stat found;
  BOOST_REQUIRE_EQUAL(stat(path.c_str(), &found), 0);
  return found.st_mode & 0777U;
}

std::string with_journal(const Folder& folder) {
  Journal journal = opened(folder.file());
  walk_with(journal, 2);
  return folder.file();
}

void refused_untouched(const std::string& path, const std::string& words) {
  const Files before = files_at(path);
  BOOST_TEST(refusal(path) == "not-readable");
  BOOST_TEST(refusal_text(path).find(words) != std::string::npos, refusal_text(path));
  BOOST_CHECK(files_at(path) == before);
}

}  // namespace

BOOST_AUTO_TEST_SUITE(where_a_journal_is)

BOOST_AUTO_TEST_CASE(a_new_journal_and_its_folders_belong_to_their_owner_alone_whatever_the_umask) {
  const Folder folder;
  const std::string path = folder.file("share/rushlight/journal.db");
  const mode_t before = umask(0);
  {
    Journal journal = opened(path);
    walk_with(journal, 1);
  }
  umask(before);
  BOOST_TEST(mode_of(path) == 0600U);
  BOOST_TEST(mode_of(folder.file("share")) == 0700U);
  BOOST_TEST(mode_of(folder.file("share/rushlight")) == 0700U);
}

BOOST_AUTO_TEST_CASE(a_closed_journal_is_one_file_and_nothing_beside_it) {
  const Folder folder;
  with_journal(folder);
  std::size_t files = 0;
  for (const auto& entry : std::filesystem::directory_iterator(folder.path())) files += entry.is_regular_file();
  BOOST_TEST(files == 1U);
}

BOOST_AUTO_TEST_CASE(a_symbolic_link_is_refused) {
  const Folder folder;
  with_journal(folder);
  const std::string link = folder.file("link.db");
  std::filesystem::create_symlink(folder.file(), link);
  refused_untouched(link, "symbolic link");
  std::filesystem::create_symlink(folder.file("nowhere.db"), folder.file("dangling.db"));
  refused_untouched(folder.file("dangling.db"), "symbolic link");
  BOOST_TEST(!exists(folder.file("nowhere.db")));
}

BOOST_AUTO_TEST_CASE(a_folder_reached_through_a_link_is_accepted) {
  const Folder folder;
  std::filesystem::create_directory(folder.file("real"));
  std::filesystem::create_directory_symlink(folder.file("real"), folder.file("link"));
  BOOST_TEST(refusal(folder.file("link/journal.db")) == "");
  BOOST_TEST(exists(folder.file("real/journal.db")));
}

BOOST_AUTO_TEST_CASE(a_journal_that_others_can_open_is_refused) {
  const Folder folder;
  const std::string path = with_journal(folder);
  for (const mode_t mode : {mode_t{0640}, mode_t{0604}, mode_t{0620}, mode_t{0644}}) {
    BOOST_REQUIRE_EQUAL(chmod(path.c_str(), mode), 0);
    refused_untouched(path, "others than you");
  }
  BOOST_REQUIRE_EQUAL(chmod(path.c_str(), 0600), 0);
  BOOST_TEST(refusal(path) == "");
}

BOOST_AUTO_TEST_CASE(a_journal_of_somebody_else_is_refused) {
  const Folder folder;
  const std::string path = with_journal(folder);
  if (chown(path.c_str(), 12345, 12345) != 0) {
    BOOST_TEST_MESSAGE("only the administrator can give a file away: not tried");
    BOOST_TEST(geteuid() != 0U);
    return;
  }
  refused_untouched(path, "somebody else");
}

BOOST_AUTO_TEST_CASE(a_journal_with_a_second_name_is_refused) {
  const Folder folder;
  const std::string path = with_journal(folder);
  std::filesystem::create_hard_link(path, folder.file("second.db"));
  refused_untouched(path, "second name");
}

BOOST_AUTO_TEST_CASE(a_journal_whose_maker_was_killed_before_the_name_of_making_was_gone_opens) {
  const Folder folder;
  const std::string path = with_journal(folder);
  std::filesystem::create_hard_link(path, path + ".new-4711");
  write_bytes(path + ".new-4712", "another program is making one");
  BOOST_TEST(refusal(path) == "");
  BOOST_TEST(!exists(path + ".new-4711"));
  BOOST_TEST(bytes_of(path + ".new-4712") == "another program is making one");
}

BOOST_AUTO_TEST_CASE(a_second_name_beside_the_name_of_making_is_still_refused) {
  const Folder folder;
  const std::string path = with_journal(folder);
  std::filesystem::create_hard_link(path, path + ".new-4711");
  std::filesystem::create_hard_link(path, folder.file("second.db"));
  refused_untouched(path, "second name");
}

BOOST_AUTO_TEST_CASE(a_folder_in_which_others_write_is_refused) {
  const Folder folder;
  std::filesystem::create_directory(folder.file("open"));
  BOOST_REQUIRE_EQUAL(chmod(folder.file("open").c_str(), 0777), 0);
  refused_untouched(folder.file("open/journal.db"), "others can write");
  BOOST_REQUIRE_EQUAL(chmod(folder.file("open").c_str(), 01777), 0);  // as /tmp: nobody removes another's files
  BOOST_TEST(refusal(folder.file("open/journal.db")) == "");
}

BOOST_AUTO_TEST_CASE(a_folder_a_pipe_and_no_name_at_all_are_refused) {
  const Folder folder;
  BOOST_REQUIRE_EQUAL(mkfifo(folder.file("pipe").c_str(), 0600), 0);
  BOOST_TEST(refusal(folder.file("pipe")) == "not-readable");
  std::filesystem::create_directory(folder.file("folder"));
  BOOST_TEST(refusal(folder.file("folder")) == "not-readable");
  BOOST_TEST(refusal(folder.file("folder/")) == "not-readable");
  BOOST_TEST(refusal("") == "not-readable");
  write_bytes(folder.file("file"), "x");
  BOOST_TEST(refusal(folder.file("file/journal.db")) == "not-readable");
}

BOOST_AUTO_TEST_CASE(a_link_in_the_place_of_the_rollback_file_is_refused) {
  const Folder folder;
  const std::string path = with_journal(folder);
  write_bytes(folder.file("victim"), "keep me");
  std::filesystem::create_symlink(folder.file("victim"), path + "-journal");
  refused_untouched(path, "symbolic link");
  BOOST_TEST(bytes_of(folder.file("victim")) == "keep me");
}

BOOST_AUTO_TEST_SUITE_END()
