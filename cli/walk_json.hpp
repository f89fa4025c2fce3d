#pragma once

#include <iosfwd>
#include <string>

#include "cli/protocol_set.hpp"
#include "protocol/child.hpp"

namespace rushlight {

struct WalkJson {
  LoadedProtocol protocol;
  Child child;
  std::string child_bytes;           // as the file was read: the journal keeps them
  std::optional<Language> language;  // when chosen by an option
  std::string journal;               // path; empty: nothing is kept
  bool take_over;                    // from another living walk of this child
};

/// `rushlight walk --json`: one event from each line of `in`, one line of `out` for each: a view, or an error that
/// changed nothing. All time is taken from the events. With a journal, an open episode of the child is taken up again,
/// and a view is printed only when its event is durable; when it cannot be made durable the view says `"saved":false`
/// and the walk goes on. A walk that cannot begin prints one error line and stops. Gives the exit status: 0; 1 when a
/// line was refused or the journal was; 2 when the journal could not be read.
int walk_json(std::istream& in, std::ostream& out, std::ostream& err, const WalkJson& walk);

}  // namespace rushlight
