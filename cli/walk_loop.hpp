#pragma once

#include <chrono>
#include <optional>
#include <string>

#include "cli/bell.hpp"
#include "cli/clock.hpp"
#include "cli/dialog.hpp"
#include "cli/keyboard.hpp"
#include "cli/noticed.hpp"
#include "cli/paper_clock.hpp"
#include "cli/screen.hpp"
#include "cli/terminal.hpp"
#include "cli/walk_store.hpp"
#include "verify/check.hpp"

namespace rushlight {

/// What one walk is about, and the words to go on with it.
struct Walked {
  CheckedProtocol protocol;
  Child child;
  Episode episode;
  std::string how_to_go_on;  // "rushlight walk --child ..."
  std::string said;          // the sentence of the first screen; may be empty
};

/// Shows, waits for a key or for the time, and writes down what happened. The one loop of the terminal walk.
class WalkLoop {
 public:
  /// `paper`: the same clock, when it may be moved by what is typed; null otherwise.
  WalkLoop(Walked walked, Terminal& terminal, Keyboard& keyboard, const Clock& clock, WalkStore& store,
           PaperClock* paper = nullptr);

  /// Until the episode is closed, left or taken over. Gives the exit status.
  int run();

 private:
  // Whether what is half typed behind the prompt stays there when the screen above it changes.
  enum class Prompt { stays, anew };

  void look();
  void draw(const Screen& screen, Prompt prompt);
  void rewrite_time(const Screen& screen);
  void sound(const Noticed& noticed);
  std::optional<int> take(const std::string& line);
  std::optional<int> carry_out(const Turn& turn);
  void write_down(const What& what);
  std::optional<int> was_taken_over();
  int leave(int status);
  Situation situation() const;

  Walked walked_;
  Terminal& terminal_;
  Keyboard& keyboard_;
  const Clock& clock_;
  WalkStore& store_;
  PaperClock* paper_;

  Moment now_;
  Episode settled_;
  View view_;
  Dialog dialog_ = OnStep{};
  std::string said_;
  bool first_ = true;     // the first screen has not been answered yet
  bool by_key_ = true;    // the next screen follows a key, and not the time
  bool by_time_ = false;  // the last change followed the time
  Prompt prompt_ = Prompt::stays;
  std::size_t page_ = 0, pages_ = 1;
  std::optional<Screen> shown_;
  std::string shown_when_, shown_live_;
  std::optional<Noticed> noticed_;
  Bell bell_;
  std::chrono::nanoseconds drawn_at_{0}, retried_at_{0};
};

}  // namespace rushlight
