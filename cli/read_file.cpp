#include "cli/read_file.hpp"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cstring>

namespace rushlight {
namespace {

class Descriptor {
 public:
  explicit Descriptor(int number) : number_(number) {}
  Descriptor(const Descriptor&) = delete;
  Descriptor& operator=(const Descriptor&) = delete;
  ~Descriptor() {
    if (number_ >= 0) ::close(number_);
  }
  int number() const { return number_; }

 private:
  int number_;
};

Finding refusal(const std::string& path, Kind kind) {
  return Finding{Severity::error, Where{path, 0, 0, 0}, std::move(kind), {}};
}

bool is_link(const std::string& path) {
  struct stat about {};
  return ::lstat(path.c_str(), &about) == 0 && S_ISLNK(about.st_mode);
}

std::string reason_of(const std::string& path, int error) {
  switch (error) {
    case ENOENT:
    case ENOTDIR:
      return is_link(path) ? "it is a link to a file that is not there" : "there is no such file";
    case EACCES:
    case EPERM:
      return "you may not read it";
    default:
      return std::strerror(error);
  }
}

}  // namespace

FileBytes bytes_of_file(const std::string& path, std::size_t most) {
  // Without O_NONBLOCK, opening a pipe nobody writes to would wait for ever.
  const Descriptor file(::open(path.c_str(), O_RDONLY | O_CLOEXEC | O_NONBLOCK));
  if (file.number() < 0) return refusal(path, NotReadable{reason_of(path, errno)});
  struct stat about {};
  if (::fstat(file.number(), &about) != 0) return refusal(path, NotReadable{reason_of(path, errno)});
  if (S_ISDIR(about.st_mode)) return refusal(path, NotReadable{"it is a folder"});
  if (!S_ISREG(about.st_mode)) return refusal(path, NotReadable{"it is not an ordinary file"});
  std::string bytes;
  char piece[16384];
  while (bytes.size() <= most) {
    const ssize_t got = ::read(file.number(), piece, sizeof piece);
    if (got == 0) return bytes;
    if (got < 0 && errno == EINTR) continue;
    if (got < 0) return refusal(path, NotReadable{reason_of(path, errno)});
    bytes.append(piece, static_cast<std::size_t>(got));
  }
  const long long found = std::max(static_cast<long long>(about.st_size), static_cast<long long>(bytes.size()));
  return refusal(path, TooLarge{"the size of the file in bytes", found, static_cast<long long>(most)});
}

}  // namespace rushlight
