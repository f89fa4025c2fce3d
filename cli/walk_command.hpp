#pragma once

#include <string>

namespace rushlight {

/// The options of `rushlight walk`, as typed. Empty: not given.
struct WalkOptions {
  bool json = false;
  bool demo_child = false;
  bool plain = false;
  bool take_over = false;
  bool no_journal = false;
  std::string protocols, set, child, protocol, language, journal;
  std::string from;  // HH:MM
};

/// `rushlight walk`: reads and checks the protocols and the child, then hands over to the terminal or to the JSON
/// lines. Whatever is refused is told with its place, and the first-aid card stands below it. Gives the exit status.
int walk_command(const WalkOptions& options);

}  // namespace rushlight
