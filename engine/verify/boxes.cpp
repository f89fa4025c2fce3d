#include "verify/regions.hpp"

namespace rushlight {

Search each_left_over(const Box& box, const std::vector<const Box*>& takers,
                      const std::function<bool(const Box&)>& visit) {
  if (box.empty()) return Search::ended;
  Cover cover(box);
  cover.make_room_for(takers.size());
  for (const Box* taker : takers) cover.add(*taker);
  return cover.each_left_over(box, visit);
}

bool all_taken(const Box& box, const std::vector<const Box*>& takers) {
  return each_left_over(box, takers, [](const Box&) { return false; }) == Search::ended;
}

Cover cover_of(const Table& table) {
  Cover cover(table.whole);
  cover.make_room_for(table.watched.size() + table.rules.size());
  for (const Box& box : table.watched) cover.add(box);
  for (const Box& box : table.rules) cover.add(box);
  return cover;
}

Stretches unknown_of(const Dimension& dimension) {
  Stretches unknown;
  const std::vector<Stretch>& stretches = dimension.stretches;
  if (!stretches.empty() && stretches.back().unknown) unknown.set(stretches.size() - 1);
  return unknown;
}

Stretches known_of(const Dimension& dimension) {
  return Stretches::first(dimension.stretches.size() - (unknown_of(dimension).any() ? 1 : 0));
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
