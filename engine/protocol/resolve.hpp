#pragma once

#include "protocol/draft.hpp"
#include "protocol/protocol.hpp"

namespace rushlight {

/// Looks up every id and reads every number of a draft. All mistakes are reported in one run, in file order;
/// the protocol is absent when one of them is an error. Never guesses: a word it does not know is a finding.
Read<Protocol> resolve(const Draft& draft);

}  // namespace rushlight
