#pragma once

#include <optional>
#include <string>
#include <vector>

#include "measure/decimal.hpp"
#include "verify/cases.hpp"
#include "verify/dose_pieces.hpp"

// Private to engine/verify: which children and readings show best where two dose tables differ.

namespace rushlight {

/// Children and readings who get one amount before and another now.
struct DoseExample {
  Cases who;
  std::optional<Decimal> was, now;
  int roundness;       // of the number along which the amounts change: the less, the rounder; 0 without one
  std::string factor;  // the child's correction factor in words, where it counts
};

/// So many places in a span, closer together towards zero, each as round as it may be: where people are.
std::vector<std::int64_t> places_in(const DosePieces::Ends& span, std::int64_t number, std::int64_t grain);

/// A number in the stretch that people meet: whole where there is one, else half, else a tenth. `roundness` says which.
std::int64_t roundest_in(std::int64_t least, std::int64_t greatest, bool months, int& roundness);

/// Regions that are the same but for one thing, and lie side by side there, become one. Ends that `whole` has, of the
/// same subject, are not named.
std::vector<Cases> put_together(std::vector<Cases> regions, const std::vector<CaseLimit>& whole,
                                const Protocol& protocol);

/// Where some get more and some less the greatest difference of both. Else the greatest difference and a typical one:
/// of those by the difference that most have, the one in the middle.
std::vector<DoseExample> telling_ones(std::vector<DoseExample> all, const std::vector<CaseLimit>& whole,
                                      const Protocol& protocol);

}  // namespace rushlight
