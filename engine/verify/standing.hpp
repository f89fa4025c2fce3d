#pragma once

#include <map>

#include "verify/graph.hpp"
#include "verify/law_properties.hpp"

// Private to engine/verify: whether what a watch looks out for is still true when a way is taken.

namespace rushlight {

enum class StillTrue : std::uint8_t {
  over,    // an answer of the step says so, whoever takes this way
  may_be,  // nothing that is answered in the step says that it is over
  still,   // it is true of everybody who takes this way
};

class Standings {
 public:
  explicit Standings(const Protocol& protocol) : protocol_(protocol) {}

  StillTrue along(const Way& way, WatchId watch);

  /// A case in which the rule leads on and all the watch looks out for has just been answered; empty when there is
  /// none.
  std::optional<std::string> just_answered(const Way& way, WatchId watch);

 private:
  const LawTables& tables(StepId step, WatchId watch);

  const Protocol& protocol_;
  std::map<std::pair<std::uint16_t, std::uint16_t>, LawTables> tables_;
};

}  // namespace rushlight
