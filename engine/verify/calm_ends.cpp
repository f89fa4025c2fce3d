#include <algorithm>

#include "verify/dangers.hpp"
#include "verify/properties.hpp"
#include "verify/standing.hpp"
#include "verify/step_parts.hpp"

namespace rushlight {

namespace {

bool is_calm_end(const Step& step) { return step.ends && step.urgency == Urgency::home; }

/// Where an answer that the watch looks out for may be one of before, that no watch fires on any more: it was told in a
/// step that handles the watch, and every way since has let it pass unread. A visit measures for itself.
class OldNews {
 public:
  OldNews(const Checking& checking, Standings& standings, WatchId watch)
      : protocol_(checking.protocol), standings_(standings), watch_(watch), may_be_(protocol_.steps.size(), false) {
    for (bool more = true; more;) {
      more = false;
      for (const Way& way : checking.graph.ways) more = follow(way) || more;
      for (std::size_t s = 0; s < may_be_.size(); ++s)
        more = follow_watches(StepId{static_cast<std::uint16_t>(s)}) || more;
    }
  }

  /// Whether the rules of the step may read such an answer.
  bool may_be_read_in(StepId step) const {
    return handles(protocol_[step], watch_) || (may_be_[step.index] && !asks_anew(protocol_[step]));
  }

 private:
  bool asks_anew(const Step& step) const {
    const Conditions& when = protocol_[watch_].when;
    return std::any_of(when.begin(), when.end(), [&](const Condition& condition) {
      const Subject subject = subject_of(condition);
      const Ask* ask = subject.kind == Subject::Kind::fact ? ask_for(step, FactId{subject.index}) : nullptr;
      return ask != nullptr && !ask->fresh;
    });
  }

  /// A rule that compares the number has been written with it in mind.
  bool is_looked_at(const Way& way) const {
    if (way.kind != Way::Kind::rule) return false;
    const Rule& rule = protocol_[way.from].rules[way.rule];
    const Conditions& looks_for = protocol_[watch_].when;
    const auto compares = [&](const Condition& condition) {
      const Subject subject = subject_of(condition);
      return subject.kind == Subject::Kind::fact &&
             std::any_of(looks_for.begin(), looks_for.end(),
                         [&](const Condition& other) { return subject_of(other) == subject; });
    };
    return !rule.visits.empty() || std::any_of(rule.when.begin(), rule.when.end(), compares);
  }

  bool reach(StepId step) {
    if (may_be_[step.index]) return false;
    may_be_[step.index] = true;
    return true;
  }

  bool follow(const Way& way) {
    // What is reached already is not asked how: the way there may cost a search.
    return !may_be_[way.to.index] && may_be_read_in(way.from) && !is_looked_at(way) &&
           standings_.along(way, watch_) != StillTrue::over && reach(way.to);
  }

  // Other news leads to a step that decides by it, not to an end that knows nothing of it.
  bool follow_watches(StepId from) {
    if (!may_be_read_in(from) || protocol_[from].ends) return false;
    bool more = false;
    for (std::size_t i = 0; i < protocol_.watch.size(); ++i) {
      const WatchId id{static_cast<std::uint16_t>(i)};
      if (!protocol_[id].told && !handles(protocol_[from], id)) more = reach(protocol_[id].go) || more;
    }
    return more;
  }

  const Protocol& protocol_;
  Standings& standings_;
  WatchId watch_;
  std::vector<bool> may_be_;
};

}  // namespace

// Only what the step itself asks: what was answered elsewhere may have changed since. News that a step does not handle
// is looked at before its rules.
void no_night_ends_calmly_in_danger(Checking& checking) {
  const Protocol& protocol = checking.protocol;
  Standings standings(protocol);
  std::vector<std::optional<OldNews>> old(protocol.watch.size());
  for (const Way& way : checking.graph.ways) {
    if (way.kind != Way::Kind::rule || !is_calm_end(protocol[way.to])) continue;
    for (std::size_t i = 0; i < protocol.watch.size(); ++i) {
      const WatchId id{static_cast<std::uint16_t>(i)};
      const Watch& watch = protocol[id];
      const auto example = standings.just_answered(way, id);
      if (!example) continue;
      if (watch.told && !old[i]) old[i].emplace(checking, standings, id);
      if (watch.told && !old[i]->may_be_read_in(way.from)) continue;
      checking.error(way.where, CalmEnd{protocol[way.from].name, protocol[way.to].name, watch.name, *example},
                     Because{"watch `" + watch.name + "` looks out for it", watch.where});
      break;
    }
  }
}

}  // namespace rushlight
