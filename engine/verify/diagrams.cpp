#include "verify/diagrams.hpp"

#include <algorithm>
#include <utility>

namespace rushlight {

namespace {

constexpr std::size_t kKept = std::size_t{1} << 16, kMostKept = std::size_t{1} << 18;

std::uint64_t mixed(std::uint64_t hash, std::uint64_t with) {
  hash ^= with + 0x9e3779b97f4a7c15U + (hash << 6U) + (hash >> 2U);
  return hash * 0xff51afd7ed558ccdU;
}

}  // namespace

Diagrams::Diagrams(std::vector<std::uint16_t> sizes) : sizes_(std::move(sizes)), slots_(1024), kept_(kKept) {
  const auto end = static_cast<std::uint32_t>(sizes_.size());
  nodes_ = {{end, kNone}, {end, kNone}};
  std::size_t room = 0;
  for (const std::uint16_t size : sizes_) {
    first_open_.push_back(room);
    room += size;
  }
  open_.resize(room);
}

std::uint32_t Diagrams::hash_of(std::uint16_t variable, const Open& open) {
  std::uint64_t hash = variable;
  for (std::size_t i = 0; i < open.count; ++i)
    hash = mixed(hash, std::uint64_t{open.first[i].up_to} << 32U | open.first[i].to);
  return static_cast<std::uint32_t>(hash >> 20U);
}

void Diagrams::grow() {
  const std::vector<Slot> before = std::exchange(slots_, std::vector<Slot>(slots_.size() * 2));
  for (const Slot& each : before) {
    if (each.set == kNone) continue;
    std::size_t slot = each.hash & (slots_.size() - 1);
    while (slots_[slot].set != kNone) slot = (slot + 1) & (slots_.size() - 1);
    slots_[slot] = each;
  }
  // The more sets there are, the more results are worth keeping.
  if (slots_.size() <= kept_.size() || kept_.size() >= kMostKept) return;
  const std::vector<Kept> known = std::exchange(kept_, std::vector<Kept>(slots_.size()));
  for (const Kept& each : known) {
    if (each.operands != Kept{}.operands) kept_[place_of(each.operation, each.operands)] = each;
  }
}

Diagrams::Set Diagrams::node(std::uint16_t variable, const Open& open) {
  if (open.count == 1) return open.first->to;
  const std::uint32_t hash = hash_of(variable, open);
  std::size_t slot = hash & (slots_.size() - 1);
  for (; slots_[slot].set != kNone; slot = (slot + 1) & (slots_.size() - 1)) {
    const auto& [other_hash, same] = slots_[slot];
    if (other_hash == hash && this->variable(same) == variable &&
        std::equal(open.first, open.first + open.count, &piece(same, 0)))
      return same;
  }
  const auto set = static_cast<Set>(nodes_.size());
  nodes_.push_back({variable, kNone});
  nodes_.insert(nodes_.end(), open.first, open.first + open.count);
  slots_[slot] = {hash, set};
  if (++sets_ * 2 > slots_.size()) grow();
  return set;
}

Diagrams::Set Diagrams::node(std::uint16_t variable, const std::vector<Set>& children) {
  Open open = opened(variable);
  for (std::size_t i = 0; i < children.size(); ++i) open.add(static_cast<std::uint32_t>(i + 1), children[i]);
  return node(variable, open);
}

template <class Visit>
void Diagrams::each_piece(Set set, Visit visit) const {
  const std::uint32_t end = sizes_[variable(set)];
  for (std::uint32_t from = 0, place = 0; from < end; ++place) {
    const Piece next = piece(set, place);
    visit(from, next);
    from = next.up_to;
  }
}

// What is made meanwhile may move the pieces, so they are read by their places.
template <class Of>
Diagrams::Set Diagrams::node_beside(std::uint16_t at, Set a, Set b, Of of) {
  Open open = opened(at);
  if (variable(a) != at) {
    each_piece(b, [&](std::uint32_t, const Piece& piece) { open.add(piece.up_to, of(a, piece.to)); });
  } else if (variable(b) != at) {
    each_piece(a, [&](std::uint32_t, const Piece& piece) { open.add(piece.up_to, of(piece.to, b)); });
  } else {
    const std::uint32_t end = sizes_[at];
    std::size_t of_a = a + 1U, of_b = b + 1U;
    for (std::uint32_t from = 0; from < end;) {
      const Piece one = nodes_[of_a], other = nodes_[of_b];
      from = std::min(one.up_to, other.up_to);
      open.add(from, of(one.to, other.to));
      if (one.up_to == from) ++of_a;
      if (other.up_to == from) ++of_b;
    }
  }
  return node(at, open);
}

template <class Holds>
bool Diagrams::all_beside(Set a, Set b, Holds holds) const {
  const std::uint16_t at = std::min(variable(a), variable(b));
  const std::uint32_t end = sizes_[at];
  const Piece alone_a{end, a}, alone_b{end, b};
  const Piece* of_a = variable(a) == at ? &piece(a, 0) : &alone_a;
  const Piece* of_b = variable(b) == at ? &piece(b, 0) : &alone_b;
  for (std::uint32_t from = 0; from < end;) {
    if (!holds(of_a->to, of_b->to)) return false;
    from = std::min(of_a->up_to, of_b->up_to);
    if (of_a->up_to == from) ++of_a;
    if (of_b->up_to == from) ++of_b;
  }
  return true;
}

std::size_t Diagrams::place_of(Operation operation, std::uint64_t operands) const {
  return mixed(operands + static_cast<std::uint64_t>(operation) * 0x9e3779b97f4a7c15U, operands >> 32U) >> 40U &
         (kept_.size() - 1);
}

// The results found last are kept, one for each place of a table: a forgotten one is found again.
template <class Find>
Diagrams::Set Diagrams::kept(Operation operation, Set a, std::uint32_t b, Find find) {
  const std::uint64_t operands = std::uint64_t{a} << 32U | b;
  const Kept& found = kept_[place_of(operation, operands)];
  if (found.operands == operands && found.operation == operation) return found.result;
  const Set result = find();
  kept_[place_of(operation, operands)] = Kept{operands, operation, result};
  return result;
}

Diagrams::Set Diagrams::where(std::size_t variable, const std::vector<bool>& takes) {
  std::vector<Set> children;
  for (const bool taken : takes) children.push_back(taken ? kAll : kNone);
  return node(static_cast<std::uint16_t>(variable), children);
}

Diagrams::Set Diagrams::within(const Choices& choices) {
  Set set = kAll;
  for (std::size_t v = choices.size(); v-- > 0;) {
    if (!choices[v]) continue;
    std::vector<Set> children;
    for (const bool taken : *choices[v]) children.push_back(taken ? set : kNone);
    set = node(static_cast<std::uint16_t>(v), children);
  }
  return set;
}

Diagrams::Set Diagrams::both(Set a, Set b) {
  if (a == kNone || b == kNone) return kNone;
  if (a == kAll || a == b) return b;
  if (b == kAll) return a;
  if (a > b) std::swap(a, b);
  return kept(Operation::both, a, b, [&] {
    return node_beside(std::min(variable(a), variable(b)), a, b, [&](Set one, Set other) { return both(one, other); });
  });
}

Diagrams::Set Diagrams::either(Set a, Set b) {
  if (a == kAll || b == kAll) return kAll;
  if (a == kNone || a == b) return b;
  if (b == kNone) return a;
  if (a > b) std::swap(a, b);
  return kept(Operation::either, a, b, [&] {
    return node_beside(std::min(variable(a), variable(b)), a, b,
                       [&](Set one, Set other) { return either(one, other); });
  });
}

Diagrams::Set Diagrams::without(Set a, Set b) {
  if (a == kNone || b == kAll || a == b) return kNone;
  if (b == kNone) return a;
  return kept(Operation::without, a, b, [&] {
    return node_beside(std::min(variable(a), variable(b)), a, b,
                       [&](Set one, Set other) { return without(one, other); });
  });
}

bool Diagrams::meets(Set a, Set b) {
  if (a == kNone || b == kNone) return false;
  if (a == kAll || b == kAll || a == b) return true;
  if (a > b) std::swap(a, b);
  return kept(Operation::meets, a, b, [&] {
           return all_beside(a, b, [&](Set one, Set other) { return !meets(one, other); }) ? kNone : kAll;
         }) == kAll;
}

bool Diagrams::is_within(Set a, Set b) {
  if (a == kNone || b == kAll || a == b) return true;
  if (b == kNone || a == kAll) return false;
  return kept(Operation::is_within, a, b, [&] {
           return all_beside(a, b, [&](Set one, Set other) { return is_within(one, other); }) ? kAll : kNone;
         }) == kAll;
}

void Diagrams::start_search() {
  if (searches_ > ~std::uint32_t{0} - 4) {
    looked_at_.clear();
    searches_ = 0;
  }
  searches_ += 2;
  looked_at_.resize(nodes_.size(), 0);
}

std::vector<std::vector<bool>> Diagrams::values_in(const std::vector<Set>& sets) {
  std::vector<std::vector<bool>> values;
  for (const std::uint16_t size : sizes_) values.emplace_back(size, false);
  // A variable that a way through the diagram passes by has any value: by how many it is passed by, told where that
  // begins and where it ends.
  std::vector<std::int32_t> passing(sizes_.size() + 1, 0);
  const auto pass = [&](std::size_t from, Set to) {
    ++passing[from];
    --passing[variable(to)];
  };
  start_search();
  std::vector<Set> open;
  for (const Set set : sets) {
    if (set == kNone) continue;
    pass(0, set);
    open.push_back(set);
  }
  while (!open.empty()) {
    const Set next = open.back();
    open.pop_back();
    if (next == kAll || looked_at_[next] == searches_) continue;
    looked_at_[next] = searches_;
    const std::uint16_t at = variable(next);
    each_piece(next, [&](std::uint32_t from, const Piece& piece) {
      if (piece.to == kNone) return;
      for (std::uint32_t i = from; i < piece.up_to; ++i) values[at][i] = true;
      pass(at + 1U, piece.to);
      open.push_back(piece.to);
    });
  }
  std::int32_t passed_by = 0;
  for (std::size_t v = 0; v < sizes_.size(); ++v) {
    passed_by += passing[v];
    if (passed_by > 0) values[v].assign(sizes_[v], true);
  }
  return values;
}

std::vector<bool> Diagrams::read_by(Set set) {
  std::vector<bool> read(sizes_.size(), false);
  start_search();
  std::vector<Set> open{set};
  while (!open.empty()) {
    const Set next = open.back();
    open.pop_back();
    if (next == kAll || next == kNone || looked_at_[next] == searches_) continue;
    looked_at_[next] = searches_;
    read[variable(next)] = true;
    each_piece(next, [&](std::uint32_t, const Piece& piece) { open.push_back(piece.to); });
  }
  return read;
}

Diagrams::GroupId Diagrams::group(const std::vector<bool>& variables) {
  const auto [known, is_new] = group_of_.try_emplace(variables, static_cast<GroupId>(groups_.size()));
  if (is_new) groups_.push_back(variables);
  return known->second;
}

Diagrams::Set Diagrams::freed(Set set, GroupId group) {
  if (set == kNone || set == kAll) return set;
  return kept(Operation::freed, set, group, [&] {
    const std::uint16_t at = variable(set);
    if (!groups_[group][at]) return node_beside(at, set, kAll, [&](Set one, Set) { return freed(one, group); });
    Set any = kNone;
    each_piece(set, [&](std::uint32_t, const Piece& piece) { any = either(any, freed(piece.to, group)); });
    return any;
  });
}

Diagrams::MapId Diagrams::map(std::size_t variable, Values to) {
  const auto found = std::find_if(maps_.begin(), maps_.end(),
                                  [&](const Map& map) { return map.variable == variable && map.to == to; });
  if (found != maps_.end()) return static_cast<MapId>(found - maps_.begin());
  maps_.push_back(Map{variable, std::move(to)});
  return static_cast<MapId>(maps_.size() - 1);
}

Diagrams::Set Diagrams::moved(Set set, MapId id) {
  if (set == kNone) return kNone;
  return kept(Operation::moved, set, id, [&] {
    const Map& map = maps_[id];
    const auto at = static_cast<std::uint16_t>(std::min<std::size_t>(variable(set), map.variable));
    if (at != map.variable) return node_beside(at, set, kAll, [&](Set one, Set) { return moved(one, id); });
    std::vector<Set> children(sizes_[at], kNone);
    for (std::size_t i = 0; i < children.size(); ++i)
      children[map.to[i]] = either(children[map.to[i]], child(set, at, i));
    return node(at, children);
  });
}

Diagrams::Set Diagrams::moved_back(Set set, MapId id) {
  if (set == kNone || set == kAll) return set;
  return kept(Operation::moved_back, set, id, [&] {
    const Map& map = maps_[id];
    const std::uint16_t at = variable(set);
    if (at > map.variable) return set;
    if (at != map.variable) return node_beside(at, set, kAll, [&](Set one, Set) { return moved_back(one, id); });
    Open open = opened(at);
    for (std::uint32_t i = 0; i < sizes_[at]; ++i) open.add(i + 1, child(set, at, map.to[i]));
    return node(at, open);
  });
}

Diagrams::Values Diagrams::one_of(Set set) const {
  Values values(sizes_.size(), 0);
  while (set != kAll && set != kNone) {
    const std::uint16_t at = variable(set);
    for (std::uint16_t i = 0; i < sizes_[at]; ++i) {
      if (child(set, at, i) == kNone) continue;
      values[at] = i;
      set = child(set, at, i);
      break;
    }
  }
  return values;
}

Diagrams::Set Diagrams::only(const Values& values) {
  Set set = kAll;
  for (std::size_t i = values.size(); i-- > 0;) {
    std::vector<Set> children(sizes_[i], kNone);
    children[values[i]] = set;
    set = node(static_cast<std::uint16_t>(i), children);
  }
  return set;
}

}  // namespace rushlight
