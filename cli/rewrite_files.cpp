#include "cli/rewrite_files.hpp"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>
#include <filesystem>

#include "cli/durable.hpp"
#include "cli/read_file.hpp"
#include "cli/refusals.hpp"

namespace rushlight {
namespace {

namespace fs = std::filesystem;

Finding not_rewritten(const std::string& path, int error) {
  return whole_error(path, NotWritable{std::strerror(error)});
}

std::string folder_around(const std::string& path) {
  const fs::path folder = fs::path(path).parent_path();
  return folder.empty() ? "." : folder.string();
}

std::string temporary_of(const std::string& path) {
  const fs::path whole(path);
  return (whole.parent_path() / ("." + whole.filename().string() + ".new-" + std::to_string(::getpid()))).string();
}

/// Why this file is not to be written; empty when it may be.
std::optional<Finding> in_the_way(const Rewrite& rewrite, struct stat& about) {
  if (::lstat(rewrite.path.c_str(), &about) != 0) return not_rewritten(rewrite.path, errno);
  if (S_ISLNK(about.st_mode)) {
    const WrongUse link{"this is a link to another file, and is not written through",
                        "put the file itself into the folder"};
    return whole_error(rewrite.path, link);
  }
  if (!S_ISREG(about.st_mode)) return whole_error(rewrite.path, NotReadable{"it is not an ordinary file"});
  // Whoever may write the folder could replace the file all the same; a file closed by its owner is meant to stay.
  if ((about.st_mode & S_IWUSR) == 0 || ::access(rewrite.path.c_str(), W_OK) != 0)
    return whole_error(rewrite.path, WrongUse{"this file may not be written", "open it to its owner: chmod u+w FILE"});
  const FileBytes now = bytes_of_file(rewrite.path, rewrite.before.size());
  const auto* bytes = std::get_if<std::string>(&now);
  if (bytes == nullptr || *bytes != rewrite.before)
    return whole_error(rewrite.path, WrongUse{"the file has changed in the meantime", "start again"});
  return std::nullopt;
}

/// The new bytes beside the file, durable, with its rights and its owner.
std::optional<Finding> laid_beside(const std::string& path, const std::string& bytes, const struct stat& about) {
  const std::string temporary = temporary_of(path);
  const mode_t mode = about.st_mode & (S_IRWXU | S_IRWXG | S_IRWXO);
  const int descriptor = ::open(temporary.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_NOFOLLOW | O_CLOEXEC, mode);
  if (descriptor < 0) return not_rewritten(path, errno);
  // Another's file stays theirs when that can be done.
  [[maybe_unused]] const int owned = ::fchown(descriptor, about.st_uid, about.st_gid);
  const bool written = ::fchmod(descriptor, mode) == 0 && write_durably(descriptor, bytes);
  const int error = errno;
  const bool closed = ::close(descriptor) == 0;
  if (written && closed) return std::nullopt;
  ::unlink(temporary.c_str());
  return not_rewritten(path, written ? errno : error);
}

void take_away_temporaries(const std::vector<Rewrite>& all) {
  for (const Rewrite& rewrite : all) ::unlink(temporary_of(rewrite.path).c_str());
}

void put_back(const Rewrite& rewrite, const struct stat& about) {
  if (!laid_beside(rewrite.path, rewrite.before, about))
    ::rename(temporary_of(rewrite.path).c_str(), rewrite.path.c_str());
}

}  // namespace

std::optional<Finding> rewrite_files(const std::vector<Rewrite>& all) {
  std::vector<struct stat> about(all.size());
  for (std::size_t at = 0; at < all.size(); ++at) {
    if (auto finding = in_the_way(all[at], about[at])) return finding;
  }
  for (std::size_t at = 0; at < all.size(); ++at) {
    if (auto finding = laid_beside(all[at].path, all[at].bytes, about[at])) {
      take_away_temporaries(std::vector<Rewrite>(all.begin(), all.begin() + static_cast<std::ptrdiff_t>(at)));
      return finding;
    }
  }
  for (std::size_t at = 0; at < all.size(); ++at) {
    if (::rename(temporary_of(all[at].path).c_str(), all[at].path.c_str()) == 0) continue;
    const int error = errno;
    for (std::size_t earlier = 0; earlier < at; ++earlier) put_back(all[earlier], about[earlier]);
    take_away_temporaries(all);
    return not_rewritten(all[at].path, error);
  }
  for (const Rewrite& rewrite : all) sync_folder(folder_around(rewrite.path));
  return std::nullopt;
}

}  // namespace rushlight
