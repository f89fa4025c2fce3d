#pragma once

#include <iosfwd>
#include <string>
#include <vector>

namespace rushlight {

struct PictureWish {
  std::vector<std::string> paths;  // one, of a protocol
  std::string map;                 // "STEP:FACT" or "STEP:FACT,FACT"
  bool flow = false;               // all steps; then no map
  std::vector<std::string> given;  // "FACT=VALUE"
  std::string out;                 // *.svg or *.png; what lies there is written over
};

/// `rushlight check FILE --map ... | --flow`: draws a protocol that can be read, also one with errors, since a hole in
/// the rules is best looked at. Gives the exit status of the check; 2 when nothing was drawn.
int draw_picture(const PictureWish& wish, std::ostream& out);

}  // namespace rushlight
