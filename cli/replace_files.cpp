#include "cli/replace_files.hpp"

#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <csignal>
#include <cstring>
#include <filesystem>
#include <list>
#include <set>
#include <utility>

#include "cli/durable.hpp"
#include "cli/read_file.hpp"
#include "cli/refusals.hpp"

namespace rushlight {
namespace {

namespace fs = std::filesystem;

Finding not_written(const std::string& path, int error) {
  switch (error) {
    case ENOSPC:
    case EDQUOT:
      return whole_error(path, NotWritten{"no space is left on the disk", "make room, and give the command again"});
    case EFBIG:
      return whole_error(path, NotWritten{"a file may not be so large here", "ask who looks after this machine"});
    case EROFS:
      return whole_error(path, NotWritten{"the disk is read-only", "copy the set to a disk that can be written"});
    case EACCES:
    case EPERM:
      return whole_error(
          path, NotWritten{"its folder takes no new file from you", "ask whose folder it is, or work on a copy"});
    default:
      return whole_error(path, NotWritten{std::strerror(error), ""});
  }
}

/// Somebody who presses Ctrl-C sees all or nothing; a file that grows beyond its limit is an error and not the end.
class Undisturbed {
 public:
  Undisturbed() {
    sigset_t these;
    sigemptyset(&these);
    for (const int each : {SIGINT, SIGTERM, SIGHUP, SIGQUIT, SIGTSTP}) sigaddset(&these, each);
    ::sigprocmask(SIG_BLOCK, &these, &before_);
    too_large_ = std::signal(SIGXFSZ, SIG_IGN);  // not held back: it would come when it is let go
  }
  ~Undisturbed() {
    std::signal(SIGXFSZ, too_large_);
    ::sigprocmask(SIG_SETMASK, &before_, nullptr);
  }
  Undisturbed(const Undisturbed&) = delete;
  Undisturbed& operator=(const Undisturbed&) = delete;

 private:
  sigset_t before_{};
  void (*too_large_)(int) = SIG_DFL;
};

/// The folders of these files, for one of our own programs at a time. Who puts an old file back lets it be seen for a
/// moment, and another would build its change on it. Where a disk knows no locks it goes on without; other programs are
/// seen by what they wrote.
class Alone {
 public:
  explicit Alone(const std::vector<Replacement>& all) {
    std::set<std::string> folders;  // in one order for everybody, so that no two wait for each other
    for (const Replacement& each : all) {
      if (const auto target = file_behind(each.path)) folders.insert(fs::path(*target).parent_path().string());
    }
    for (const std::string& folder : folders) {
      const int descriptor = ::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
      if (descriptor < 0) continue;
      held_.push_back(descriptor);
      while (::flock(descriptor, LOCK_EX) != 0 && errno == EINTR) {}
    }
  }
  ~Alone() {
    for (const int descriptor : held_) ::close(descriptor);
  }
  Alone(const Alone&) = delete;
  Alone& operator=(const Alone&) = delete;

 private:
  std::vector<int> held_;
};

/// One file on its way. Whatever bears the second name at the end is taken away.
class Swap {
 public:
  explicit Swap(const Replacement& wanted) : wanted_(wanted) {}
  Swap(const Swap&) = delete;
  Swap& operator=(const Swap&) = delete;
  ~Swap() {
    if (!beside_.empty()) ::unlink(beside_.c_str());
    if (!kept_.empty()) ::unlink(kept_.c_str());
  }

  /// The new file stands beside the old one.
  std::optional<Finding> prepare() {
    const std::optional<std::string> target = file_behind(wanted_.path);
    if (!target) return whole_error(wanted_.path, ChangedMeanwhile{});
    target_ = *target;
    struct stat about {};
    if (::stat(target_.c_str(), &about) != 0) return whole_error(wanted_.path, ChangedMeanwhile{});
    const bool nobody_writes = (about.st_mode & 0222U) == 0;  // who may do everything is stopped by this alone
    if (nobody_writes || ::access(target_.c_str(), W_OK) != 0) {
      if (errno == EROFS && !nobody_writes) return not_written(wanted_.path, EROFS);
      return whole_error(wanted_.path, NotWritten{"it is read-only",
                                                  "take that off first (`chmod u+w`), or work on a copy of the set"});
    }
    // The new file takes the place of one name alone: the other one would keep the old bytes, and nobody would know.
    if (about.st_nlink > 1)
      return whole_error(
          wanted_.path,
          NotWritten{"it has " + std::to_string(about.st_nlink - 1) + " more name" + (about.st_nlink > 2 ? "s" : "") +
                         " (a hard link), which would keep the old bytes",
                     "make it a file of its own first: copy it, and put the copy in its place"});
    if (auto finding = make(beside_, wanted_.after, about)) return finding;
    return std::nullopt;
  }

  std::optional<Finding> replace() {
    if (exchange()) {
      replaced_ = true;
      if (is(beside_, wanted_.before)) return std::nullopt;
      put_back();
      return whole_error(wanted_.path, ChangedMeanwhile{});
    }
    if (errno != EINVAL && errno != ENOSYS && errno != ENOTTY) return not_written(wanted_.path, errno);
    return replace_without_exchange();
  }

  /// A program that had the old file open may have written into it while it left its place.
  std::optional<Finding> written_into() const {
    const std::string& old = kept_.empty() ? beside_ : kept_;
    if (is(old, wanted_.before)) return std::nullopt;
    return whole_error(wanted_.path, ChangedMeanwhile{});
  }

  /// The old file again, unless somebody has put another one there since.
  void put_back() {
    if (!replaced_) return;
    replaced_ = false;
    if (kept_.empty()) {
      exchange();
      if (!is(beside_, wanted_.after)) exchange();
    } else if (is(target_, wanted_.after) && ::rename(kept_.c_str(), target_.c_str()) == 0) {
      kept_.clear();
    }
  }

  void make_durable() const { sync_folder(fs::path(target_).parent_path().string()); }

 private:
  bool exchange() const {
    return ::renameat2(AT_FDCWD, beside_.c_str(), AT_FDCWD, target_.c_str(), RENAME_EXCHANGE) == 0;
  }

  // Where a disk cannot let two files change places, the old bytes wait beside it in a file of their own.
  std::optional<Finding> replace_without_exchange() {
    struct stat about {};
    if (::stat(target_.c_str(), &about) != 0) return whole_error(wanted_.path, ChangedMeanwhile{});
    if (auto finding = make(kept_, wanted_.before, about)) return finding;
    if (!is(target_, wanted_.before)) return whole_error(wanted_.path, ChangedMeanwhile{});
    if (::rename(beside_.c_str(), target_.c_str()) != 0) return not_written(wanted_.path, errno);
    beside_.clear();
    replaced_ = true;
    return std::nullopt;
  }

  std::optional<Finding> make(std::string& name, const std::string& bytes, const struct stat& like) {
    const fs::path target(target_);
    // No name that ends in .xml: what a stopped machine leaves behind must not be taken for a protocol.
    name = (target.parent_path() / ("." + target.filename().string() + ".new-XXXXXX")).string();
    const int descriptor = ::mkostemp(name.data(), O_CLOEXEC);
    if (descriptor < 0) {
      name.clear();
      return not_written(wanted_.path, errno);
    }
    const bool owned = ::fchown(descriptor, like.st_uid, like.st_gid) == 0;
    int error = owned && ::fchmod(descriptor, like.st_mode & 07777U) != 0 ? errno : 0;
    if (owned && error == 0 && !write_durably(descriptor, bytes)) error = errno;
    if (::close(descriptor) != 0 && error == 0) error = errno;
    if (!owned && like.st_uid == ::geteuid())
      return whole_error(wanted_.path,
                         NotWritten{"it is yours, but of a group that you are not in, and would leave it",
                                    "give it a group of yours first (`chgrp`), or work on a copy of the set"});
    if (!owned)
      return whole_error(wanted_.path,
                         NotWritten{"it belongs to somebody else, and a file of yours would take its place",
                                    "ask its owner to change it, or work on a copy of the set"});
    if (error != 0) return not_written(wanted_.path, error);
    return std::nullopt;
  }

  static bool is(const std::string& path, const std::string& bytes) {
    const FileBytes found = bytes_of_file(path, bytes.size());
    const auto* text = std::get_if<std::string>(&found);
    return text != nullptr && *text == bytes;
  }

  const Replacement& wanted_;
  std::string target_, beside_, kept_;
  bool replaced_ = false;
};

}  // namespace

std::optional<std::string> file_behind(const std::string& path) {
  char* real = ::realpath(path.c_str(), nullptr);
  if (real == nullptr) return std::nullopt;
  std::string found(real);
  std::free(real);
  return found;
}

std::optional<Finding> why_not_replaced(const std::vector<Replacement>& all) {
  const Alone alone(all);
  const Undisturbed undisturbed;
  std::list<Swap> tried;
  for (const Replacement& each : all) {
    if (auto finding = tried.emplace_back(each).prepare()) return finding;
  }
  return std::nullopt;
}

std::optional<Finding> replace_files(const std::vector<Replacement>& all) {
  const Alone alone(all);  // first: who waits can still be sent away
  const Undisturbed undisturbed;
  std::list<Swap> changes;
  std::optional<Finding> finding;
  for (const Replacement& each : all) {
    finding = changes.emplace_back(each).prepare();
    if (finding) return finding;
  }
  for (Swap& change : changes) {
    finding = change.replace();
    if (finding) break;
  }
  if (!finding) {
    for (Swap& change : changes) change.make_durable();
    for (const Swap& change : changes) {
      if (!finding) finding = change.written_into();
    }
  }
  if (finding) {
    for (auto change = changes.rbegin(); change != changes.rend(); ++change) change->put_back();
  }
  return finding;
}

}  // namespace rushlight
