#include "cli/replace_files.hpp"

#include <dlfcn.h>
#include <fcntl.h>
#include <grp.h>
#include <sched.h>
#include <sys/mount.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <boost/test/unit_test.hpp>
#include <cerrno>
#include <csignal>
#include <filesystem>

#include "cli/program.hpp"

// The calls that writing is made of, with a fault in the nth of them. They stand in front of those of the C library.
namespace {

struct Faults {
  bool on = false;
  int left = 0;  // calls until the fault
  int calls = 0;
  bool kills = false;  // the fault is the end of the program
  bool no_exchange = false;
};
Faults faults;

bool fails_now() {
  if (!faults.on) return false;
  ++faults.calls;
  if (--faults.left != 0) return false;
  if (faults.kills) ::raise(SIGKILL);
  errno = EIO;
  return true;
}

template <class Call>
Call* next_call(const char* name) {
  return reinterpret_cast<Call*>(::dlsym(RTLD_NEXT, name));
}

}  // namespace

extern "C" {
int fsync(int descriptor) { return fails_now() ? -1 : next_call<int(int)>("fsync")(descriptor); }
int fchown(int descriptor, uid_t user, gid_t group) noexcept {
  return fails_now() ? -1 : next_call<int(int, uid_t, gid_t)>("fchown")(descriptor, user, group);
}
int fchmod(int descriptor, mode_t mode) noexcept {
  return fails_now() ? -1 : next_call<int(int, mode_t)>("fchmod")(descriptor, mode);
}
int mkostemp(char* name, int flags) { return fails_now() ? -1 : next_call<int(char*, int)>("mkostemp")(name, flags); }
int renameat2(int from_folder, const char* from, int to_folder, const char* to, unsigned flags) noexcept {
  if (faults.no_exchange) {
    errno = EINVAL;
    return -1;
  }
  if (fails_now()) return -1;
  return next_call<int(int, const char*, int, const char*, unsigned)>("renameat2")(from_folder, from, to_folder, to,
                                                                                   flags);
}
ssize_t write(int descriptor, const void* bytes, size_t size) {
  return fails_now() ? -1 : next_call<ssize_t(int, const void*, size_t)>("write")(descriptor, bytes, size);
}
int rename(const char* from, const char* to) noexcept {
  return fails_now() ? -1 : next_call<int(const char*, const char*)>("rename")(from, to);
}
}

namespace rushlight::tests {

namespace {

struct Faulty {
  Faulty(int nth, bool kills, bool no_exchange) { faults = {true, nth, 0, kills, no_exchange}; }
  ~Faulty() { faults = {}; }
};

std::vector<Replacement> three_in(const Folder& folder) {
  std::vector<Replacement> all;
  for (const std::string name : {"a.xml", "b.xml", "c.xml"}) {
    folder.write(name, "old " + name);
    all.push_back({folder.path(name), "old " + name, "new and longer " + name});
  }
  return all;
}

std::size_t files_in(const Folder& folder) {
  return static_cast<std::size_t>(std::distance(std::filesystem::directory_iterator(folder.path("")), {}));
}

std::string now_in(const Folder& folder) {
  return folder.read("a.xml") + "|" + folder.read("b.xml") + "|" + folder.read("c.xml");
}

const std::string kAllOld = "old a.xml|old b.xml|old c.xml";
const std::string kAllNew = "new and longer a.xml|new and longer b.xml|new and longer c.xml";

std::string said(const std::optional<Finding>& finding) {
  return finding ? text_from_finding(*finding, {}) : "written";
}

/// What a child of this process ends with.
template <class Work>
int status_of_child(Work work) {
  const pid_t child = ::fork();
  if (child == 0) ::_exit(work());
  int status = 0;
  ::waitpid(child, &status, 0);
  return WIFEXITED(status) ? WEXITSTATUS(status) : -WTERMSIG(status);
}

}  // namespace

BOOST_AUTO_TEST_SUITE(replacing_files)

BOOST_AUTO_TEST_CASE(all_are_replaced_with_their_mode_and_nothing_is_left_beside_them) {
  const Folder folder;
  const std::vector<Replacement> all = three_in(folder);
  ::chmod(folder.path("b.xml").c_str(), 0640);
  const auto finding = replace_files(all);
  BOOST_TEST(!finding, said(finding));
  BOOST_TEST(now_in(folder) == kAllNew);
  BOOST_TEST(files_in(folder) == 3U);
  struct stat about {};
  ::stat(folder.path("b.xml").c_str(), &about);
  BOOST_TEST((about.st_mode & 07777U) == 0640U);
}

BOOST_AUTO_TEST_CASE(fault_in_any_call_leaves_all_old_or_all_new) {
  for (const bool no_exchange : {false, true}) {
    int faults_met = 0;
    for (int nth = 1;; ++nth) {
      const Folder folder;
      const std::vector<Replacement> all = three_in(folder);
      std::optional<Finding> finding;
      int calls = 0;
      {
        const Faulty faulty(nth, false, no_exchange);
        finding = replace_files(all);
        calls = faults.calls;
      }
      BOOST_REQUIRE_MESSAGE(now_in(folder) == (finding ? kAllOld : kAllNew), "fault " << nth << ": " << now_in(folder));
      BOOST_REQUIRE(files_in(folder) == 3U);
      if (calls < nth) break;
      ++faults_met;
      BOOST_REQUIRE(nth < 200);
    }
    BOOST_TEST_MESSAGE(faults_met << " faults met" << (no_exchange ? ", without exchange" : ""));
    BOOST_TEST(faults_met >= 15);
  }
}

BOOST_AUTO_TEST_CASE(program_killed_at_any_call_leaves_each_file_whole) {
  int killed = 0;
  for (int nth = 1;; ++nth) {
    const Folder folder;
    const std::vector<Replacement> all = three_in(folder);
    const int status = status_of_child([&] {
      const Faulty faulty(nth, true, false);
      return replace_files(all) ? 1 : 0;
    });
    for (const Replacement& each : all) {
      const std::string name = std::filesystem::path(each.path).filename().string();
      BOOST_REQUIRE((folder.read(name) == each.before || folder.read(name) == each.after));
    }
    for (const auto& entry : std::filesystem::directory_iterator(folder.path(""))) {
      if (entry.path().extension() == ".xml") BOOST_REQUIRE(entry.path().filename().string().size() == 5U);
    }
    if (status == 0) break;
    BOOST_REQUIRE(status == -SIGKILL);
    ++killed;
    BOOST_REQUIRE(nth < 200);
  }
  BOOST_TEST(killed >= 15);
}

BOOST_AUTO_TEST_CASE(what_somebody_else_wrote_meanwhile_stays) {
  for (const bool no_exchange : {false, true}) {
    const Folder folder;
    const std::vector<Replacement> all = three_in(folder);
    folder.write("b.xml", "of somebody else");
    const Faulty faulty(0, false, no_exchange);
    const auto finding = replace_files(all);
    BOOST_REQUIRE(finding);
    BOOST_TEST(finding->kind.is<ChangedMeanwhile>());
    BOOST_TEST(finding->where.file.text() == folder.path("b.xml"));
    BOOST_TEST(now_in(folder) == "old a.xml|of somebody else|old c.xml");
    BOOST_TEST(files_in(folder) == 3U);
  }
}

BOOST_AUTO_TEST_CASE(file_that_is_gone_or_another_file_now_is_not_made_again) {
  const Folder folder;
  const std::vector<Replacement> all = three_in(folder);
  std::filesystem::remove(folder.path("c.xml"));
  const auto finding = replace_files(all);
  BOOST_REQUIRE(finding);
  BOOST_TEST(finding->kind.is<ChangedMeanwhile>());
  BOOST_TEST(files_in(folder) == 2U);
  BOOST_TEST(folder.read("a.xml") == "old a.xml");
}

// Each adds one to the number in the file, from what it read: an addition that is lost would be missed at the end.
BOOST_AUTO_TEST_CASE(two_programs_at_once_lose_no_change_of_each_other) {
  constexpr int kEach = 150;
  const Folder folder;
  folder.write("count.xml", "0");
  const auto adds = [&] {
    for (int done = 0, tries = 0; done < kEach && tries < 100'000; ++tries) {
      const std::string before = folder.read("count.xml");
      if (!replace_files({{folder.path("count.xml"), before, std::to_string(std::stoi(before) + 1)}})) ++done;
    }
    return 0;
  };
  const pid_t child = ::fork();
  if (child == 0) ::_exit(adds());
  adds();
  int status = 0;
  ::waitpid(child, &status, 0);
  BOOST_TEST(folder.read("count.xml") == std::to_string(2 * kEach));
  BOOST_TEST(files_in(folder) == 1U);
}

BOOST_AUTO_TEST_CASE(link_stays_a_link_and_the_file_behind_it_is_written) {
  const Folder folder, elsewhere;
  elsewhere.write("low.xml", "old");
  std::filesystem::create_symlink(elsewhere.path("low.xml"), folder.path("low.xml"));
  const auto finding = replace_files({{folder.path("low.xml"), "old", "new"}});
  BOOST_TEST(!finding, said(finding));
  BOOST_TEST(std::filesystem::is_symlink(folder.path("low.xml")));
  BOOST_TEST(elsewhere.read("low.xml") == "new");
  BOOST_TEST(files_in(folder) == 1U);
  BOOST_TEST(files_in(elsewhere) == 1U);
}

BOOST_AUTO_TEST_CASE(file_with_a_second_name_is_refused_since_that_one_would_stay_behind) {
  const Folder folder, elsewhere;
  folder.write("low.xml", "old");
  std::filesystem::create_hard_link(folder.path("low.xml"), elsewhere.path("same.xml"));
  const auto finding = replace_files({{folder.path("low.xml"), "old", "new"}});
  BOOST_TEST(said(finding).find("it has 1 more name (a hard link)") != std::string::npos, said(finding));
  BOOST_TEST(folder.read("low.xml") == "old");
  BOOST_TEST(elsewhere.read("same.xml") == "old");
  BOOST_TEST(files_in(folder) == 1U);
}

BOOST_AUTO_TEST_CASE(own_file_of_a_strange_group_is_not_said_to_be_somebody_elses) {
  constexpr uid_t kNobody = 65534;
  if (::geteuid() != 0) return;  // only who may do everything can make such a file
  const Folder folder;
  folder.write("low.xml", "old");
  ::chmod(folder.path("").c_str(), 0777);
  BOOST_REQUIRE(::chown(folder.path("low.xml").c_str(), kNobody, 0) == 0);
  const int status = status_of_child([&] {
    if (::setgroups(0, nullptr) != 0 || ::setgid(kNobody) != 0 || ::setuid(kNobody) != 0) return 1;
    const auto finding = replace_files({{folder.path("low.xml"), "old", "new"}});
    return said(finding).find("it is yours, but of a group that you are not in") != std::string::npos ? 0 : 2;
  });
  BOOST_TEST(status == 0);
  BOOST_TEST(folder.read("low.xml") == "old");
}

BOOST_AUTO_TEST_CASE(read_only_file_is_refused_also_for_who_may_do_everything) {
  const Folder folder;
  const std::vector<Replacement> all = three_in(folder);
  ::chmod(folder.path("c.xml").c_str(), 0444);
  const auto finding = replace_files(all);
  BOOST_TEST(said(finding).find("c.xml: error: this cannot be written: it is read-only") != std::string::npos,
             said(finding));
  BOOST_TEST(now_in(folder) == kAllOld);
}

BOOST_AUTO_TEST_CASE(limit_of_a_files_size_is_an_error_and_not_the_end) {
  const Folder folder;
  folder.write("low.xml", "old");
  const std::string large(100'000, 'x');
  const int status = status_of_child([&] {
    const rlimit limit{50'000, 50'000};
    ::setrlimit(RLIMIT_FSIZE, &limit);
    const auto finding = replace_files({{folder.path("low.xml"), "old", large}});
    return finding && finding->kind.is<NotWritten>() ? 0 : 1;
  });
  BOOST_TEST(status == 0);
  BOOST_TEST(folder.read("low.xml") == "old");
  BOOST_TEST(files_in(folder) == 1U);
}

BOOST_AUTO_TEST_CASE(owner_of_the_file_stays_or_the_file_does) {
  constexpr uid_t kNobody = 65534;
  const Folder folder;
  folder.write("low.xml", "old");
  ::chmod(folder.path("").c_str(), 0777);
  ::chmod(folder.path("low.xml").c_str(), 0666);
  struct stat about {};
  ::stat(folder.path("low.xml").c_str(), &about);
  const bool all_powerful = ::geteuid() == 0;
  if (all_powerful) {
    const int status = status_of_child([&] {
      if (::setgid(kNobody) != 0 || ::setuid(kNobody) != 0) return 1;
      const auto finding = replace_files({{folder.path("low.xml"), "old", "new"}});
      return said(finding).find("it belongs to somebody else") != std::string::npos ? 0 : 2;
    });
    BOOST_TEST(status == 0);
    BOOST_TEST(folder.read("low.xml") == "old");
    BOOST_TEST(files_in(folder) == 1U);
    BOOST_TEST(::chown(folder.path("low.xml").c_str(), kNobody, kNobody) == 0);
    about.st_uid = kNobody;
  }
  BOOST_TEST(!replace_files({{folder.path("low.xml"), "old", "new"}}));
  struct stat now {};
  ::stat(folder.path("low.xml").c_str(), &now);
  BOOST_TEST(now.st_uid == about.st_uid);
}

// A small disk of its own, where the machine lets us have one.
BOOST_AUTO_TEST_CASE(full_disk_loses_nothing_and_says_so) {
  const Folder folder;
  constexpr int kNoDisk = 77;
  const int status = status_of_child([&] {
    const bool own = ::unshare(CLONE_NEWNS) == 0 && ::mount("none", "/", nullptr, MS_REC | MS_PRIVATE, nullptr) == 0 &&
                     ::mount("small", folder.path("").c_str(), "tmpfs", 0, "size=64k") == 0;
    if (!own) return kNoDisk;
    folder.write("a.xml", "old");
    folder.write("b.xml", "old");
    const auto finding =
        replace_files({{folder.path("a.xml"), "old", "new"}, {folder.path("b.xml"), "old", std::string(200'000, 'x')}});
    if (!finding || said(finding).find("no space is left on the disk") == std::string::npos) return 1;
    return folder.read("a.xml") == "old" && folder.read("b.xml") == "old" && files_in(folder) == 2U ? 0 : 2;
  });
  if (status == kNoDisk) BOOST_TEST_MESSAGE("this machine lends no small disk; the limit of a file's size stands in");
  BOOST_TEST((status == 0 || status == kNoDisk), status);
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace rushlight::tests
