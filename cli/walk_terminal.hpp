#pragma once

#include <string>

#include "cli/protocol_set.hpp"
#include "protocol/child.hpp"

namespace rushlight {

/// Everything a walk needs to know before its first screen.
struct WalkInTerminal {
  LoadedProtocol protocol;
  Child child;
  std::string child_bytes;  // as the file was read: the journal keeps them
  Language language;        // to begin in; a resumed episode keeps its own unless `language_chosen`
  bool language_chosen;     // by an option, not by the child file
  std::string journal;      // path; empty: nothing is saved, and the screen says so
  bool plain;               // no screen tricks, as for a screen reader
  std::string how_to_go_on = "rushlight walk";  // the command that goes on with this episode
  std::string from = {};                        // HH:MM, to enter a night that was kept on paper; empty: now
  std::vector<LoadedProtocol> others = {};      // what else a new episode may be about: asked first when there is any
};

/// `rushlight walk`: one episode, from the first question to its end. Gives the exit status.
int walk_in_terminal(const WalkInTerminal& walk);

}  // namespace rushlight
