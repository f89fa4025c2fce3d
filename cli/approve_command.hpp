#pragma once

#include <iosfwd>
#include <string>

namespace rushlight {

/// What is wanted of `rushlight approve`, as typed.
struct ApproveWish {
  std::string set, by, role, until;
  std::string key;              // the file of the clinic's secret key; the usual one when empty
  std::string passphrase_file;  // for scripts
  bool yes = false;             // the word is not asked for
};

/// Signs every file of a set: checks it, shows what is approved, asks for the word `approve` and the passphrase, and
/// writes all files or none. Refuses while the check finds an error.
int approve_command(const ApproveWish& wish, std::ostream& out, std::ostream& err);

}  // namespace rushlight
