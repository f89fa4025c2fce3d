#pragma once

#include <string>
#include <vector>

#include "episode/episode.hpp"
#include "journal/journal.hpp"

namespace rushlight {

/// The episode as the kept lines tell it: begun, then folded over line after line. Any first part of an episode's lines
/// is an episode. Refuses, with the line's number, a line that this protocol cannot have brought about.
/// `protocol` and `child` are those read from the bytes kept with the episode, not from the files of today.
Read<Episode> episode_from_lines(const Protocol& protocol, const Child& child, const Moment& began,
                                 const std::vector<std::string>& lines, const std::string& file);

/// An open episode as it is found again: what was kept when it began, and its lines.
struct Unfinished {
  EpisodeRecord record;
  std::vector<std::string> lines;
};

/// The child's unfinished episode; `value` holds an empty optional when there is none.
Read<std::optional<Unfinished>> unfinished_episode(const Journal& journal, const std::string& child);

}  // namespace rushlight
