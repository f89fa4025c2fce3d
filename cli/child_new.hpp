#pragma once

#include <iosfwd>
#include <optional>
#include <string>

#include "measure/moment.hpp"
#include "protocol/text.hpp"

namespace rushlight {

struct ChildNew {
  std::string out;  // the file to write; nothing may be there yet
  Day today;
  std::optional<Language> language;  // asked for when not chosen
};

/// `rushlight child new`: asks for the child file in plain words, one question at a time, and shows back what was
/// understood before anything is written. Works from a terminal and from a pipe. Gives the exit status: 0 written; 1
/// not written, because the person said no or the file is already there; 2 the answers ran out or the file cannot be
/// written.
int child_new(std::istream& in, std::ostream& out, const ChildNew& wish);

}  // namespace rushlight
