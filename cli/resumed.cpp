#include "cli/resumed.hpp"

#include "cli/past_night.hpp"
#include "wire/child_from_json.hpp"

namespace rushlight {

const ProtocolSet& KeptSets::of(const std::string& bytes) {
  const auto known = read_.find(bytes);
  if (known != read_.end()) return known->second;
  Read<std::vector<KeptFile>> files = kept_from_text(bytes, "the protocol in the journal");
  ProtocolSet set;
  if (files.value)
    set = set_kept_in_journal(*files.value);
  else
    set.findings = std::move(files.findings);
  return read_.emplace(bytes, std::move(set)).first->second;
}

std::variant<Resumed, std::vector<Finding>> resumed_from(const EpisodeRecord& record,
                                                         const std::vector<std::string>& lines) {
  KeptSets sets;
  return resumed_from(record, lines, sets);
}

std::variant<Resumed, std::vector<Finding>> resumed_from(const EpisodeRecord& record,
                                                         const std::vector<std::string>& lines, KeptSets& sets) {
  const ProtocolSet& set = sets.of(record.start.protocol_bytes);
  const LoadedProtocol* found = set.find(record.start.protocol);
  if (found == nullptr) return set.findings;
  // What was accepted when the episode began is accepted on every later day; a clock that has gone back must not refuse
  // it.
  constexpr Day kLatest{std::chrono::year{9999}, std::chrono::December, std::chrono::day{31}};
  Read<Child> child = child_from_json(record.start.child_bytes, "the child in the journal", kLatest);
  if (!child.value) return child.findings;
  const LoadedProtocol& loaded = *found;
  const Protocol& protocol = loaded.checked.protocol();
  auto told = episode_told_by(lines, protocol, *child.value, record.start.began, "the journal");
  if (auto* findings = std::get_if<std::vector<Finding>>(&told)) return *findings;
  return Resumed{loaded, *child.value, std::move(std::get<Episode>(told))};
}

}  // namespace rushlight
