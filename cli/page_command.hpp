#pragma once

#include <iosfwd>
#include <string>

namespace rushlight {

struct PageOptions {
  std::string child, protocols, set, language;  // as for `walk`
  bool demo_child = false;
  bool clinic = false;  // the set's numbers for a nurse, instead of a walk; needs no child
  std::string out;     // a folder to make
  std::string single;  // one file to make
  bool serve = false;  // give the page out on this machine alone
};

/// `rushlight page`: the walk for a phone's browser, made from a set and a child file, of which only a set without an
/// error is taken; or the clinic's page, of any set that can be read. Nothing that is there already is written over.
/// Gives the exit status: 0 made, or served until it was stopped; 1 refused; 2 something cannot be read or written,
/// wrong use, or this program was built without the page.
int page_command(const PageOptions& options, std::ostream& out, std::ostream& err);

}  // namespace rushlight
