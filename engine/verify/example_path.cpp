#include "verify/example_path.hpp"

#include <algorithm>
#include <queue>
#include <set>
#include <string>

#include "verify/answering.hpp"
#include "verify/distances.hpp"
#include "verify/moves.hpp"

namespace rushlight {
/// The protocol with an end where the example is to come to: the moment the engine comes there, the episode is over. Up
/// to then it is the protocol itself.
struct Aimed {
  Protocol protocol;
  StepId target;
};

namespace {

Aimed aimed_at(const Protocol& protocol, const Sought& sought) {
  Aimed aimed{protocol, sought.step};
  std::vector<Step>& steps = aimed.protocol.steps;
  if (sought.kind == Sought::Kind::step) {
    // In a visit only an emergency ends everything.
    Step& step = steps[sought.step.index];
    step.ends = true;
    step.ends_visit = false;
    step.urgency = Urgency::emergency;
    return aimed;
  }
  aimed.target = StepId{static_cast<std::uint16_t>(steps.size())};
  Step end = steps.front();
  end.name.clear();
  end.urgency = Urgency::emergency;
  end.actions.clear();
  end.asks.clear();
  end.wait.reset();
  end.rules.clear();
  end.handles.clear();
  end.counts.reset();
  end.ends = true;
  end.ends_visit = false;
  if (sought.kind == Sought::Kind::watch) {
    aimed.protocol.watch[sought.index].go = aimed.target;
  } else {
    Rule& rule = steps[sought.step.index].rules[sought.index];
    rule.go = aimed.target;
    rule.enters.reset();
    rule.visits.clear();
    rule.hands_over_to.clear();
  }
  steps.push_back(std::move(end));
  return aimed;
}

bool is_there(const Aimed& aimed, const Episode& episode) { return episode.ended && episode.step == aimed.target; }

}  // namespace

/// Two episodes with the same mark cannot be told apart by any rule from here on, but for the minutes that waits are
/// still to take.
class Marks {
 public:
  explicit Marks(const Protocol& protocol) : protocol_(protocol), most_(protocol.counters.size(), 0) {
    const auto add = [&](const Conditions& conditions) {
      for (const Condition& condition : conditions) {
        if (const auto* counted = std::get_if<CountedAtLeast>(&condition.test)) {
          for (const Band& band : protocol[counted->limit].bands) {
            const int* number = std::get_if<int>(&band.value);
            int& most = most_[counted->counter.index];
            if (number != nullptr) most = std::max(most, *number);
          }
        } else {
          conditions_.push_back(&condition);
        }
      }
    };
    for (const Watch& watch : protocol.watch) add(watch.when);
    for (const Step& step : protocol.steps) {
      for (const Rule& rule : step.rules) add(rule.when);
      for (const ActionId action : step.actions) add(protocol[action].when);
      for (const Ask& ask : step.asks) {
        if (ask.fresh) fresh_.push_back(&ask);
      }
    }
  }

  std::string of(const Child& child, const Episode& episode, Instant now) const {
    const Scene scene = scene_at(protocol_, child, episode, now);
    std::string mark;
    const auto put = [&](int number) { mark += static_cast<char>(number & 0x7F); };
    put(episode.step.index);
    put(episode.step.index >> 7);
    put(episode.visit ? episode.visit->from.index + 1 : 0);
    put(episode.wait_passed ? 2 : episode.wait_ends ? 1 : 0);
    put(static_cast<int>(episode.opening.size()));
    for (const Given& deed : episode.deeds) put(deed.action.index);
    put(0x7F);
    for (std::size_t i = 0; i < most_.size(); ++i) put(std::min(episode.counted[i], most_[i]));
    for (const Condition* condition : conditions_) put(holds(scene, *condition, Unanswered::holds_nothing) ? 1 : 0);
    for (const Ask* ask : fresh_) {
      const std::optional<Known>& known = episode.facts[ask->fact.index];
      const auto* time = std::get_if<Duration>(&value_in(protocol_[*ask->fresh], scene.context));
      put(known && time != nullptr && now - known->learned <= *time ? 1 : 0);
    }
    return mark;
  }

 private:
  const Protocol& protocol_;
  std::vector<int> most_;
  std::vector<const Condition*> conditions_;
  std::vector<const Ask*> fresh_;
};

/// What is the same for all children.
struct Aim {
  Aim(const Protocol& protocol, const Sought& sought)
      : aimed(aimed_at(protocol, sought)), distances(aimed.protocol, aimed.target), marks(aimed.protocol) {}
  const Aimed aimed;
  const Distances distances;
  const Marks marks;
};

namespace {

// Where the shortest way is too far off to be found, any: so much more counts what is still to walk than what was
// walked.
constexpr int kPull = 4;

struct Passed {
  Episode episode;
  Moment now;
  int walked;
  std::size_t before;  // the place it was come from; itself at the beginning
  Event by;            // what was told there
};

struct Next {
  int estimate;
  std::size_t number;  // of equals the one thought of first
  std::size_t place;
  Move move;
};
struct Later {
  bool operator()(const Next& a, const Next& b) const {
    return a.estimate != b.estimate ? a.estimate > b.estimate : a.number > b.number;
  }
};

class PathSearch {
 public:
  PathSearch(const Aim& aim, const Setting& setting, int pull)
      : setting_(setting), pull_(pull), aimed_(aim.aimed), distances_(aim.distances), marks_(aim.marks) {}

  Sighting run(int most) {
    places_.push_back(
        Passed{beginning(aimed_.protocol, setting_), setting_.began, 0, 0, Event{setting_.began, Ticked{}}});
    if (is_there(aimed_, places_.front().episode)) return found(0);
    expand(0);
    for (; !queue_.empty(); ++looked_) {
      if (looked_ == most) return Sighting{std::nullopt, true, looked_};
      const Next next = queue_.top();
      queue_.pop();
      const Passed& from = places_[next.place];
      Passed place{folded(aimed_.protocol, setting_.child, from.episode, next.move.event), next.move.event.at,
                  from.walked + next.move.cost, next.place, next.move.event};
      place.episode.history.clear();  // for corrections only, and there are none
      const bool there = is_there(aimed_, place.episode);
      if (!there && !seen_.insert(marks_.of(setting_.child, place.episode, place.now.utc)).second) continue;
      places_.push_back(std::move(place));
      if (there) return found(places_.size() - 1);
      expand(places_.size() - 1);
    }
    return Sighting{std::nullopt, false, looked_};
  }

 private:
  void expand(std::size_t number) {
    std::vector<Move> moves;
    {
      const Passed& place = places_[number];
      moves = moves_from(aimed_.protocol, setting_.child, place.episode, place.now);
    }
    for (Move& move : moves) {
      const Passed& place = places_[number];
      const int far = distances_.from(move.heads_for.value_or(place.episode.step), place.episode);
      if (far >= Distances::kNoWay) continue;
      queue_.push(Next{place.walked + move.cost + pull_ * far, ++thought_of_, number, std::move(move)});
    }
  }

  Sighting found(std::size_t number) const {
    Example example{setting_, {}};
    for (std::size_t at = number; at != places_[at].before; at = places_[at].before)
      example.events.push_back(places_[at].by);
    std::reverse(example.events.begin(), example.events.end());
    return Sighting{std::move(example), false, looked_};
  }

  const Setting& setting_;
  const int pull_;
  const Aimed& aimed_;
  const Distances& distances_;
  const Marks& marks_;
  std::vector<Passed> places_;
  std::priority_queue<Next, std::vector<Next>, Later> queue_;
  std::set<std::string> seen_;
  std::size_t thought_of_ = 0;
  int looked_ = 0;
};

}  // namespace

Episode beginning(const Protocol& protocol, const Setting& setting) {
  Episode episode = begun(protocol, setting.child, setting.began);
  return folded(protocol, setting.child, std::move(episode), Event{setting.began, Remembered{setting.past}});
}

PathFinder::PathFinder(const Protocol& protocol, const Sought& sought)
    : aim_(std::make_unique<const Aim>(protocol, sought)) {}
PathFinder::~PathFinder() = default;

Sighting PathFinder::example_reaching(const Setting& setting, int most) const {
  Sighting shortest = PathSearch(*aim_, setting, 1).run(most);
  if (!shortest.gave_up) return shortest;
  Sighting some = PathSearch(*aim_, setting, kPull).run(most);
  some.looked_at += shortest.looked_at;
  return some;
}

bool PathFinder::arrives(const Example& example) const {
  const Aimed& aimed = aim_->aimed;
  Episode episode = beginning(aimed.protocol, example.setting);
  for (const Event& event : example.events) {
    if (episode.ended) return false;
    episode = folded(aimed.protocol, example.setting.child, std::move(episode), event);
  }
  return is_there(aimed, episode);
}

}  // namespace rushlight
