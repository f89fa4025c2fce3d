#pragma once

#include <iosfwd>
#include <string>

namespace rushlight {

struct ImportOptions {
  std::string file;     // a night that the page saved
  std::string journal;  // the usual one when empty
};

/// `rushlight import`: takes a night that was walked on the page into the journal, as if it had been walked here:
/// `rushlight walk` goes on with it at the same step and deadline. Every line is folded over the kept protocol before
/// anything is written. A night that is there already takes only the lines that are new; one that went on otherwise
/// here is refused, and so is one of a child of whom another episode is open. Gives the exit status: 0 taken, or there
/// already; 1 refused, nothing is written; 2 something cannot be read or written.
int import_command(const ImportOptions& options, std::ostream& out, std::ostream& err);

}  // namespace rushlight
