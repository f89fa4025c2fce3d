#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "journal/journal.hpp"

namespace rushlight {

/// A night in a file, as the page saves it (docs/page.md): what a journal keeps of an episode, and its lines.
struct NightFile {
  EpisodeStart start;
  std::optional<Moment> ended;
  std::vector<std::string> lines;
};

/// Refuses what is no such file, one of a later format, and one that was cut or has more than it says.
Read<NightFile> night_from_bytes(std::string_view bytes, const std::string& file);

inline constexpr std::size_t kMostNightBytes = 32 * 1024 * 1024;

}  // namespace rushlight
