#pragma once

#include <iosfwd>
#include <string>

namespace rushlight {

struct WhereWish {
  std::string child, protocols, set;  // as for `walk`
  bool json = false;
};

/// `rushlight where`: every folder and file that the program uses, whether it is there, and which set a walk would
/// follow and why.
int where_command(const WhereWish& wish, std::ostream& out);

}  // namespace rushlight
