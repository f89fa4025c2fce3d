#include "cli/terminal.hpp"

#include <sys/ioctl.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cstdlib>
#include <string_view>

#include "cli/plain_text.hpp"

namespace rushlight {
namespace {

constexpr int kFewestColumns = 20;
constexpr int kFewestRows = 8;
constexpr Terminal::Size kUsual{24, 80};

std::string_view environment(const char* name) {
  const char* value = std::getenv(name);
  return value == nullptr ? std::string_view{} : std::string_view{value};
}

}  // namespace

Terminal::Terminal(int descriptor, bool is_terminal, bool plain) : descriptor_(descriptor), is_terminal_(is_terminal) {
  const std::string_view term = environment("TERM");
  live_ = is_terminal && !plain && !term.empty() && term != "dumb";
  bold_ = live_ && environment("NO_COLOR").empty();
}

Terminal::Size Terminal::size() const {
  winsize window{};
  if (!is_terminal_ || ioctl(descriptor_, TIOCGWINSZ, &window) != 0 || window.ws_col == 0 || window.ws_row == 0) {
    return kUsual;
  }
  return {std::max<int>(window.ws_row, kFewestRows), std::max<int>(window.ws_col, kFewestColumns)};
}

void Terminal::show(const std::vector<Line>& lines, const std::string& prompt, Where where) {
  std::string bytes = live_ && where == Where::fresh_screen ? "\x1b[H\x1b[2J" : at_prompt_ ? "\n\n" : "";
  for (const Line& line : lines) bytes += bytes_of(line) + '\n';
  bytes += cleaned(prompt);
  at_prompt_ = !prompt.empty();
  rows_above_ = lines.size();
  write_all(bytes);
}

// The terminal itself echoes what is typed, so nobody here can write it again: the prompt's row is moved as it is, by
// rows put in or taken out at the top, and the cursor with it.
void Terminal::show_above_prompt(const std::vector<Line>& lines) {
  if (!live_) return;
  const auto rows = [](std::size_t count, char what) { return "\x1b[" + std::to_string(count) + what; };
  std::string bytes =
      "\x1b"
      "7\x1b[H";
  std::string back =
      "\x1b"
      "8";
  if (lines.size() > rows_above_) {
    bytes += rows(lines.size() - rows_above_, 'L');
    back += rows(lines.size() - rows_above_, 'B');
  } else if (lines.size() < rows_above_) {
    bytes += rows(rows_above_ - lines.size(), 'M');
    back += rows(rows_above_ - lines.size(), 'A');
  }
  for (std::size_t row = 0; row < lines.size(); ++row) bytes += rows(row + 1, 'H') + "\x1b[2K" + bytes_of(lines[row]);
  rows_above_ = lines.size();
  write_all(bytes + back + "\x1b[J");
}

std::string Terminal::bytes_of(const Line& line) const {
  const std::string text = cleaned(line.text);
  return line.strong && bold_ ? "\x1b[1m" + text + "\x1b[0m" : text;
}

void Terminal::rewrite_above_prompt(const std::string& text) {
  if (live_)
    write_all(
        "\x1b"
        "7\x1b[1A\r" +
        cut(cleaned(text), size().columns - 1) +
        "\x1b[K\x1b"
        "8");
}

void Terminal::rewrite_second(const std::string& text) {
  if (live_)
    write_all(
        "\x1b"
        "7\x1b[2;1H" +
        cut(cleaned(text), size().columns - 1) +
        "\x1b[K\x1b"
        "8");
}

void Terminal::ring() {
  if (is_terminal_) write_all("\a");
}

void Terminal::print(const std::string& text) { write_all(cleaned(text) + "\n"); }

void Terminal::leave_prompt() {
  if (at_prompt_) write_all("\n");
  at_prompt_ = false;
}

void Terminal::write_all(const std::string& bytes) {
  std::string_view rest = bytes;
  while (!rest.empty()) {
    const ssize_t count = write(descriptor_, rest.data(), rest.size());
    if (count > 0) {
      rest.remove_prefix(static_cast<std::size_t>(count));
    } else if (errno != EINTR && errno != EAGAIN) {
      const bool nobody_reads = errno == EPIPE || errno == EIO;  // the walk ends when its input does
      if (!nobody_reads) failed_with_ = errno;
      return;
    }
  }
}

}  // namespace rushlight
