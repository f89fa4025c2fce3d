#include "verify/regions.hpp"

namespace rushlight {

bool Box::empty() const {
  for (const Stretches& side : sides) {
    if (side.none()) return true;
  }
  return false;
}

bool Box::contains(const Box& other) const {
  for (std::size_t i = 0; i < sides.size(); ++i) {
    if ((other.sides[i] & ~sides[i]).any()) return false;
  }
  return true;
}

bool Box::meets(const Box& other) const {
  for (std::size_t i = 0; i < sides.size(); ++i) {
    if ((sides[i] & other.sides[i]).none()) return false;
  }
  return true;
}

namespace {

using Takers = std::vector<const Box*>;

// Splits what is left of the box beside the first taker it meets, and goes on with each part and the takers behind.
// The takers that a part does not meet are dropped at once, and one that holds all of it ends the search: the work
// grows with what the rules distinguish, not with the product of all stretches.
bool visit_left_over(Box box, const Takers& takers, std::size_t from, const std::function<bool(const Box&)>& visit) {
  Takers meeting;
  for (std::size_t i = from; i < takers.size(); ++i) {
    if (!takers[i]->meets(box)) continue;
    if (takers[i]->contains(box)) return true;
    meeting.push_back(takers[i]);
  }
  if (meeting.empty()) return visit(box);
  const Box& taker = *meeting.front();
  for (std::size_t i = 0; i < box.sides.size(); ++i) {
    const Stretches outside = box.sides[i] & ~taker.sides[i];
    if (outside.none()) continue;
    Box part = box;
    part.sides[i] = outside;
    if (!visit_left_over(std::move(part), meeting, 1, visit)) return false;
    box.sides[i] &= taker.sides[i];
  }
  return true;
}

}  // namespace

void each_left_over(const Box& box, const Takers& takers, const std::function<bool(const Box&)>& visit) {
  if (!box.empty()) visit_left_over(box, takers, 0, visit);
}

bool all_taken(const Box& box, const Takers& takers) {
  bool taken = true;
  each_left_over(box, takers, [&](const Box&) { return taken = false; });
  return taken;
}

Stretches unknown_of(const Dimension& dimension) {
  Stretches unknown;
  for (std::size_t i = 0; i < dimension.stretches.size(); ++i) unknown[i] = dimension.stretches[i].unknown;
  return unknown;
}

Stretches known_of(const Dimension& dimension) {
  Stretches known;
  for (std::size_t i = 0; i < dimension.stretches.size(); ++i) known[i] = !dimension.stretches[i].unknown;
  return known;
}

std::vector<const Box*> takers_of(const Table& table) {
  std::vector<const Box*> takers;
  for (const Box& box : table.watched) takers.push_back(&box);
  for (const Box& box : table.rules) takers.push_back(&box);
  return takers;
}

Box all_known(const Table& table) {
  Box box = table.whole;
  for (std::size_t i = 0; i < box.sides.size(); ++i) box.sides[i] &= known_of(table.dimensions[i]);
  return box;
}

bool any_meets(const std::vector<const Box*>& takers, const Box& box) {
  for (const Box* taker : takers) {
    if (taker->meets(box)) return true;
  }
  return false;
}

// The gap without what does not matter to it: a side is opened as far as no rule meets it all the same, so that an
// example names the answers that count and no others.
Box opened(const Table& table, Box gap) {
  const std::vector<const Box*> takers = takers_of(table);
  for (std::size_t i = 0; i < gap.sides.size(); ++i) {
    Box wider = gap;
    wider.sides[i] = table.whole.sides[i];
    if (!any_meets(takers, wider)) gap = std::move(wider);
  }
  return gap;
}

}  // namespace rushlight
