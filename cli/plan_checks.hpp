#pragma once

#include <string>
#include <vector>

#include "episode/episode.hpp"

namespace rushlight {

/// A check to come.
struct PlannedCheck {
  Moment at;
  std::string what;       // "Next check"
  std::string headline;   // what the screen says meanwhile
  bool expected = false;  // only if the answers at the check before are the same as last time
};

/// The timers that run, and behind the step's own wait the checks that follow when every answer stays as it is: told to
/// a copy of the episode, up to a day ahead, until somebody is called or it ends. Soonest first.
std::vector<PlannedCheck> coming_checks(const Protocol& protocol, const Child& child, const Episode& episode,
                                        Moment now);

/// The checks as an iCalendar file (RFC 5545): an event with a sounding and a showing alarm each. Times are in UTC, so
/// that no zone has to be described. The same checks give the same bytes.
std::string ical_from_checks(const std::vector<PlannedCheck>& checks, const std::string& child, Moment now,
                             Language language);

}  // namespace rushlight
