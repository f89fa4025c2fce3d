#pragma once

#include <map>
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

/// The sets that a journal kept, each read once: nights in a row were mostly walked with the same.
class KeptSets {
 public:
  const ProtocolSet& of(const std::string& bytes);

 private:
  std::map<std::string, ProtocolSet> read_;
};

/// The same, for many nights.
std::variant<Resumed, std::vector<Finding>> resumed_from(const EpisodeRecord& record,
                                                         const std::vector<std::string>& lines, KeptSets& sets);

}  // namespace rushlight
