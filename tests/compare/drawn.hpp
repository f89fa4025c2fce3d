#pragma once

#include <map>
#include <string>
#include <vector>

#include "dice.hpp"
#include "episode/value.hpp"
#include "protocol/child.hpp"
#include "protocol/protocol.hpp"

namespace rushlight::tests {

using Values = std::map<std::string, Value>;  // by the fact's name

/// Children and answers drawn by lot: many of them exactly at a number of one of the two versions, or beside it.
class Drawn {
 public:
  Drawn(const Protocol& was, const Protocol& now, Dice& dice) : was_(was), now_(now), dice_(dice) {
    for (const Protocol* protocol : {&was, &now}) {
      for (const Threshold& threshold : protocol->thresholds) {
        for (const Band& band : threshold.bands) limits_[threshold.kind].push_back(band.value);
      }
    }
  }

  Child any_child();
  /// An answer to every question of both.
  Values any_values(GlucoseUnit unit);
  Value any_value(const Fact& fact, GlucoseUnit unit);

 private:
  template <class Kind>
  std::vector<Kind> limits(ThresholdKind kind) const;
  Decimal around(Decimal border, Decimal grain);
  Value usual_value(const Fact& fact, GlucoseUnit unit);

  const Protocol &was_, &now_;
  Dice& dice_;
  std::map<ThresholdKind, std::vector<Limit>> limits_;
};

}  // namespace rushlight::tests
