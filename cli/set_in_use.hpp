#pragma once

#include <string>

#include "cli/protocol_set.hpp"
#include "protocol/child.hpp"

namespace rushlight {

/// Which set is walked, and why. The first of these counts: --protocols, --set, `protocols` of the child file, `set` of
/// the child file, which is `reference` when it names none.
struct SetInUse {
  std::string folder;  // empty: inside the program
  std::string name;    // of the set inside the program, or of a folder in `folder`
  enum class Why { option_protocols, option_set, child_protocols, child_set, nothing_said } why;
};

/// `child` is null when there is no child file yet.
SetInUse set_in_use(const std::string& protocols, const std::string& set, const Child* child,
                    const std::string& child_file);

ProtocolSet read_set(const SetInUse& use);

}  // namespace rushlight
