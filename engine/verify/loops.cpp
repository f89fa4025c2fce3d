#include <algorithm>
#include <iterator>

#include "verify/properties.hpp"

namespace rushlight {

namespace {

using Ways = std::vector<std::size_t>;

struct Round {
  std::vector<std::string> steps;
  StepId first;
  Where back;              // of the way that closes it
  std::string set_back{};  // a counter that would end it, and that a rule on the way sets back
  Where setting_back{};    // that rule
  std::string counted{};   // a counter that is counted on the way
};

Round round_of(const Checking& checking, const Ways& ways, StepId start) {
  Round round{{}, start, {}};
  for (const std::size_t way : shortest_round(checking.protocol, checking.graph, ways, start)) {
    const Step& from = checking.protocol[checking.graph.ways[way].from];
    round.steps.push_back(from.name);
    if (from.counts) round.counted = checking.protocol[*from.counts].name;
    round.back = checking.graph.ways[way].where;
  }
  return round;
}

Because leads_back(const Round& round) {
  return Because{"this leads back to `" + round.steps.front() + "`", round.back};
}

// The counter's limit holds the rule back: from the greatest number the table compares it with on, earlier rules take
// everything the rule would take, for every child, hour and unit.
bool stops_at_limit(const Tables& tables, std::size_t rule, CounterId counter) {
  if (tables.things > 0) return false;
  for (const Table& table : tables.tables) {
    const bool compared =
        std::any_of(table.dimensions.begin(), table.dimensions.end(), [&](const Dimension& dimension) {
          return dimension.subject == Subject{Subject::Kind::counter, counter.index};
        });
    if (!compared) return false;
    Box at_limit = table.rules[rule];
    for (std::size_t i = 0; i < table.dimensions.size(); ++i) {
      const Dimension& dimension = table.dimensions[i];
      if (!(dimension.subject == Subject{Subject::Kind::counter, counter.index})) continue;
      for (std::size_t bit = 0; bit < dimension.stretches.size(); ++bit) {
        if (dimension.stretches[bit].value < dimension.greatest_border) at_limit.sides[i].reset(bit);
      }
    }
    std::vector<const Box*> earlier;
    for (std::size_t i = 0; i < rule; ++i) earlier.push_back(&table.rules[i]);
    if (!all_taken(at_limit, earlier)) return false;
  }
  return !tables.tables.empty();
}

// A loop is bounded when a counter ends it. Take a group of steps that lead to one another, and a counter that no way
// within it resets. Whoever goes round for ever in the group must in the end do one of two things: never again take a
// way that the counter's limit holds back (taking one needs the counter below its limit), or never again enter a step
// that counts it (entering one for ever would pass the limit). So the group is bounded when both of these are: the
// group without the ways held back, and the group without the steps that count. Each is smaller, and is looked at the
// same way, with the ways that are gone no longer resetting anything. A group that no counter makes smaller is a loop
// without a limit.
class Bounds {
 public:
  explicit Bounds(const Checking& checking) : checking_(checking), held_back_(checking.protocol.counters.size()) {
    for (std::size_t i = 0; i < held_back_.size(); ++i)
      held_back_[i] = ways_held_back_by(CounterId{static_cast<std::uint16_t>(i)});
  }

  std::vector<Round> unbounded() {
    Ways all(checking_.graph.ways.size());
    for (std::size_t i = 0; i < all.size(); ++i) all[i] = i;
    look_at(all, 0);
    return rounds_;
  }

 private:
  // Where both halves have to be looked at, the work doubles. A protocol so entangled that this happens more often than
  // this on one path is refused rather than looked at for hours: its loop is told as one without a limit.
  static constexpr std::size_t kMostSplits = 10;

  void look_at(const Ways& ways, std::size_t splits) {
    for (const std::vector<StepId>& group : loops_over(checking_.protocol, checking_.graph, ways)) {
      const Ways inside = within_groups(ways, {group});
      const auto counter = splits < kMostSplits ? bounding_counter(inside) : std::nullopt;
      if (!counter) {
        add(unbounded_round(inside, group.front()));
        continue;
      }
      look_at_both(inside, *counter, splits);
    }
  }

  // When every round that takes a way held back counts, the rounds that do not count take none of them: they are among
  // those of the other half, and looking at that one is enough. Nearly every counter of a clinic is like that.
  void look_at_both(const Ways& inside, CounterId counter, std::size_t splits) {
    Ways not_held_back, not_counting;
    for (const std::size_t way : inside) {
      if (!held_back(way, counter)) not_held_back.push_back(way);
      if (!enters_counting(way, counter)) not_counting.push_back(way);
    }
    if (!has_round_with(not_counting, [&](std::size_t way) { return held_back(way, counter); })) {
      look_at(not_held_back, splits);
    } else if (!has_round_with(not_held_back, [&](std::size_t way) { return enters_counting(way, counter); })) {
      look_at(not_counting, splits);
    } else {
      look_at(not_held_back, splits + 1);
      look_at(not_counting, splits + 1);
    }
  }

  template <class Property>
  bool has_round_with(const Ways& ways, Property property) const {
    if (std::none_of(ways.begin(), ways.end(), property)) return false;
    const Ways on_rounds = within_groups(ways, loops_over(checking_.protocol, checking_.graph, ways));
    return std::any_of(on_rounds.begin(), on_rounds.end(), property);
  }

  Ways within_groups(const Ways& ways, const std::vector<std::vector<StepId>>& groups) const {
    std::vector<std::size_t> group_of(checking_.protocol.steps.size(), 0);
    for (std::size_t i = 0; i < groups.size(); ++i) {
      for (const StepId step : groups[i]) group_of[step.index] = i + 1;
    }
    Ways inside;
    for (const std::size_t way : ways) {
      const std::size_t from = group_of[checking_.graph.ways[way].from.index];
      if (from != 0 && from == group_of[checking_.graph.ways[way].to.index]) inside.push_back(way);
    }
    return inside;
  }

  /// Counted in the group, and its limit holds a way of it back.
  bool would_bound(const Ways& inside, CounterId counter) const {
    bool holds_back = false, is_counted = false;
    for (const std::size_t way : inside) {
      is_counted = is_counted || enters_counting(way, counter);
      holds_back = holds_back || held_back(way, counter);
    }
    return is_counted && holds_back;
  }

  std::optional<CounterId> bounding_counter(const Ways& inside) const {
    for (std::size_t i = 0; i < checking_.protocol.counters.size(); ++i) {
      const CounterId counter{static_cast<std::uint16_t>(i)};
      const auto is_reset = [&](std::size_t way) { return resets(way, counter); };
      if (would_bound(inside, counter) && std::none_of(inside.begin(), inside.end(), is_reset)) return counter;
    }
    return std::nullopt;
  }

  /// One round of a group without a limit: one on which a counter is set back that would have ended it, if there is
  /// one.
  Round unbounded_round(const Ways& inside, StepId start) const {
    for (std::size_t i = 0; i < checking_.protocol.counters.size(); ++i) {
      const CounterId counter{static_cast<std::uint16_t>(i)};
      const auto sets_back =
          std::find_if(inside.begin(), inside.end(), [&](std::size_t way) { return resets(way, counter); });
      if (sets_back == inside.end() || !would_bound(inside, counter)) continue;
      const Way& way = checking_.graph.ways[*sets_back];
      Ways through;  // leaves its step by no other way
      std::copy_if(inside.begin(), inside.end(), std::back_inserter(through), [&](std::size_t each) {
        return each == *sets_back || !(checking_.graph.ways[each].from == way.from);
      });
      Round round = round_of(checking_, through, way.from);
      round.set_back = checking_.protocol.counters[i].name;
      round.setting_back = way.where;
      return round;
    }
    return round_of(checking_, inside, start);
  }

  bool resets(std::size_t way, CounterId counter) const {
    const Way& each = checking_.graph.ways[way];
    if (each.kind != Way::Kind::rule) return false;
    const std::vector<CounterId>& reset = checking_.protocol[each.from].rules[each.rule].resets;
    return std::find(reset.begin(), reset.end(), counter) != reset.end();
  }

  bool enters_counting(std::size_t way, CounterId counter) const {
    return checking_.protocol[checking_.graph.ways[way].to].counts == counter;
  }

  bool held_back(std::size_t way, CounterId counter) const { return held_back_[counter.index][way]; }

  // Outcomes and overdue answers ask no counter, nor does an early rule: it is looked at before the rules above it.
  std::vector<bool> ways_held_back_by(CounterId counter) const {
    std::vector<bool> held(checking_.graph.ways.size(), false);
    for (std::size_t i = 0; i < held.size(); ++i) {
      const Way& way = checking_.graph.ways[i];
      held[i] = way.kind == Way::Kind::rule && !checking_.protocol[way.from].rules[way.rule].early &&
                stops_at_limit(checking_.tables[way.from.index], way.rule, counter);
    }
    return held;
  }

  void add(Round round) {
    for (const Round& told : rounds_) {
      if (told.steps == round.steps) return;
    }
    rounds_.push_back(std::move(round));
  }

  const Checking& checking_;
  std::vector<std::vector<bool>> held_back_;  // by counter, then by way
  std::vector<Round> rounds_;
};

}  // namespace

void every_loop_passes_a_wait(Checking& checking) {
  Ways ways;
  for (std::size_t i = 0; i < checking.graph.ways.size(); ++i) {
    if (!passes_a_wait(checking.protocol, checking.graph.ways[i])) ways.push_back(i);
  }
  for (const std::vector<StepId>& group : loops_over(checking.protocol, checking.graph, ways)) {
    const Round round = round_of(checking, ways, group.front());
    checking.error(checking.protocol[round.first].where, LoopWithoutWait{round.steps}, leads_back(round));
  }
}

void every_loop_is_bounded(Checking& checking) {
  if (checking.thresholds_cross) return;  // a rule that is silent for that reason holds nothing back
  for (const Round& round : Bounds(checking).unbounded()) {
    checking.error(checking.protocol[round.first].where, LoopWithoutLimit{round.steps, round.set_back, round.counted},
                   round.set_back.empty()
                       ? leads_back(round)
                       : Because{"this sets `" + round.set_back + "` back to 0", round.setting_back});
  }
}

}  // namespace rushlight
