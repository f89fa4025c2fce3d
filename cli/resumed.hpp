#pragma once

#include <variant>
#include <vector>

#include "cli/protocol_set.hpp"
#include "episode/episode.hpp"
#include "journal/journal.hpp"

namespace rushlight {

/// An episode taken up again from its journal: the protocol and the child as they were when it began, whatever has
/// become of their files since, and every event folded in.
struct Resumed {
  LoadedProtocol protocol;
  Child child;
  Episode episode;
};

/// Refuses (never guesses) when the kept protocol no longer passes its checks or a line is not an event of it.
std::variant<Resumed, std::vector<Finding>> resumed_from(const EpisodeRecord& record,
                                                         const std::vector<std::string>& lines);

}  // namespace rushlight
