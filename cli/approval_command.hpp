#pragma once

#include <iosfwd>
#include <string>

namespace rushlight {

struct ApprovalWish {
  std::string set;  // a folder, or a set inside the program
  bool json = false;
};

/// `rushlight approval`: who approved a set, until when and under which key, and how it stands with each file. Reads no
/// protocol, only bytes. 0 approved and in date under a key that is trusted here, 1 not, 2 not readable.
int approval_command(const ApprovalWish& wish, std::ostream& out, std::ostream& err);

}  // namespace rushlight
