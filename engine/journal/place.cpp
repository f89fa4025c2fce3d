#include "journal/place.hpp"

#include <dirent.h>
#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstdlib>
#include <cstring>
#include <memory>

namespace rushlight {

namespace {

constexpr const char* kMaking = ".new-";

std::optional<Kind> refused(const std::string& reason) { return Kind{NotReadable{reason}}; }
std::optional<Kind> refused_by_system() { return refused(std::strerror(errno)); }

bool sync_folder(const std::string& folder) {
  const int opened = open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
  if (opened < 0) return false;
  const bool synced = fsync(opened) == 0;
  close(opened);
  return synced;
}

std::string parent_of(const std::string& path) {
  const auto slash = path.find_last_of('/');
  if (slash == std::string::npos) return ".";
  return slash == 0 ? "/" : path.substr(0, slash);
}

std::optional<Kind> make_folders(const std::string& folder) {
  struct stat found;
  if (stat(folder.c_str(), &found) == 0) return std::nullopt;
  if (errno != ENOENT) return refused_by_system();
  if (auto above = make_folders(parent_of(folder))) return above;
  if (mkdir(folder.c_str(), 0700) != 0 && errno != EEXIST) return refused_by_system();
  sync_folder(parent_of(folder));
  return std::nullopt;
}

std::optional<Kind> fault_of_folder(const std::string& folder) {
  struct stat found;
  if (stat(folder.c_str(), &found) != 0) return refused_by_system();
  if (!S_ISDIR(found.st_mode)) return refused("its folder is not a folder");
  if (found.st_uid != geteuid() && found.st_uid != 0) return refused("its folder belongs to somebody else");
  const bool others_write = (found.st_mode & (S_IWGRP | S_IWOTH)) != 0;
  if (others_write && (found.st_mode & S_ISVTX) == 0) return refused("others can write in its folder");
  return std::nullopt;
}

// A program killed in name_for_good leaves the journal with the name it was made under beside its own: whole, and the
// only journal of that night. That name is taken away, whichever program made it; any other second name stays.
void take_away_name_of_making(const std::string& path) {
  struct stat journal;
  if (lstat(path.c_str(), &journal) != 0 || !S_ISREG(journal.st_mode) || journal.st_nlink == 1) return;
  const std::string folder = parent_of(path);
  const std::string begin = path.substr(path.find_last_of('/') + 1) + kMaking;
  const std::unique_ptr<DIR, int (*)(DIR*)> open(opendir(folder.c_str()), closedir);
  if (!open) return;
  while (const dirent* entry = readdir(open.get())) {
    const std::string name = entry->d_name;
    struct stat other;
    if (name.compare(0, begin.size(), begin) != 0 || lstat((folder + "/" + name).c_str(), &other) != 0) continue;
    if (other.st_dev == journal.st_dev && other.st_ino == journal.st_ino) unlink((folder + "/" + name).c_str());
  }
  sync_folder(folder);
}

// `exists` tells the caller whether there was anything to judge.
std::optional<Kind> fault_of_file(const std::string& path, bool& exists) {
  struct stat found;
  exists = lstat(path.c_str(), &found) == 0;
  if (!exists) return errno == ENOENT ? std::nullopt : refused_by_system();
  if (S_ISLNK(found.st_mode)) return refused("it is a symbolic link");
  if (!S_ISREG(found.st_mode)) return refused("it is not a file");
  if (found.st_uid != geteuid()) return refused("it belongs to somebody else");
  if ((found.st_mode & (S_IRWXG | S_IRWXO)) != 0) return refused("others than you can open it");
  if (found.st_nlink != 1) return refused("it has a second name");
  return std::nullopt;
}

}  // namespace

std::variant<JournalPlace, Kind> private_place(const std::string& path) {
  const std::string name = path.substr(path.find_last_of('/') + 1);
  if (name.empty() || name == "." || name == "..") return NotReadable{"it is not a file"};
  const std::string folder = parent_of(path);
  if (auto fault = make_folders(folder)) return *fault;
  if (auto fault = fault_of_folder(folder)) return *fault;
  const std::unique_ptr<char, void (*)(void*)> plain(realpath(folder.c_str(), nullptr), std::free);
  if (!plain) return *refused_by_system();

  take_away_name_of_making(std::string(plain.get()) + "/" + name);
  JournalPlace place{std::string(plain.get()) + (std::strcmp(plain.get(), "/") == 0 ? "" : "/") + name, false};
  if (auto fault = fault_of_file(place.path, place.exists)) return *fault;
  bool beside = false;
  if (auto fault = fault_of_file(place.path + "-journal", beside)) return *fault;
  if (beside && !place.exists) return JournalDamaged{"only the file that undoes its last write is left"};
  // SQLite would read such a file as part of the journal, whatever the journal says.
  if (auto fault = fault_of_file(place.path + "-wal", beside)) return *fault;
  if (beside) return JournalDamaged{"a file of another program stands beside it, its name ends in `-wal`"};
  return place;
}

std::optional<Kind> make_private_file(const std::string& path) {
  const int made = open(path.c_str(), O_RDWR | O_CREAT | O_EXCL | O_NOFOLLOW | O_CLOEXEC, 0600);
  if (made < 0) return refused_by_system();
  close(made);
  return std::nullopt;
}

std::string name_of_making(const std::string& path) { return path + kMaking + std::to_string(getpid()); }

bool name_for_good(const std::string& from, const std::string& to) {
  if (link(from.c_str(), to.c_str()) != 0) return false;
  unlink(from.c_str());
  sync_folder(parent_of(to));
  return true;
}

}  // namespace rushlight
