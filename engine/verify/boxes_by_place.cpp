#include "verify/boxes_by_place.hpp"

#include <algorithm>
#include <limits>

namespace rushlight {

namespace {

using Bits = std::uint64_t;
constexpr std::size_t kWidth = 64;
constexpr std::size_t kTried = 6;  // rows of a side; more find little more

Bits bit_at(std::size_t box) { return Bits{1} << (box % kWidth); }

// In place of std::popcount, which is a call where the processor is not known.
std::uint32_t bits_in(Bits word) {
  word -= word >> 1U & 0x5555555555555555U;
  word = (word & 0x3333333333333333U) + (word >> 2U & 0x3333333333333333U);
  word = (word + (word >> 4U)) & 0x0f0f0f0f0f0f0f0fU;
  return static_cast<std::uint32_t>(word * 0x0101010101010101U >> 56U);
}

// A box that stays whatever is chosen later spoils the point, so it counts more than all others.
constexpr std::uint32_t kStays = 1U << 20U;

}  // namespace

BoxesByPlace::BoxesByPlace(const Box& whole, const std::vector<Box>& boxes)
    : boxes_(boxes), words_((boxes.size() + kWidth - 1) / kWidth) {
  for (std::size_t i = 0; i < whole.sides.size(); ++i) {
    const bool any = whole.sides[i].any();
    places_.push_back(places_of(i, any ? whole.sides[i].runs().back().up_to : 0));
  }
  forwards_ = order_of(whole, false);
  backwards_ = order_of(whole, true);
}

BoxesByPlace::Places BoxesByPlace::places_of(std::size_t dimension, std::size_t count) const {
  Places places{std::vector<std::uint32_t>(count + 1), {}};
  std::vector<std::uint32_t>& row_of = places.row_of;
  for (const Box& box : boxes_) {
    for (const Run& run : box.sides[dimension].runs()) row_of[run.from] = row_of[run.up_to] = 1;
  }
  for (std::size_t place = 1; place <= count; ++place) row_of[place] += row_of[place - 1];
  places.rows.assign(row_of[count] + 1, Set(words_));
  // First who comes or goes at a row, then by those before it who is there.
  for (std::size_t box = 0; box < boxes_.size(); ++box) {
    for (const Run& run : boxes_[box].sides[dimension].runs()) {
      places.rows[row_of[run.from]][box / kWidth] ^= bit_at(box);
      places.rows[row_of[run.up_to]][box / kWidth] ^= bit_at(box);
    }
  }
  for (std::size_t row = 1; row < places.rows.size(); ++row) {
    for (std::size_t word = 0; word < words_; ++word) places.rows[row][word] ^= places.rows[row - 1][word];
  }
  return places;
}

BoxesByPlace::Order BoxesByPlace::order_of(const Box& whole, bool backwards) const {
  Order order{{}, std::vector<Set>(places_.size(), Set(words_, ~Bits{0}))};
  for (std::size_t i = 0; i < places_.size(); ++i) order.dimensions.push_back(backwards ? places_.size() - 1 - i : i);
  for (std::size_t i = places_.size(); i-- > 1;) {
    const std::size_t dimension = order.dimensions[i];
    Set& staying = order.staying[i - 1] = order.staying[i];
    for (std::size_t box = 0; box < boxes_.size(); ++box) {
      if (!(boxes_[box].sides[dimension] == whole.sides[dimension])) staying[box / kWidth] &= ~bit_at(box);
    }
  }
  return order;
}

bool BoxesByPlace::finds_point_before_others(std::size_t box) const {
  return !boxes_[box].empty() && (finds_point(box, forwards_) || finds_point(box, backwards_));
}

bool BoxesByPlace::finds_point(std::size_t box, const Order& order) const {
  Set left(box / kWidth + 1, ~Bits{0}), tried(left.size()), fewest(left.size());
  left.back() = bit_at(box) - 1;  // those before it
  if (box == 0) return true;
  for (std::size_t i = 0; i < order.dimensions.size(); ++i) {
    const Places& places = places_[order.dimensions[i]];
    const Runs& side = boxes_[box].sides[order.dimensions[i]].runs();
    std::size_t rows = 0, passed = 0;
    for (const Run& run : side) rows += places.row_of[run.up_to - 1] - places.row_of[run.from] + 1;
    const std::size_t step = (rows + kTried - 1) / kTried;
    std::uint32_t least = std::numeric_limits<std::uint32_t>::max();
    for (const Run& run : side) {
      for (std::size_t at = places.row_of[run.from]; at <= places.row_of[run.up_to - 1]; ++at) {
        if (passed++ % step != 0) continue;
        const Set &row = places.rows[at], &staying = order.staying[i];
        std::uint32_t count = 0;
        for (std::size_t word = 0; word < left.size(); ++word) {
          tried[word] = left[word] & row[word];
          count += bits_in(tried[word]) + ((tried[word] & staying[word]) != 0 ? kStays : 0);
        }
        if (count == 0) return true;
        if (count >= least) continue;
        least = count;
        fewest.swap(tried);
      }
    }
    if (least >= kStays) return false;
    left.swap(fewest);
  }
  return false;
}

}  // namespace rushlight
