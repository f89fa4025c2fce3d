#include "cli/kept_nights.hpp"

namespace rushlight {

std::variant<std::vector<Resumed>, std::vector<Finding>> kept_nights(const std::string& journal,
                                                                     const std::string& child,
                                                                     std::optional<Instant> since) {
  Read<Journal> opened = Journal::open(journal);
  if (!opened.value) return opened.findings;
  const Read<std::vector<EpisodeRecord>> all = opened.value->episodes_of(child);
  if (!all.value) return all.findings;
  std::vector<Resumed> nights;
  KeptSets sets;
  for (const EpisodeRecord& each : *all.value) {
    if (since ? each.start.began.utc < *since : !nights.empty()) break;
    if (each.events == 0) continue;
    const Read<std::optional<EpisodeRecord>> whole = opened.value->episode(each.number);
    const Read<std::vector<std::string>> lines = opened.value->lines_of(each.number);
    if (!whole.value) return whole.findings;
    if (!lines.value) return lines.findings;
    if (!*whole.value) continue;  // gone since it was listed
    auto resumed = resumed_from(**whole.value, *lines.value, sets);
    if (auto* findings = std::get_if<std::vector<Finding>>(&resumed)) return *findings;
    nights.insert(nights.begin(), std::move(std::get<Resumed>(resumed)));
  }
  return nights;
}

}  // namespace rushlight
