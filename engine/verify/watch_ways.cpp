#include <set>

#include "verify/dangers.hpp"
#include "verify/properties.hpp"
#include "verify/standing.hpp"

namespace rushlight {

namespace {

/// The steps that the watch's own step leads to, in no time or for certain with the sign still there, and that do not
/// handle it: nobody stays there, and what the watch leads to begins anew.
class LedBack {
 public:
  LedBack(Checking& checking, Standings& standings, WatchId watch)
      : checking_(checking), protocol_(checking.protocol), standings_(standings), watch_(watch) {}

  void look() {
    follow_at_once();
    for (const Way& way : checking_.graph.ways) {
      if (handles(protocol_[way.from], watch_) && leaves(way) && standings_.along(way, watch_) == StillTrue::still)
        tell(way);
    }
  }

 private:
  bool leaves(const Way& way) const { return !handles(protocol_[way.to], watch_) && !protocol_[way.to].ends; }

  void follow_at_once() {
    std::vector<bool> seen(protocol_.steps.size(), false);
    std::vector<StepId> queue{protocol_[watch_].go};
    seen[queue.front().index] = true;
    for (std::size_t at = 0; at < queue.size(); ++at) {
      for (const Way& way : checking_.graph.ways) {
        if (!(way.from == queue[at]) || passes_a_wait(protocol_, way)) continue;
        if (seen[way.to.index] || standings_.along(way, watch_) == StillTrue::over) continue;
        if (leaves(way)) tell(way);
        if (!handles(protocol_[way.to], watch_)) continue;
        seen[way.to.index] = true;
        queue.push_back(way.to);
      }
    }
  }

  void tell(const Way& way) {
    if (!told_.insert(way.to.index).second) return;
    const Watch& watch = protocol_[watch_];
    const Step& to = protocol_[way.to];
    checking_.error(to.where, WatchLeadsBack{to.name, watch.name, protocol_[way.from].name, protocol_[watch.go].name},
                    Because{"this leads to `" + to.name + "`", way.where});
  }

  Checking& checking_;
  const Protocol& protocol_;
  Standings& standings_;
  WatchId watch_;
  std::set<std::uint16_t> told_;
};

}  // namespace

// What is not handled where a watch leads is told by itself.
void no_watch_leads_back_at_once(Checking& checking) {
  Standings standings(checking.protocol);
  for (std::size_t i = 0; i < checking.protocol.watch.size(); ++i) {
    const WatchId id{static_cast<std::uint16_t>(i)};
    const Watch& watch = checking.protocol[id];
    if (!watch.told && handles(checking.protocol[watch.go], id)) LedBack(checking, standings, id).look();
  }
}

namespace {

constexpr std::size_t kMostStepsByThemselves = 3;  // of more than these the watch is wrong and not the steps

bool leads_to_a_calmer(const Protocol& protocol, WatchId id, const Step& step) {
  const Watch& watch = protocol[id];
  if (step.ends || handles(step, id) || protocol[watch.go].urgency >= step.urgency) return false;
  return !watch.told || step.urgency == Urgency::emergency;
}

}  // namespace

// News is looked at where it is told; a low among the steps of a call may well be treated in a calmer one, as the call
// stays open. An emergency is left for nothing calmer.
void no_watch_leads_to_a_calmer_step(Checking& checking) {
  const Protocol& protocol = checking.protocol;
  for (std::size_t i = 0; i < protocol.watch.size(); ++i) {
    const WatchId id{static_cast<std::uint16_t>(i)};
    const Watch& watch = protocol[id];
    const Step& target = protocol[watch.go];
    std::vector<const Step*> left;
    for (const Step& step : protocol.steps) {
      if (leads_to_a_calmer(protocol, id, step)) left.push_back(&step);
    }
    if (left.empty()) continue;
    const WatchCalms calms{left.front()->name, watch.name, target.name, std::string(name_of(target.urgency)), 0,
                           watch.told};
    if (left.size() > kMostStepsByThemselves) {
      WatchCalms all = calms;
      all.others = static_cast<int>(left.size()) - 1;
      checking.error(watch.where, all, Because{"the first of them is step `" + calms.step + "`", left.front()->where});
      continue;
    }
    for (const Step* step : left) {
      WatchCalms one = calms;
      one.step = step->name;
      checking.error(step->where, one,
                     Because{"watch `" + watch.name + "` leads to `" + target.name + "`", watch.where});
    }
  }
}

}  // namespace rushlight
