#pragma once

#include <deque>
#include <map>
#include <string>
#include <tuple>
#include <unordered_map>
#include <utility>
#include <vector>

#include "verify/ways.hpp"

// Private to engine/verify: where one version may stand within a moment.

namespace rushlight {

/// Each place and state of knowledge in which a version was found within a moment has a number, and what it can do from
/// there is found once: many nights of either version come to the same few, and two of these are compared by number.
class OneSides {
 public:
  using Id = std::uint32_t;
  /// What was counted, set back and marked, and whom to call, in whatever order; each once more for each time.
  using TallyId = std::uint32_t;
  static constexpr TallyId kNothing = 0;

  struct Next {
    Id to;
    TallyId tally;  // on the way
    friend bool operator==(const Next&, const Next&) = default;
  };

  OneSides(const SideBySide& sides, Ways& ways);

  Next numbered(const Gone& gone) { return {number_of(gone.to), tally_of(gone.tally)}; }
  Id number_of(const OneSide& side);
  const OneSide& operator[](Id id) const { return all_[id].side; }

  /// Its step with what is news there: nobody goes round twice at one moment with the same news.
  std::uint32_t here(Id id) const { return all_[id].here; }
  /// Equal endings have equal numbers; 0: none.
  std::uint32_t ending(Id id) const { return all_[id].ending; }

  /// The ways on from where it stands, and where each of them leads.
  struct Onward {
    std::uint32_t number;  // of the list of ways
    const std::vector<OneWay>* ways;
    std::vector<std::optional<Next>> next;  // found when it is first asked for
  };
  enum class By : std::uint8_t { answers, rest, ending };
  Onward& onward(Id id, By by);
  Next next(Id id, Onward& onward, std::size_t way);

  /// Where one version has something to do, the other is looked at in the same step, even if it only asks there.
  /// `again`: it has been there at this moment with the same news; the engine stops there as well.
  bool rests_beside(Id id, bool again, Id other, bool other_again) const;

  TallyId tally_of(std::vector<Tally> tally);
  TallyId together(TallyId some, TallyId more);
  const std::vector<Tally>& tally(TallyId id) const { return tallies_[id]; }
  /// Whom it calls, as bits of an ending.
  std::uint8_t calls(TallyId id) const { return calls_[id]; }
  TallyId without_calls(TallyId id);

 private:
  struct Entry {
    OneSide side;
    std::uint32_t here, ending;
    std::uint32_t name;  // of the step it stands or ends in: equal names have equal numbers
    bool at_rest, unseen;
    std::optional<Onward> by_answers{}, at_its_rest{}, ended{};
  };
  struct Hash {
    std::size_t operator()(const OneSide& side) const {
      const std::hash<Told> of{};
      return of(side.told) + of(side.news) * 31U + of(side.unused) * 37U + side.step.index * 0x9E3779B97F4A7C15U +
             (side.leaves ? 1U : 0U) + (side.known ? 2U : 0U);
    }
  };
  struct Place {
    std::uint16_t step;
    Told news;
    friend bool operator==(const Place&, const Place&) = default;
  };
  struct HashOfPlace {
    std::size_t operator()(const Place& place) const { return std::hash<Told>{}(place.news) + place.step * 37U; }
  };
  bool rests(const Entry& entry, bool again) const { return !entry.side.leaves && (again || entry.at_rest); }

  const Protocol& protocol_;
  Ways& ways_;
  std::vector<std::uint32_t> names_;  // by step
  std::deque<Entry> all_;
  std::unordered_map<OneSide, Id, Hash> ids_;
  std::unordered_map<Place, std::uint32_t, HashOfPlace> heres_;
  using End = std::tuple<Ending::Kind, std::uint16_t, std::string>;
  std::map<End, std::uint32_t> endings_;
  std::unordered_map<const std::vector<OneWay>*, std::uint32_t> lists_;
  std::deque<std::vector<Tally>> tallies_;
  std::vector<std::uint8_t> calls_;  // by tally
  std::map<std::vector<Tally>, TallyId> tally_ids_;
  std::unordered_map<std::uint64_t, TallyId> sums_;
};

}  // namespace rushlight
