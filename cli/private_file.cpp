#include "cli/private_file.hpp"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>
#include <filesystem>

#include "cli/durable.hpp"
#include "cli/refusals.hpp"

namespace rushlight {
namespace {

namespace fs = std::filesystem;

Finding cannot_write(const std::string& path, int error) {
  return whole_error(path, NotWritten{std::strerror(error), ""});
}

// Each folder that is missing, for its owner only.
int make_folders(const fs::path& folder) {
  if (folder.empty() || fs::is_directory(folder)) return 0;
  if (const int error = make_folders(folder.parent_path()); error != 0) return error;
  return ::mkdir(folder.c_str(), 0700) == 0 || errno == EEXIST ? 0 : errno;
}

std::optional<Finding> write_new_file(const std::string& path, const std::string& bytes, mode_t mode) {
  struct stat about {};
  const WrongUse exists{"`" + path + "` is already there and stays as it is",
                        "move it away first, or give another name with --out"};
  if (::lstat(path.c_str(), &about) == 0) return whole_error(path, exists);
  const fs::path folder = fs::path(path).parent_path();
  if (const int error = make_folders(folder); error != 0) return cannot_write(path, error);

  const std::string temporary = path + ".new-" + std::to_string(::getpid());
  const int descriptor = ::open(temporary.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_NOFOLLOW | O_CLOEXEC, mode);
  if (descriptor < 0) return cannot_write(path, errno);
  const bool closed = mode != 0600 || ::fchmod(descriptor, mode) == 0;  // whatever the umask is
  const bool written = closed && write_durably(descriptor, bytes);
  const int error = errno;
  ::close(descriptor);
  // A link, unlike a rename, never replaces what got the name in the meantime.
  const bool named = written && ::link(temporary.c_str(), path.c_str()) == 0;
  const int naming_error = errno;
  ::unlink(temporary.c_str());
  if (!written) return cannot_write(path, error);
  if (!named) return naming_error == EEXIST ? whole_error(path, exists) : cannot_write(path, naming_error);
  sync_folder(folder.string());
  return std::nullopt;
}

}  // namespace

std::optional<Finding> write_private_file(const std::string& path, const std::string& bytes) {
  return write_new_file(path, bytes, 0600);
}

std::optional<Finding> write_public_file(const std::string& path, const std::string& bytes) {
  return write_new_file(path, bytes, 0644);
}

}  // namespace rushlight
