#include "cli/keyboard.hpp"

#include <poll.h>
#include <unistd.h>

#include <array>
#include <cerrno>

#include "cli/plain_text.hpp"

namespace rushlight {
namespace {

constexpr std::size_t kLongestLine = 2000;  // bytes; what a clinic says over the phone fits ten times

}  // namespace

bool Keyboard::take_line(std::string& line) {
  const std::size_t end = buffer_.find('\n');
  if (end == std::string::npos) {
    if (!ended_ || buffer_.empty()) return false;
    line.swap(buffer_);
    buffer_.clear();
  } else {
    line = buffer_.substr(0, end);
    buffer_.erase(0, end + 1);
  }
  if (!line.empty() && line.back() == '\r') line.pop_back();
  line = cleaned(line.substr(0, kLongestLine));
  return true;
}

Typed Keyboard::wait(std::chrono::milliseconds longest) {
  Typed typed{Typed::Kind::nothing, ""};
  if (take_line(typed.text)) return {Typed::Kind::line, typed.text};
  if (ended_) return {Typed::Kind::end, ""};

  pollfd waiting{descriptor_, POLLIN, 0};
  if (poll(&waiting, 1, static_cast<int>(longest.count())) <= 0) return typed;
  std::array<char, 4096> bytes;
  const ssize_t count = read(descriptor_, bytes.data(), bytes.size());
  if (count < 0 && (errno == EINTR || errno == EAGAIN)) return typed;
  if (count <= 0) {
    ended_ = true;
  } else {
    buffer_.append(bytes.data(), static_cast<std::size_t>(count));
    const bool endless = buffer_.size() > 2 * kLongestLine && buffer_.find('\n') == std::string::npos;
    if (endless) buffer_.resize(kLongestLine);
  }
  if (take_line(typed.text)) return {Typed::Kind::line, typed.text};
  return {ended_ ? Typed::Kind::end : Typed::Kind::nothing, ""};
}

}  // namespace rushlight
