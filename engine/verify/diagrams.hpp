#pragma once

#include <array>
#include <cstdint>
#include <map>
#include <optional>
#include <unordered_map>
#include <vector>

// Private to engine/verify.

namespace rushlight {

/// Sets of combinations of a few variables that take a few values each, as decision diagrams: a set is a number, equal
/// sets are equal numbers, and what two sets share is kept once. The work grows with what the sets distinguish, not
/// with how many combinations they hold. A Diagrams only grows; its sets are good as long as it lives.
class Diagrams {
 public:
  using Set = std::uint32_t;
  static constexpr Set kNone = 0;
  static constexpr Set kAll = 1;

  /// A map from the values of one variable to its values, kept by number.
  using MapId = std::uint32_t;
  /// Some of the variables, kept by number.
  using GroupId = std::uint32_t;
  using Values = std::vector<std::uint16_t>;  // one value for each variable

  /// How many values each variable takes, in their order in the diagrams.
  explicit Diagrams(std::vector<std::uint16_t> sizes);

  /// The combinations in which the variable has one of the values that `takes` marks.
  Set where(std::size_t variable, const std::vector<bool>& takes);
  Set both(Set a, Set b);
  Set either(Set a, Set b);
  Set without(Set a, Set b);
  bool meets(Set a, Set b);
  /// Whether all of the one are of the other. Like `meets` it makes no set.
  bool is_within(Set a, Set b);
  /// For each variable the values that count; empty: any.
  using Choices = std::vector<std::optional<std::vector<bool>>>;
  /// The combinations of these values.
  Set within(const Choices& choices);
  /// Values around one combination of the set, of which it holds all combinations: whole variables first, the last of
  /// them first, then the values beside. Of a variable that is `in_order` only one run. Makes no set.
  Choices box_around(Set set, const Values& point, const std::vector<bool>& in_order);

  /// Of each variable the values that it has in some combination of one of the sets.
  std::vector<std::vector<bool>> values_in(const std::vector<Set>& sets);

  /// The variables that it depends on.
  std::vector<bool> read_by(Set set);

  GroupId group(const std::vector<bool>& variables);
  /// The combinations of the set with any value for each variable of the group.
  Set freed(Set set, GroupId group);

  MapId map(std::size_t variable, Values to);
  /// The combinations of the set with each value v of the map's variable become `to[v]`.
  Set moved(Set set, MapId map);
  /// The combinations that `moved` brings into the set.
  Set moved_back(Set set, MapId map);

  /// One combination of a set that holds one: the least value of each variable in turn.
  Values one_of(Set set) const;
  /// The set of this combination alone.
  Set only(const Values& values);

 private:
  enum class Operation : std::uint8_t { both, either, without, freed, moved, moved_back, meets, is_within };
  struct Kept {
    std::uint64_t operands = ~std::uint64_t{0};
    Operation operation{};
    Set result = kNone;
  };
  struct Map {
    std::size_t variable;
    Values to;
  };

  class BoxAround;

  /// What the values of a variable lead to, as far as they lead to the same: from where the last piece ends up to, not
  /// including, `up_to`. A glucose has forty values and its sets two pieces.
  struct Piece {
    std::uint32_t up_to;
    Set to;
    friend bool operator==(const Piece&, const Piece&) = default;
  };
  /// Pieces being put together, side by side.
  struct Open {
    Piece* first;
    std::size_t count;
    void add(std::uint32_t up_to, Set to) {
      if (count > 0 && first[count - 1].to == to) {
        first[count - 1].up_to = up_to;
      } else {
        first[count++] = {up_to, to};
      }
    }
  };

  std::uint16_t variable(Set set) const { return static_cast<std::uint16_t>(nodes_[set].up_to); }
  const Piece& piece(Set set, std::size_t place) const { return nodes_[set + 1 + place]; }
  Set child(Set set, std::uint16_t of, std::size_t value) const {
    if (variable(set) != of) return set;
    const Piece* piece = &nodes_[set + 1];
    while (piece->up_to <= value) ++piece;
    return piece->to;
  }
  /// Calls `visit` with where each piece begins and the piece.
  template <class Visit>
  void each_piece(Set set, Visit visit) const;
  Open opened(std::uint16_t variable) { return {&open_[first_open_[variable]], 0}; }
  Set node(std::uint16_t variable, const Open& open);
  Set node(std::uint16_t variable, const std::vector<Set>& children);
  /// The node whose pieces `of` finds from those of two sets, of which one at least is of the variable, one by one.
  template <class Of>
  Set node_beside(std::uint16_t variable, Set a, Set b, Of of);
  /// Whether `holds` is true of every two pieces beside each other.
  template <class Holds>
  bool all_beside(Set a, Set b, Holds holds) const;
  static std::uint32_t hash_of(std::uint16_t variable, const Open& open);
  void grow();
  /// From here on all numbers in `looked_at_` are below `searches_`: it and the next are free for what the search
  /// finds.
  void start_search();
  std::size_t place_of(Operation operation, std::uint64_t operands) const;
  template <class Find>
  Set kept(Operation operation, Set a, std::uint32_t b, Find find);

  std::vector<std::uint16_t> sizes_;
  // Each set at the place that is its number: its variable, which of the two ends is the number of variables, and
  // behind it its pieces. One look into far memory finds all of them; a list for each took a third longer.
  std::vector<Piece> nodes_;
  struct Slot {
    std::uint32_t hash = 0;
    Set set = kNone;
  };
  std::vector<Slot> slots_;               // a hash table of all sets but the two ends, at most half full; kNone: empty
  std::size_t sets_ = 0;                  // in it
  std::vector<std::uint32_t> looked_at_;  // by set: what the search that last came by has found
  std::uint32_t searches_ = 0;
  std::vector<Kept> kept_;
  // The pieces of nodes being made, a place for each variable: an operation goes down, so it makes one node of a
  // variable at a time. A list of its own for each node took a quarter of the time of a comparison.
  std::vector<Piece> open_;
  std::vector<std::size_t> first_open_;  // by variable
  std::vector<std::vector<bool>> groups_;
  std::unordered_map<std::vector<bool>, GroupId> group_of_;
  std::vector<Map> maps_;
};

}  // namespace rushlight
