#include "verify/cover.hpp"

#include <algorithm>
#include <array>
#include <deque>
#include <optional>

namespace rushlight {

namespace {

enum class Meeting : std::uint8_t { none, part, whole };

}  // namespace

// One search. The part that is looked at lives in `part_`; every cut is undone on the way back.
class LeftOver {
 public:
  LeftOver(const Cover& cover, const Box& box, std::uint64_t most_looks, const std::function<bool(const Box&)>& visit)
      : cover_(cover), part_(box), most_looks_(most_looks), visit_(visit) {}

  std::uint64_t looks() const { return looks_; }

  Search search() {
    look_into(cover_.near(part_), kAll, 0);
    return ended_;
  }

 private:
  static constexpr Cover::Dimensions kAll = ~Cover::Dimensions{0};
  using Takers = std::vector<Cover::Taker>;
  struct Change {
    std::size_t dimension;
    Stretches before;
  };

  const Cover::Side& side(const Cover::Taker& taker, std::size_t dimension) const {
    return cover_.sides_[taker.place * part_.sides.size() + dimension];
  }

  Meeting meeting(const Cover::Side& side, const Stretches& part) const {
    const Run first = part.runs().front(), last = part.runs().back();
    if (side.hull.up_to <= first.from || side.hull.from >= last.up_to) return Meeting::none;
    const bool beyond = side.hull.from <= first.from && side.hull.up_to >= last.up_to;
    if (side.holes != nullptr) {
      if (!side.holes->meets(part)) return Meeting::none;
      return beyond && side.holes->contains(part) ? Meeting::whole : Meeting::part;
    }
    if (beyond) return Meeting::whole;
    if (part.runs().size() == 1) return Meeting::part;
    for (const Run& run : part.runs()) {
      if (run.from < side.hull.up_to && side.hull.from < run.up_to) return Meeting::part;
    }
    return Meeting::none;
  }

  // Which takers meet the part, now that some of its dimensions are smaller; none behind one that holds all of it. True
  // when there is such a one.
  bool keep_meeting(const Takers& takers, Cover::Dimensions changed, Takers& kept) {
    kept.clear();
    looks_ += takers.size() + 1;
    for (Cover::Taker taker : takers) {
      bool meets = true;
      for (Cover::Dimensions left = taker.told_apart & changed; left != 0 && meets; left &= left - 1) {
        const auto dimension = static_cast<std::size_t>(__builtin_ctzll(left));
        const Meeting met = meeting(side(taker, dimension), part_.sides[dimension]);
        if (met == Meeting::none) meets = false;
        if (met == Meeting::whole) taker.told_apart &= ~(Cover::Dimensions{1} << dimension);
      }
      if (!meets) continue;
      kept.push_back(taker);
      if (taker.told_apart == 0) return true;
    }
    return false;
  }

  // Cuts off what takers hold that reach through the part in every dimension but one.
  Cover::Dimensions cut_slabs(const Takers& takers, std::vector<Change>& changes) {
    Cover::Dimensions changed = 0;
    for (const Cover::Taker& taker : takers) {
      if ((taker.told_apart & (taker.told_apart - 1)) != 0) continue;
      const auto dimension = static_cast<std::size_t>(__builtin_ctzll(taker.told_apart));
      Stretches& part = part_.sides[dimension];
      if ((changed & taker.told_apart) == 0) changes.push_back({dimension, part});
      changed |= taker.told_apart;
      const Cover::Side& taken = side(taker, dimension);
      if (taken.holes != nullptr) {
        part.remove(*taken.holes);
      } else {
        part.remove(taken.hull);
      }
      if (part.none()) return changed;
    }
    return changed;
  }

  struct Cut {
    std::size_t dimension;
    std::uint32_t border;
  };

  // Of many takers a few, evenly spread, say as well where to cut; only the work depends on it.
  static constexpr std::size_t kAsked = 64;

  Cut cut_of(const Takers& all) {
    if (all.size() > kAsked) {
      asked_.clear();
      for (std::size_t i = 0; i < all.size(); i += all.size() / kAsked) asked_.push_back(all[i]);
      if (const auto cut = cut_by(asked_)) return *cut;
    }
    return *cut_by(all);
  }

  std::optional<Cut> cut_by(const Takers& takers) {
    std::array<double, Cover::kMostDimensions> weight;
    const auto last = weight.begin() + static_cast<std::ptrdiff_t>(part_.sides.size());
    std::fill(weight.begin(), last, 0.0);
    for (const Cover::Taker& taker : takers) {
      const double each = 1.0 / static_cast<double>(1U << std::min(__builtin_popcountll(taker.told_apart), 30));
      for (Cover::Dimensions left = taker.told_apart; left != 0; left &= left - 1)
        weight[static_cast<std::size_t>(__builtin_ctzll(left))] += each;
    }
    const auto dimension = static_cast<std::size_t>(std::max_element(weight.begin(), last) - weight.begin());
    const Runs& part = part_.sides[dimension].runs();
    borders_.clear();
    const auto add = [&](std::uint32_t border) {
      if (border > part.front().from && border < part.back().up_to) borders_.push_back(border);
    };
    for (const Cover::Taker& taker : takers) {
      if ((taker.told_apart >> dimension & 1U) == 0) continue;
      const Cover::Side& taken = side(taker, dimension);
      if (taken.holes == nullptr) {
        add(taken.hull.from);
        add(taken.hull.up_to);
      } else {
        for (const Run& run : taken.holes->runs()) {
          add(run.from);
          add(run.up_to);
        }
      }
    }
    if (borders_.empty()) return std::nullopt;
    const auto middle = borders_.begin() + static_cast<std::ptrdiff_t>(borders_.size() / 2);
    std::nth_element(borders_.begin(), middle, borders_.end());
    return Cut{dimension, *middle};
  }

  // What one depth of the search works with. Kept from one part to the next, since most of the parts are small.
  struct Level {
    Takers meeting, fewer;
    std::vector<Change> changes;
    Stretches both;
  };

  Level& level(std::size_t depth) {
    if (depth == levels_.size()) levels_.emplace_back();
    return levels_[depth];
  }

  void look_into(const Takers& takers, Cover::Dimensions changed, std::size_t depth) {
    Level& here = level(depth);
    Takers &meeting = here.meeting, &fewer = here.fewer;
    std::vector<Change>& changes = here.changes;
    changes.clear();
    bool taken = keep_meeting(takers, changed, meeting);
    while (!taken) {
      const Cover::Dimensions cut = cut_slabs(meeting, changes);
      if (cut == 0) break;
      taken = part_.empty() || keep_meeting(meeting, cut, fewer);
      meeting.swap(fewer);
    }
    if (looks_ > most_looks_) ended_ = Search::gave_up;
    if (!taken && ended_ == Search::ended) {
      if (!meeting.empty()) {
        halve(meeting, here.both, depth);
      } else if (!visit_(part_)) {
        ended_ = Search::stopped;
      }
    }
    for (auto change = changes.rbegin(); change != changes.rend(); ++change)
      part_.sides[change->dimension] = std::move(change->before);
  }

  void halve(const Takers& takers, Stretches& both, std::size_t depth) {
    const Cut cut = cut_of(takers);
    both = part_.sides[cut.dimension];
    const Run hull{both.runs().front().from, both.runs().back().up_to};
    for (const Run& half : {Run{hull.from, cut.border}, Run{cut.border, hull.up_to}}) {
      if (ended_ != Search::ended) break;
      part_.sides[cut.dimension] = both;
      part_.sides[cut.dimension].keep(half);
      look_into(takers, Cover::Dimensions{1} << cut.dimension, depth + 1);
    }
    part_.sides[cut.dimension] = both;
  }

  const Cover& cover_;
  Box part_;
  const std::uint64_t most_looks_;
  std::uint64_t looks_ = 0;
  const std::function<bool(const Box&)>& visit_;
  std::deque<Level> levels_;  // by depth; a deque moves none of them
  std::vector<std::uint32_t> borders_;
  Takers asked_;
  Search ended_ = Search::ended;
};

Cover::Cover(Box whole) : whole_(std::move(whole)) {}

void Cover::make_room_for(std::size_t takers) {
  sides_.reserve(sides_.size() + takers * whole_.sides.size());
  takers_.reserve(takers_.size() + takers);
}

void Cover::add(const Box& taker) {
  Taker added{added_++, 0};
  for (std::size_t i = 0; i < taker.sides.size(); ++i) {
    const Runs& runs = taker.sides[i].runs();
    const Run hull = runs.empty() ? Run{0, 0} : Run{runs.front().from, runs.back().up_to};
    sides_.push_back({hull, runs.size() > 1 ? &taker.sides[i] : nullptr});
    if (!(taker.sides[i] == whole_.sides[i])) added.told_apart |= Dimensions{1} << i;
  }
  if (!taker.empty()) takers_.push_back(added);
}

std::vector<Cover::Taker> Cover::near(const Box& box) const {
  struct SmallSide {
    std::size_t dimension;
    Run hull;
  };
  std::vector<SmallSide> small;
  for (std::size_t i = 0; i < box.sides.size(); ++i) {
    const Runs &side = box.sides[i].runs(), &whole = whole_.sides[i].runs();
    const Run hull{side.front().from, side.back().up_to};
    if (2 * (hull.up_to - hull.from) <= whole.back().up_to - whole.front().from) small.push_back({i, hull});
  }
  if (small.empty()) return takers_;
  // Without a branch for each side or taker: which of them is apart cannot be foreseen.
  std::vector<Taker> takers(takers_.size());
  std::size_t kept = 0;
  for (const Taker& taker : takers_) {
    unsigned apart = 0;
    for (const SmallSide& side : small) {
      const Run& taken = sides_[taker.place * box.sides.size() + side.dimension].hull;
      apart |=
          static_cast<unsigned>(taken.from >= side.hull.up_to) | static_cast<unsigned>(taken.up_to <= side.hull.from);
    }
    takers[kept] = taker;
    kept += 1U - apart;
  }
  takers.resize(kept);
  return takers;
}

Search Cover::each_left_over(const Box& box, const std::function<bool(const Box&)>& visit) {
  if (box.empty()) return Search::ended;
  LeftOver left_over(*this, box, kMostLooks - looks_, visit);
  const Search search = left_over.search();
  looks_ += std::min(left_over.looks(), kMostLooks - looks_);
  return search;
}

}  // namespace rushlight
