#pragma once

#include <utility>

#include "protocol/resolve_parts.hpp"

// Private to engine/protocol: looking words up in a protocol that is already there, for the files beside it.

namespace rushlight {

inline const Draft kNoDraft{};

template <class Nouns>
Names names_of(std::string noun, const Nouns& nouns) {
  Names names{std::move(noun), {}, {}};
  for (const auto& each : nouns) {
    names.names.push_back(each.name);
    names.places.push_back(each.where);
  }
  return names;
}

/// The words of a law or an example name what the protocol has. Steps and actions are there by name only: they are most
/// of a protocol, and whoever asks for more of one has the protocol itself.
inline Resolver resolver_of(const Protocol& protocol) {
  Resolver resolver{kNoDraft};
  resolver.protocol.name = protocol.name;
  resolver.protocol.languages = protocol.languages;
  resolver.protocol.thresholds = protocol.thresholds;
  resolver.protocol.facts = protocol.facts;
  resolver.protocol.doses = protocol.doses;
  resolver.sources = names_of("source", protocol.sources);
  resolver.thresholds = names_of("threshold", protocol.thresholds);
  resolver.facts = names_of("fact", protocol.facts);
  resolver.doses = names_of("dose", protocol.doses);
  resolver.counters = names_of("counter", protocol.counters);
  resolver.marks = names_of("mark", protocol.marks);
  resolver.actions = names_of("action", protocol.actions);
  resolver.steps = names_of("step", protocol.steps);
  return resolver;
}

}  // namespace rushlight
