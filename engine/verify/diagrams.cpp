#include "verify/diagrams.hpp"

#include <algorithm>

namespace rushlight {

namespace {

std::uint64_t mixed(std::uint64_t hash, std::uint64_t with) {
  hash ^= with + 0x9e3779b97f4a7c15U + (hash << 6U) + (hash >> 2U);
  return hash * 0xff51afd7ed558ccdU;
}

}  // namespace

Diagrams::Diagrams(std::vector<std::uint16_t> sizes) : sizes_(std::move(sizes)), slots_(1024, kNone), kept_(kKept) {
  const auto end = static_cast<std::uint16_t>(sizes_.size());
  variable_of_ = {end, end};
  first_child_ = {0, 0};
  std::size_t room = 0;
  for (const std::uint16_t size : sizes_) {
    first_open_.push_back(room);
    room += size;
  }
  open_.resize(room);
}

std::size_t Diagrams::hash_of(std::uint16_t variable, const Set* children) const {
  std::uint64_t hash = variable;
  for (std::size_t i = 0; i < sizes_[variable]; ++i) hash = mixed(hash, children[i]);
  return static_cast<std::size_t>(hash >> 20U);
}

void Diagrams::grow() {
  slots_.assign(slots_.size() * 2, kNone);
  for (Set set = 2; set < variable_of_.size(); ++set) {
    std::size_t slot = hash_of(variable_of_[set], &children_[first_child_[set]]) & (slots_.size() - 1);
    while (slots_[slot] != kNone) slot = (slot + 1) & (slots_.size() - 1);
    slots_[slot] = set;
  }
  // The more sets there are, the more results are worth keeping.
  if (slots_.size() > kept_.size() && kept_.size() < kMostKept) kept_.assign(slots_.size(), Kept{});
}

Diagrams::Set Diagrams::node(std::uint16_t variable, const Set* children) {
  const std::size_t count = sizes_[variable];
  if (std::all_of(children + 1, children + count, [&](Set each) { return each == children[0]; })) return children[0];
  std::size_t slot = hash_of(variable, children) & (slots_.size() - 1);
  for (; slots_[slot] != kNone; slot = (slot + 1) & (slots_.size() - 1)) {
    const Set same = slots_[slot];
    if (variable_of_[same] == variable && std::equal(children, children + count, &children_[first_child_[same]]))
      return same;
  }
  const auto set = static_cast<Set>(variable_of_.size());
  variable_of_.push_back(variable);
  first_child_.push_back(static_cast<std::uint32_t>(children_.size()));
  children_.insert(children_.end(), children, children + count);
  slots_[slot] = set;
  if (variable_of_.size() * 2 > slots_.size()) grow();
  return set;
}

template <class ChildOf>
Diagrams::Set Diagrams::node_of(std::uint16_t variable, ChildOf child_of) {
  Set* const children = &open_[first_open_[variable]];
  for (std::size_t i = 0; i < sizes_[variable]; ++i) children[i] = child_of(i);
  return node(variable, children);
}

// The results found last are kept, one for each place of a table: a forgotten one is found again.
template <class Find>
Diagrams::Set Diagrams::kept(Operation operation, Set a, std::uint32_t b, Find find) {
  const std::uint64_t operands = std::uint64_t{a} << 32U | b;
  const std::size_t place = mixed(mixed(static_cast<std::uint64_t>(operation), a), b) >> 40U;
  const Kept& found = kept_[place & (kept_.size() - 1)];
  if (found.operands == operands && found.operation == operation) return found.result;
  const Set result = find();
  kept_[place & (kept_.size() - 1)] = Kept{operands, operation, result};
  return result;
}

Diagrams::Set Diagrams::where(std::size_t variable, const std::vector<bool>& takes) {
  std::vector<Set> children;
  for (const bool taken : takes) children.push_back(taken ? kAll : kNone);
  return node(static_cast<std::uint16_t>(variable), children.data());
}

Diagrams::Set Diagrams::within(const Choices& choices) {
  Set set = kAll;
  for (std::size_t v = choices.size(); v-- > 0;) {
    if (!choices[v]) continue;
    std::vector<Set> children;
    for (const bool taken : *choices[v]) children.push_back(taken ? set : kNone);
    set = node(static_cast<std::uint16_t>(v), children.data());
  }
  return set;
}

Diagrams::Set Diagrams::both(Set a, Set b) {
  if (a == kNone || b == kNone) return kNone;
  if (a == kAll || a == b) return b;
  if (b == kAll) return a;
  if (a > b) std::swap(a, b);
  return kept(Operation::both, a, b, [&] {
    const std::uint16_t at = std::min(variable(a), variable(b));
    return node_of(at, [&](std::size_t i) { return both(child(a, at, i), child(b, at, i)); });
  });
}

Diagrams::Set Diagrams::either(Set a, Set b) {
  if (a == kAll || b == kAll) return kAll;
  if (a == kNone || a == b) return b;
  if (b == kNone) return a;
  if (a > b) std::swap(a, b);
  return kept(Operation::either, a, b, [&] {
    const std::uint16_t at = std::min(variable(a), variable(b));
    return node_of(at, [&](std::size_t i) { return either(child(a, at, i), child(b, at, i)); });
  });
}

Diagrams::Set Diagrams::without(Set a, Set b) {
  if (a == kNone || b == kAll || a == b) return kNone;
  if (b == kNone) return a;
  return kept(Operation::without, a, b, [&] {
    const std::uint16_t at = std::min(variable(a), variable(b));
    return node_of(at, [&](std::size_t i) { return without(child(a, at, i), child(b, at, i)); });
  });
}

bool Diagrams::meets(Set a, Set b) {
  if (a == kNone || b == kNone) return false;
  if (a == kAll || b == kAll || a == b) return true;
  if (a > b) std::swap(a, b);
  return kept(Operation::meets, a, b, [&] {
           const std::uint16_t at = std::min(variable(a), variable(b));
           for (std::size_t i = 0; i < sizes_[at]; ++i) {
             if (meets(child(a, at, i), child(b, at, i))) return kAll;
           }
           return kNone;
         }) == kAll;
}

bool Diagrams::is_within(Set a, Set b) {
  if (a == kNone || b == kAll || a == b) return true;
  if (b == kNone || a == kAll) return false;
  return kept(Operation::is_within, a, b, [&] {
           const std::uint16_t at = std::min(variable(a), variable(b));
           for (std::size_t i = 0; i < sizes_[at]; ++i) {
             if (!is_within(child(a, at, i), child(b, at, i))) return kNone;
           }
           return kAll;
         }) == kAll;
}

void Diagrams::start_search() {
  if (searches_ > ~std::uint32_t{0} - 4) {
    looked_at_.clear();
    searches_ = 0;
  }
  searches_ += 2;
  looked_at_.resize(variable_of_.size(), 0);
}

std::vector<std::vector<bool>> Diagrams::values_in(Set set) {
  std::vector<std::vector<bool>> values;
  for (const std::uint16_t size : sizes_) values.emplace_back(size, false);
  // A variable that a way through the diagram passes by has any value.
  const auto pass = [&](std::size_t from, Set to) {
    for (std::size_t v = from; v < variable(to); ++v) values[v].assign(sizes_[v], true);
  };
  if (set == kNone) return values;
  pass(0, set);
  start_search();
  std::vector<Set> open{set};
  while (!open.empty()) {
    const Set next = open.back();
    open.pop_back();
    if (next == kAll || looked_at_[next] == searches_) continue;
    looked_at_[next] = searches_;
    const std::uint16_t at = variable(next);
    for (std::size_t i = 0; i < sizes_[at]; ++i) {
      const Set below = child(next, at, i);
      if (below == kNone) continue;
      values[at][i] = true;
      pass(at + 1U, below);
      open.push_back(below);
    }
  }
  return values;
}

std::vector<bool> Diagrams::read_by(Set set) const {
  std::vector<bool> read(sizes_.size(), false);
  std::vector<bool> met(variable_of_.size(), false);
  std::vector<Set> open{set};
  while (!open.empty()) {
    const Set next = open.back();
    open.pop_back();
    if (next == kAll || next == kNone || met[next]) continue;
    met[next] = true;
    read[variable(next)] = true;
    for (std::size_t i = 0; i < sizes_[variable(next)]; ++i) open.push_back(child(next, variable(next), i));
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
    if (!groups_[group][at]) return node_of(at, [&](std::size_t i) { return freed(child(set, at, i), group); });
    Set any = kNone;
    for (std::size_t i = 0; i < sizes_[at]; ++i) any = either(any, freed(child(set, at, i), group));
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
    if (at != map.variable) return node_of(at, [&](std::size_t i) { return moved(child(set, at, i), id); });
    std::vector<Set> children(sizes_[at], kNone);
    for (std::size_t i = 0; i < children.size(); ++i)
      children[map.to[i]] = either(children[map.to[i]], child(set, at, i));
    return node(at, children.data());
  });
}

Diagrams::Set Diagrams::moved_back(Set set, MapId id) {
  if (set == kNone || set == kAll) return set;
  return kept(Operation::moved_back, set, id, [&] {
    const Map& map = maps_[id];
    const std::uint16_t at = variable(set);
    if (at > map.variable) return set;
    return node_of(at, [&](std::size_t i) {
      return at == map.variable ? child(set, at, map.to[i]) : moved_back(child(set, at, i), id);
    });
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
    set = node(static_cast<std::uint16_t>(i), children.data());
  }
  return set;
}

}  // namespace rushlight
