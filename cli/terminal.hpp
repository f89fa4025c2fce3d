#pragma once

#include <string>
#include <vector>

namespace rushlight {

/// One line of a screen; only the urgency stands out.
struct Line {
  std::string text;
  bool strong = false;
};

/// The only writer to a terminal. Every text is cleaned on the way, so that nothing in a file or an answer can steer
/// it. Live: the screen is cleared before each screen and the countdown moves in place. Otherwise (a pipe, a dumb
/// terminal, `plain`) each screen is printed once below the last one, without one escape character.
class Terminal {
 public:
  struct Size {
    int rows, columns;
  };

  /// `is_terminal` says that `descriptor` and the keyboard are both terminals.
  Terminal(int descriptor, bool is_terminal, bool plain);

  bool is_live() const { return live_; }
  bool is_terminal() const { return is_terminal_; }
  /// At least 20 columns and 8 rows; 80 by 24 when nobody knows. A printed page has no last row.
  Size size() const;

  enum class Where { fresh_screen, below };
  /// The screen and, below it, the prompt. The lines must fit the size already.
  void show(const std::vector<Line>& lines, const std::string& prompt, Where where = Where::fresh_screen);
  /// Another screen above the prompt that is there, which moves with what is half typed behind it. The last one must
  /// have been shown fresh, or so. Does nothing unless live.
  void show_above_prompt(const std::vector<Line>& lines);
  /// Rewrites the line above the prompt, or the second from the top; half-typed answers stay. Does nothing unless live.
  void rewrite_above_prompt(const std::string& text);
  void rewrite_second(const std::string& text);
  /// One beep. Nothing when the output is no terminal.
  void ring();
  /// A line outside every screen, such as the last word on leaving.
  void print(const std::string& text);
  /// The cursor stands behind a prompt: a line printed next begins on a row of its own.
  void leave_prompt();
  /// Why something could not be written: the errno, 0 when all was. That nobody reads any more does not count.
  int failed_with() const { return failed_with_; }

 private:
  std::string bytes_of(const Line& line) const;
  void write_all(const std::string& bytes);

  int descriptor_;
  bool is_terminal_, live_, bold_;
  bool at_prompt_ = false;
  int failed_with_ = 0;
  std::size_t rows_above_ = 0;  // of the prompt, on the last screen
};

}  // namespace rushlight
