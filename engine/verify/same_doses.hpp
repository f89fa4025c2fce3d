#pragma once

#include <functional>

#include "protocol/protocol.hpp"

// Private to engine/verify: dose tables that are the same as written.

namespace rushlight {

/// Compares tables of one protocol: of a version and of another beside it.
class SameDoses {
 public:
  explicit SameDoses(const Protocol& protocol) : protocol_(protocol) {}

  /// The same rows under the same conditions: nothing needs to be looked at.
  bool table(DoseId was, DoseId now) const;
  /// The rows need not have the same conditions: where both are taken they give the same. `same` says it of the doses
  /// that they are made of.
  using Same = std::function<bool(DoseId, DoseId)>;
  bool row(const DoseRow& was, const DoseRow& now, const Same& same) const;
  bool value(ThresholdId was, ThresholdId now) const;

 private:
  struct Cell;
  struct Test;
  bool sum(DoseId was, DoseId now) const;
  bool limit(const std::optional<ThresholdId>& was, const std::optional<ThresholdId>& now) const;

  const Protocol& protocol_;
};

}  // namespace rushlight
