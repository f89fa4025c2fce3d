#pragma once

#include <vector>

#include "verify/side.hpp"

namespace rushlight {

/// One set of stretches for each dimension of its table. Empty as soon as one side is.
struct Box {
  std::vector<Stretches> sides;
  bool empty() const;
  bool contains(const Box& other) const;
  bool meets(const Box& other) const;
  /// What both hold; of the same table.
  Box& operator&=(const Box& other);
  friend bool operator==(const Box&, const Box&) = default;
};

}  // namespace rushlight
