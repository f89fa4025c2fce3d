#include "cli/resumed.hpp"

#include "episode/fold.hpp"
#include "wire/child_from_json.hpp"
#include "wire/event_from_line.hpp"

namespace rushlight {

std::variant<Resumed, std::vector<Finding>> resumed_from(const EpisodeRecord& record,
                                                         const std::vector<std::string>& lines) {
  Read<std::vector<KeptFile>> files = kept_from_text(record.start.protocol_bytes, "the protocol in the journal");
  if (!files.value) return files.findings;
  const ProtocolSet set = set_kept_in_journal(*files.value);
  const LoadedProtocol* found = set.find(record.start.protocol);
  if (found == nullptr) return set.findings;
  // What was accepted when the episode began is accepted on every later day; a clock that has gone back must not refuse
  // it.
  constexpr Day kLatest{std::chrono::year{9999}, std::chrono::December, std::chrono::day{31}};
  Read<Child> child = child_from_json(record.start.child_bytes, "the child in the journal", kLatest);
  if (!child.value) return child.findings;
  const LoadedProtocol& loaded = *found;
  const Protocol& protocol = loaded.checked.protocol();
  Episode episode = begun(protocol, *child.value, record.start.began);
  std::uint32_t number = 0;
  for (const std::string& line : lines) {
    auto event = event_from_line(line, protocol, *child.value, "the journal", ++number);
    if (auto* findings = std::get_if<std::vector<Finding>>(&event)) return *findings;
    episode = folded(protocol, *child.value, std::move(episode), std::get<Event>(event));
  }
  return Resumed{loaded, *child.value, std::move(episode)};
}

}  // namespace rushlight
