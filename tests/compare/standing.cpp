#include "standing.hpp"

#include <algorithm>

#include "verify/in_words.hpp"

namespace rushlight::tests {

bool acts(const Step& step) { return !step.actions.empty() || step.wait || step.ends || step.ends_visit; }

bool has_gone_elsewhere(const Version& version) {
  const Cause& cause = version.episode.cause;
  if (cause.kind != Cause::Kind::rule) return false;
  const Rule& rule = version.protocol[cause.from].rules[cause.index];
  return !rule.visits.empty() || !rule.hands_over_to.empty();
}

bool have_counted_alike(const Version& was, const Version& now) {
  return was.episode.counted.size() != now.episode.counted.size() || was.episode.counted == now.episode.counted;
}

bool know_alike(const Version& was, const Version& now) {
  for (std::uint16_t i = 0; i < was.protocol.facts.size(); ++i) {
    const auto other = now.protocol.fact_named(was.protocol.facts[i].name);
    const std::optional<Known>& one = was.episode.facts[i];
    if (!other) continue;
    const std::optional<Known>& two = now.episode.facts[other->index];
    if (one.has_value() != two.has_value() || (one && one->learned != two->learned)) return false;
  }
  return true;
}

bool is_known_in_part(const Protocol& protocol, const std::string& step, const std::set<std::string>& told) {
  const auto id = protocol.step_named(step);
  if (!id) return false;
  const std::vector<Ask>& asks = protocol[*id].asks;
  const auto is_told = [&](const Ask& ask) { return told.count(protocol[ask.fact].name) > 0; };
  return std::any_of(asks.begin(), asks.end(), is_told) && !std::all_of(asks.begin(), asks.end(), is_told);
}

std::string told_words(const Protocol& protocol, GlucoseUnit unit, const Values& values,
                       const std::set<std::string>& told) {
  std::string text = unit == GlucoseUnit::mg_per_dl ? "mg/dL" : "mmol/L";
  for (const auto& [name, value] : values) {
    const auto id = protocol.fact_named(name);
    if (id && told.count(name) > 0) text += ", " + in_words(protocol, *id, value);
  }
  return text;
}

std::set<Contact> called(const Episode& episode) {
  std::set<Contact> contacts;
  for (const OpenCall& call : episode.calls) contacts.insert(call.contact);
  return contacts;
}

}  // namespace rushlight::tests
