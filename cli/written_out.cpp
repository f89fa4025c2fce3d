#include "cli/written_out.hpp"

#include <fcntl.h>
#include <stdio.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>
#include <filesystem>
#include <ostream>

#include "cli/durable.hpp"
#include "cli/refusals.hpp"
#include "cli/replace_files.hpp"

namespace rushlight {
namespace {

Finding not_put(const std::string& path, int error) { return whole_error(path, NotWritten{std::strerror(error), ""}); }

std::optional<Finding> write_through(const std::string& path, const std::string& bytes) {
  const int descriptor = ::open(path.c_str(), O_WRONLY | O_CLOEXEC);
  if (descriptor < 0) return not_put(path, errno);
  const bool written = write_all(descriptor, bytes);
  const int error = errno;
  ::close(descriptor);
  return written ? std::nullopt : std::optional<Finding>(not_put(path, error));
}

}  // namespace

std::optional<Finding> write_over(const std::string& path, const std::string& bytes, Reader reader) {
  struct stat about {};
  const bool there = ::stat(path.c_str(), &about) == 0;
  if (there && !S_ISREG(about.st_mode)) return write_through(path, bytes);
  const std::string target = there ? file_behind(path).value_or(path) : path;
  const std::string temporary = target + ".new-" + std::to_string(::getpid());
  const bool owner_only = reader == Reader::owner;
  const int descriptor =
      ::open(temporary.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_NOFOLLOW | O_CLOEXEC, owner_only ? 0600 : 0644);
  if (descriptor < 0) return not_put(path, errno);
  const bool kept = owner_only || !there || ::fchmod(descriptor, about.st_mode & 0777U) == 0;
  const bool written = kept && write_durably(descriptor, bytes);
  int error = errno;
  ::close(descriptor);
  if (written && ::rename(temporary.c_str(), target.c_str()) == 0) {
    sync_folder(std::filesystem::path(target).parent_path().string());
    return std::nullopt;
  }
  if (written) error = errno;
  ::unlink(temporary.c_str());
  return not_put(path, error);
}

int put_out(const std::string& path, const std::string& bytes, std::ostream& out, std::ostream& err) {
  if (!path.empty()) {
    const auto finding = write_over(path, bytes, Reader::owner);
    return finding ? tell_refusal(err, *finding) : 0;
  }
  out << bytes;  // whether all of it was taken is looked at when the command is done
  return 0;
}

}  // namespace rushlight
