#pragma once

#include <iosfwd>
#include <string>

namespace rushlight {

struct RecordWish {
  std::string child, journal, language;  // as for `walk`; otherwise the usual files
  std::string days;                      // all episodes of so many days; otherwise the last one
  std::string paper = "A4";
  std::string out;
  bool text = false, fhir = false;
};

/// `rushlight record`: an episode from the journal for the clinic, as PDF, text or FHIR, with the protocol and the
/// child as they were. 0 made, 1 there is no episode, or one cannot be walked any more, 2 not readable or not writable.
int record_command(const RecordWish& wish, std::ostream& out, std::ostream& err);

}  // namespace rushlight
