#include "verify/box.hpp"

namespace rushlight {

bool Box::empty() const {
  for (const Stretches& side : sides) {
    if (side.none()) return true;
  }
  return false;
}

bool Box::contains(const Box& other) const {
  for (std::size_t i = 0; i < sides.size(); ++i) {
    if (!sides[i].contains(other.sides[i])) return false;
  }
  return true;
}

bool Box::meets(const Box& other) const {
  for (std::size_t i = 0; i < sides.size(); ++i) {
    if (!sides[i].meets(other.sides[i])) return false;
  }
  return true;
}

Box& Box::operator&=(const Box& other) {
  for (std::size_t i = 0; i < sides.size(); ++i) sides[i] &= other.sides[i];
  return *this;
}

}  // namespace rushlight
