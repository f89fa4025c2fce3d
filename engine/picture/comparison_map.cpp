#include "picture/comparison_map.hpp"

#include <algorithm>
#include <set>

#include "picture/decision_map.hpp"
#include "verify/counterparts.hpp"
#include "verify/endings.hpp"

namespace rushlight {
namespace {

// The step with the other version's rules behind its own: they never match, since its own take everything, and cut the
// axes at the borders of both.
Step cut_like(const SideBySide& sides, StepId id, StepId other) {
  Step step = sides.both[id];
  step.rules.insert(step.rules.end(), sides.both[other].rules.begin(), sides.both[other].rules.end());
  for (std::size_t i = 0; i < sides.both.watch.size(); ++i) {
    const bool own = sides.is_now(id) == (i >= sides.now_watches);
    if (!own) step.handles.push_back(WatchId{static_cast<std::uint16_t>(i)});
  }
  return step;
}

class Beside {
 public:
  Beside(const SideBySide& sides, Together steps) : sides_(sides), steps_(steps) {}

  Decided of(const Decided& was, const Decided& now) const {
    Decided decided = now;
    decided.was = was.nexts;
    decided.beside = standing(was.nexts, now.nexts);
    if (decided.beside == Decided::Beside::same) decided = Decided{{Next{}}, {}, Decided::Beside::same, {}};
    return decided;
  }

 private:
  bool same(const Next& was, const Next& now) const {
    if (was.visits != now.visits || was.hands_over_to != now.hands_over_to) return false;
    if (!was.step || !now.step) return was.step.has_value() == now.step.has_value();
    return stay_together(sides_, *was.step, *now.step);
  }
  Decided::Beside standing(const std::vector<Next>& was, const std::vector<Next>& now) const {
    const bool all_same =
        was.size() == now.size() && std::all_of(was.begin(), was.end(), [&](const Next& one) {
          return std::any_of(now.begin(), now.end(), [&](const Next& other) { return same(one, other); });
        });
    if (all_same) return Decided::Beside::same;
    // Of each step that may have followed beside each that may follow now: what the words of `compare` say of it.
    std::set<Difference::Turn> turns;
    for (const Next& one : was) {
      for (const Next& other : now)
        turns.insert(same(one, other) ? Difference::Turn::otherwise
                                      : turn_of(sides_.both, steps_, ending_of(one), ending_of(other)));
    }
    const bool calmer = turns.count(Difference::Turn::calmer) > 0, less = turns.count(Difference::Turn::less) > 0;
    if (turns.size() > 1) {
      return calmer ? Decided::Beside::may_be_calmer : less ? Decided::Beside::may_be_less : Decided::Beside::other;
    }
    if (calmer) return Decided::Beside::calmer;
    if (less) return Decided::Beside::less;
    return turns.count(Difference::Turn::graver) > 0 ? Decided::Beside::graver : Decided::Beside::other;
  }
  static Ending ending_of(const Next& next) {
    if (!next.hands_over_to.empty()) return {Ending::Kind::hand_over, {}, next.hands_over_to};
    if (!next.step) return {Ending::Kind::nothing, {}, {}};
    if (!next.visits.empty()) return {Ending::Kind::visit, *next.step, next.visits};
    return {Ending::Kind::step, *next.step, {}};
  }

  const SideBySide& sides_;
  Together steps_;
};

bool same_axis(const Axis& one, const Axis& other) { return one.values == other.values; }

void move_down(Shape& shape, Length by) {
  if (auto* area = std::get_if<Area>(&shape)) area->corner.y += by;
  if (auto* words = std::get_if<Words>(&shape)) words->at.y += by;
  if (auto* stroke = std::get_if<Stroke>(&shape)) {
    for (Spot& spot : stroke->through) spot.y += by;
  }
}

Picture below_each_other(const std::vector<Picture>& pictures) {
  Picture all{Paper{"three pages, one below the other", 0, 0}, "Before, now, and what changes", "", {}};
  for (const Picture& each : pictures) {
    for (Shape shape : each.shapes) {
      move_down(shape, all.paper.height);
      all.shapes.push_back(std::move(shape));
    }
    all.told += (all.told.empty() ? "" : " ") + each.title + ". " + each.told;
    all.paper.width = std::max(all.paper.width, each.paper.width);
    all.paper.height += each.paper.height;
  }
  return all;
}

}  // namespace

std::optional<ComparisonMap> comparison_map(const SideBySide& sides, StepId was, StepId now, const Subject& across,
                                            const std::optional<Subject>& down, const std::vector<Held>& held) {
  const Step before = cut_like(sides, was, now), after = cut_like(sides, now, was);
  const auto one = decisions_of(sides.both, before, across, down, held);
  const auto other = decisions_of(sides.both, after, across, down, held);
  if (!one || !other || !same_axis(one->across, other->across) || one->places.size() != other->places.size())
    return std::nullopt;
  Decisions change = *other;
  const Beside beside(sides, {was, now});
  for (std::size_t i = 0; i < change.places.size(); ++i) change.places[i] = beside.of(one->places[i], other->places[i]);
  const bool differs = std::any_of(change.places.begin(), change.places.end(),
                                   [](const Decided& decided) { return decided.beside != Decided::Beside::same; });
  return ComparisonMap{below_each_other({decision_map(sides.both, before, *one, held, "BEFORE: "),
                                         decision_map(sides.both, after, *other, held, "NOW: "),
                                         decision_map(sides.both, after, change, held, "WHAT CHANGES: ")}),
                       differs};
}

}  // namespace rushlight
