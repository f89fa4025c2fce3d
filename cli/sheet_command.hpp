#pragma once

#include <iosfwd>
#include <string>
#include <vector>

namespace rushlight {

struct SheetWish {
  std::string child, protocols, set, language;  // as for `walk`; without a child file the invented one
  std::vector<std::string> also;                // protocols that get a further page
  std::string paper = "A4";
  std::string out;  // the file; PDF needs one
  std::string on;   // the day from which it is used; otherwise today
  bool text = false, svg = false;
};

/// `rushlight sheet`: a child's steps on paper. PDF to --out; with --text or --svg that form, to --out or printed.
/// 0 made, 1 refused (a set or child with an error, no low to print, a day past the sheet's own), 2 not readable or not
/// writable.
int sheet_command(const SheetWish& wish, std::ostream& out, std::ostream& err);

}  // namespace rushlight
