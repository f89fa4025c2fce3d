#pragma once

#include <string>
#include <variant>
#include <vector>

#include "episode/episode.hpp"

namespace rushlight {

/// An episode as its kept lines tell it, or what is wrong with the first of them that is no event of this protocol.
/// `file` names them in findings.
std::variant<Episode, std::vector<Finding>> episode_told_by(const std::vector<std::string>& lines,
                                                            const Protocol& protocol, const Child& child,
                                                            const Moment& began, const std::string& file);

/// Adds what an earlier night tells of the next ones: its readings as they are believed, what was given against a low,
/// and the latest insulin. The lines alone do not tell it: "all done" names no medicine.
void add_night_to_history(History& history, const Protocol& protocol, const Episode& night);

}  // namespace rushlight
