#pragma once

#include <optional>
#include <string>
#include <vector>

#include "cli/bell.hpp"
#include "cli/dialog.hpp"
#include "cli/noticed.hpp"
#include "cli/screen.hpp"
#include "wire/json_tree.hpp"

namespace rushlight {

/// The walk behind the handheld page: what the loop is for the terminal. It reads no clock and keeps nothing; each call
/// says what time it is, and gets back the screen and the lines to be kept in the journal.
///
/// One JSON object in, one out. `do` says what is wanted:
///   begin   `protocol`, `language`, `nights` (earlier episodes, oldest first: `protocol`, `began`, `lines`, and `plan`
///   when
///           it was another), `plans` (each other one: `sum`, `model`, `child`): a new episode
///   resume  `protocol`, `began`, `lines`: an episode of the journal
///   look    nothing more: what stands there at this moment
///   tap     `screen` (its number), `typed` (what the button or pad types)
///   back    away from a menu; nothing is recorded
///   line    `line`, `first` (not empty: a new episode): one event as docs/wire-format.md has it; gives its view, as
///   `walk --json`
/// with `at` (the time with its offset) and `ticks` (whole seconds of a clock that nobody sets).
/// A refused call gives {"error":...} and changes nothing.
class PageWalk {
 public:
  /// `model`: text_from_protocols of the set; `child`: the child file. Gives {"child":...,"protocols":[...]} or
  /// {"error":...}.
  std::string open(const std::string& model, const std::string& child, const std::string& today);
  std::string call(const std::string& request);

 private:
  struct Request;
  std::string answer(const Request& request);
  std::string begin(const Request& request);
  std::string resume(const Request& request);
  std::string tap(const Request& request);
  std::string line(const Request& request);
  History past_told_by(const Request& request) const;
  std::string seen(const Request& request, const char* command = "");
  void look(const Request& request);
  void tell(const Event& event);
  bool choose(const std::string& protocol);
  const Protocol& protocol() const { return protocols_[chosen_]; }

  std::vector<Protocol> protocols_;
  std::optional<Child> child_;
  std::size_t chosen_ = 0;
  std::optional<Episode> episode_;
  std::vector<std::string> lines_;  // told since the last answer

  Dialog dialog_ = OnStep{};
  std::string said_;
  bool first_ = true;
  bool by_tap_ = true;  // the next screen follows a tap, and not the time
  int number_ = 0;
  std::optional<Screen> shown_;
  std::optional<Noticed> noticed_;
  Bell bell_;

  // Of the last look.
  Episode settled_;
  View view_;
  Moment now_;
};

}  // namespace rushlight
