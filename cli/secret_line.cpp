#include "cli/secret_line.hpp"

#include <termios.h>
#include <unistd.h>

#include <cerrno>

#include "cli/signals.hpp"
#include "seal/keys.hpp"

namespace rushlight {
namespace {

constexpr std::size_t kLongestSecretLine = 4000;

/// Turns the echo off as long as it lives.
class NoEcho {
 public:
  explicit NoEcho(int descriptor) : descriptor_(descriptor) {
    if (tcgetattr(descriptor_, &before_) != 0) return;
    termios silent = before_;
    silent.c_lflag &= ~static_cast<tcflag_t>(ECHO);
    silent.c_lflag |= ECHONL;
    changed_ = tcsetattr(descriptor_, TCSAFLUSH, &silent) == 0;
  }
  NoEcho(const NoEcho&) = delete;
  NoEcho& operator=(const NoEcho&) = delete;
  ~NoEcho() {
    if (changed_) tcsetattr(descriptor_, TCSAFLUSH, &before_);
  }

 private:
  int descriptor_;
  termios before_{};
  bool changed_ = false;
};

}  // namespace

std::optional<std::string> line_from_descriptor(int descriptor) {
  std::string line;
  line.reserve(kLongestSecretLine + 1);  // so that no copy of a secret stays behind in memory
  while (true) {
    char letter = 0;
    const ssize_t got = ::read(descriptor, &letter, 1);
    if (got < 0 && errno == EINTR && signal_to_leave() == 0) continue;
    if (got < 0 || (got == 0 && line.empty()) || line.size() > kLongestSecretLine) {
      wipe(line);
      return std::nullopt;
    }
    if (got == 0 || letter == '\n') break;
    line += letter;
  }
  if (!line.empty() && line.back() == '\r') line.pop_back();
  return line;
}

std::optional<std::string> secret_line_from_descriptor(int descriptor) {
  if (isatty(descriptor) != 1) return line_from_descriptor(descriptor);
  note_signals();  // Ctrl-C must not leave a terminal behind that shows nothing
  const NoEcho silent(descriptor);
  return line_from_descriptor(descriptor);
}

}  // namespace rushlight
