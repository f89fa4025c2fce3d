#pragma once

#include <chrono>
#include <string>

namespace rushlight {

/// How long to wait for a line before looking again at the time: four times a second, so that a countdown never seems
/// to stick.
inline constexpr std::chrono::milliseconds kBetweenLooks{250};

/// What came in while waiting.
struct Typed {
  enum class Kind { line, nothing, end } kind;
  std::string text;  // of a line: cleaned, without the line break
};

/// Lines from a file descriptor, read without ever blocking longer than asked, so that a countdown can run beside it.
/// A terminal stays in its own line mode: it echoes and edits, and there is nothing to restore when the program dies.
class Keyboard {
 public:
  explicit Keyboard(int descriptor) : descriptor_(descriptor) {}
  /// The next line; nothing when none came in time or a signal arrived; end after the last one.
  /// A last line without a line break still counts. A line longer than any answer is cut.
  Typed wait(std::chrono::milliseconds longest);

 private:
  bool take_line(std::string& line);

  int descriptor_;
  std::string buffer_;
  bool ended_ = false;
};

}  // namespace rushlight
