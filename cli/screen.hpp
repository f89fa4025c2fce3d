#pragma once

#include <optional>
#include <string>
#include <vector>

#include "cli/terminal.hpp"
#include "protocol/step.hpp"
#include "protocol/text.hpp"

namespace rushlight {

/// One thing to read that is not torn apart where a page can help it: "1. " and its text.
struct Block {
  std::string lead, text;
  bool can_wait = false;       // where all of it does not fit one page, it comes behind what has to be done or answered
  bool together = false;       // of a list to choose from: it is not torn where a page of its own can hold it
  std::string chosen_by = {};  // what is typed for this line; empty: it is only read
  std::optional<ActionKind> tells_to = std::nullopt;  // what the line says is to be done
  friend bool operator==(const Block&, const Block&) = default;
};

/// One screen in words, before anybody knows how wide it is. From top to bottom as it is read aloud.
struct Screen {
  std::string urgency;  // the first line, and nothing before it
  std::string who;      // the child's name, cut where there is no room for it and the time
  std::string when;     // the clock time beside it, never cut
  std::string headline;
  std::vector<Block> body;     // an empty block is a blank line, left out when there is no room
  std::string said;            // what became of the last line typed; may be empty
  std::string tell;            // what to type now
  std::string keys, few_keys;  // the keys that are the same everywhere, and the same for a small screen
  std::string live;            // the countdown above the prompt; may be empty

  /// Equal but for the clock: such a screen need not be drawn again.
  bool says_the_same_as(const Screen& other) const;
};

/// The second line at this width: the name and the time.
std::string who_line(const Screen& screen, int width);

/// The screen as pages that fit `size` with the prompt below. Every page begins with the urgency and the child (and,
/// but on the later pages of a small screen, the headline), and ends with the keys. Nothing is cut: what does not fit
/// one page is on the next, broken between blocks.
std::vector<std::vector<Line>> pages_of(const Screen& screen, const Terminal::Size& size, Language language);

}  // namespace rushlight
