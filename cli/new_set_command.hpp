#pragma once

#include <iosfwd>
#include <string>

namespace rushlight {

struct NewSetWish {
  std::string name;
  std::string from;  // a set inside the program, or a folder
  std::string out;   // the folder to make; the name itself when empty
};

/// `rushlight new-set`: a clinic's own set on the disk. Copies every *.xml, writes the set's name and version 1 into
/// each, leaves the approval out and changes no other byte. The folder is new, and whole or not there at all.
int new_set_command(const NewSetWish& wish, std::ostream& out, std::ostream& err);

}  // namespace rushlight
