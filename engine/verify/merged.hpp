#pragma once

#include <map>
#include <string>
#include <tuple>
#include <vector>

#include "verify/compare.hpp"

// Private to engine/verify.

namespace rushlight {

/// What a person takes for one difference, wherever it meets whom.
using WasAndNow = std::tuple<Difference::Kind, Difference::Turn, std::optional<Language>, std::string, std::string>;
WasAndNow was_and_now(const Difference& difference);

/// Takes the places of the other too; it falls as deep as the deeper one.
void join(Difference& to, const Difference& other);

/// What changes in the same way for the same cases in several places is said once.
class Merged {
 public:
  void add(Difference difference);
  std::vector<Difference> all() { return std::move(merged_); }

 private:
  std::map<WasAndNow, std::vector<std::size_t>> alike_;
  std::vector<Difference> merged_;
};

}  // namespace rushlight
