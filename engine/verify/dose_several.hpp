#pragma once

#include <optional>
#include <utility>
#include <vector>

#include "verify/dose_pieces.hpp"

// Private to engine/verify: two doses whose amounts depend on two numbers or more.

namespace rushlight {

/// What is given before and now; empty: nothing.
using Amounts = std::pair<std::optional<Decimal>, std::optional<Decimal>>;
inline bool is_less(const Amounts& amounts) {
  return amounts.first && (!amounts.second || *amounts.second < *amounts.first);
}

/// One row of each dose, and the numbers that count, by dimension and the factor behind them.
struct SeveralAsked {
  const DosePieces& pieces;
  const DosePiece& piece;
  const DosePieces::Spans& spans;
  const std::vector<std::size_t>& counting;
  const std::vector<std::int64_t>& values;  // of those that do not count
  DoseId was, now;
};

struct FoundPlace {
  std::vector<std::int64_t> place;  // of what counts
  Amounts amounts;
};
/// A place in which less is given now, and one in which more is, where people are if there are such. `all_same`: it is
/// proven that no place differs. None of the three: no place that was looked at differs, and one between may.
struct PlacesFound {
  std::optional<FoundPlace> less, more;
  bool all_same = false;
};
PlacesFound look_at_several(const Protocol& protocol, const SeveralAsked& asked);

}  // namespace rushlight
