#include "journal/resume.hpp"

#include "episode/fold.hpp"
#include "wire/event_from_line.hpp"

namespace rushlight {

Read<Episode> episode_from_lines(const Protocol& protocol, const Child& child, const Moment& began,
                                 const std::vector<std::string>& lines, const std::string& file) {
  Read<Episode> read;
  Episode episode = begun(protocol, child, began);
  std::uint32_t number = 0;
  for (const std::string& line : lines) {
    auto event = event_from_line(line, protocol, child, file, ++number);
    if (auto* findings = std::get_if<std::vector<Finding>>(&event)) {
      read.findings = std::move(*findings);
      return read;
    }
    episode = folded(protocol, child, std::move(episode), std::get<Event>(event));
  }
  read.value.emplace(std::move(episode));
  return read;
}

Read<std::optional<Unfinished>> unfinished_episode(const Journal& journal, const std::string& child) {
  Read<std::optional<Unfinished>> read;
  auto found = journal.open_episode_of(child);
  if (!found.value) {
    read.findings = std::move(found.findings);
    return read;
  }
  if (!*found.value) {
    read.value.emplace(std::nullopt);
    return read;
  }
  EpisodeRecord record = std::move(**found.value);
  auto lines = journal.lines_of(record.number);
  if (!lines.value) {
    read.findings = std::move(lines.findings);
    return read;
  }
  read.value.emplace(Unfinished{std::move(record), std::move(*lines.value)});
  return read;
}

}  // namespace rushlight
