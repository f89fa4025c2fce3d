#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "protocol/protocol.hpp"
#include "verify/graph.hpp"
#include "verify/regions.hpp"

// Private to engine/verify: the answers that are an emergency whatever else is true. No clinic can take them out.

namespace rushlight {

/// The question whose answer the menu after a call to the clinic tells.
inline constexpr std::string_view kClinicSaid = "clinic-said";

/// An answer that means danger, and the child of whom it is the answer.
struct Danger {
  std::string_view fact;
  std::string_view answer;  // an option, or "unknown"
  std::string_view child;   // "no watch looks out for a child who ..."
};

/// "Can't tell" whether the child wakes or can swallow counts as no.
inline constexpr Danger kDangers[] = {
    {"awake", "no", "will not wake"},
    {"awake", "unknown", "may not wake (`awake` is unknown)"},
    {"swallow", "no", "cannot swallow"},
    {"swallow", "unknown", "may not be able to swallow (`swallow` is unknown)"},
    {"seizure", "yes", "has a seizure"},
    {"breathing-normally", "no", "does not breathe as usual (`breathing-normally` is no)"},
};

/// The questions that every protocol has; how a child breathes need not be asked of a caregiver.
inline constexpr std::string_view kAlwaysAsked[] = {"awake", "swallow", "seizure"};

/// The bit of an answer; 0 when the question has no such option.
std::uint64_t bit_of(const Fact& fact, std::string_view answer);

/// The danger that a watch rule looks out for, if it does: the answer makes it fire.
const Danger* danger_of(const Protocol& protocol, const Watch& watch);

bool handles(const Step& step, WatchId watch);
/// The first watch for a danger that the step handles: in it a child may be in that danger while nothing fires.
const Watch* danger_handled(const Protocol& protocol, const Step& step);

/// A danger in which the child may still be when this way is taken, and that is not handled where it leads: the step
/// handles its watch, and nothing that is answered in the step says that it is over.
const Watch* danger_along(const Protocol& protocol, const std::vector<Tables>& tables, const Way& way);

}  // namespace rushlight
