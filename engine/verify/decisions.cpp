#include "verify/decisions.hpp"

#include <algorithm>
#include <map>

#include "episode/scene.hpp"
#include "verify/contexts.hpp"
#include "verify/stretches.hpp"

namespace rushlight {

namespace {

constexpr std::size_t kMostLooks = 400'000;  // at combinations, for one map: under a second
constexpr Subject kAge{Subject::Kind::fact, fact_id(ChildFact::age).index};
constexpr Subject kWeight{Subject::Kind::fact, fact_id(ChildFact::weight).index};
constexpr Subject kClock{Subject::Kind::clock, 0};

bool asks(const Step& step, const Subject& subject) {
  return subject.kind == Subject::Kind::fact && std::any_of(step.asks.begin(), step.asks.end(), [&](const Ask& ask) {
           return ask.fact.index == subject.index;
         });
}

// A watch that an answer of this step can set off. Any other was true before, and then nobody came here. What an
// earlier step asked is no news any more, so a watch for news needs all its answers from this one.
bool may_fire(const Protocol& protocol, const Step& step, WatchId id) {
  if (std::find(step.handles.begin(), step.handles.end(), id) != step.handles.end()) return false;
  const Watch& watch = protocol[id];
  const auto is_asked = [&](const Condition& condition) { return asks(step, subject_of(condition)); };
  const auto is_old = [&](const Condition& condition) {
    return question_in(protocol, condition) && !is_asked(condition);
  };
  if (watch.told && std::any_of(watch.when.begin(), watch.when.end(), is_old)) return false;
  return std::any_of(watch.when.begin(), watch.when.end(), is_asked);
}

Next next_of(const Rule& rule) {
  if (!rule.hands_over_to.empty()) return Next{std::nullopt, "", rule.hands_over_to};
  return Next{rule.go, rule.visits, ""};
}

// One thing that must be so for a line to hold. Without a condition: that this is known.
struct Test {
  std::size_t subject;
  const Condition* condition;
};

struct Line {
  std::vector<Test> tests;
  bool is_watch;
  std::size_t next;
};

// A decision diagram, built top-down in one order of the subjects and reduced as it is built: a subject stands in it
// only if it decides, and two places are decided alike only if they are the same node.
class Decider {
 public:
  Decider(const Protocol& protocol, const Step& step) : protocol_(protocol), step_(step) {
    for (std::size_t i = 0; i < protocol.watch.size(); ++i) {
      const WatchId id{static_cast<std::uint16_t>(i)};
      if (may_fire(protocol, step, id)) add_limits(protocol[id].when);
    }
    for (const Rule& rule : step.rules) add_limits(rule.when);
    // What picks the band of a limit comes first, so that every limit has its value when it is compared with.
    const ContextCell cell = context_cells(protocol, limits_).front();
    if (cell.splits_age) place_of(kAge);
    if (cell.splits_weight) place_of(kWeight);
    if (cell.splits_clock) place_of(kClock);
    splitting_ = subjects_.size();
    for (const Ask& ask : step.asks) place_of({Subject::Kind::fact, ask.fact.index});
    for (std::size_t i = 0; i < protocol.watch.size(); ++i) {
      const WatchId id{static_cast<std::uint16_t>(i)};
      if (may_fire(protocol, step, id)) add_line(protocol[id].when, false, true, Next{protocol[id].go, "", ""});
    }
    for (const Rule& rule : step.rules) add_line(rule.when, rule.otherwise, false, next_of(rule));
    for (const Subject& subject : subjects_) {
      axes_.push_back(axis_of(protocol, subject, limits_of_subject(subject), other_in_mmol_));
      const bool read_unasked =
          subject.kind == Subject::Kind::fact && !protocol.facts[subject.index].from_child && !asks(step, subject);
      if (read_unasked) axes_.back().values.push_back(AxisValue{AxisValue::Kind::not_asked, {{0, true}, {0, true}}});
    }
    chosen_.resize(subjects_.size());
  }

  const std::vector<Subject>& subjects() const { return subjects_; }
  bool other_in_mmol() const { return other_in_mmol_; }
  bool gave_up() const { return looks_ > kMostLooks; }
  /// Only what a meter in this unit shows.
  void read_in(GlucoseUnit unit) { unit_ = unit; }
  const Axis& axis(std::size_t place) const { return axes_[place]; }
  std::optional<std::size_t> find(const Subject& subject) const {
    const auto found = std::find(subjects_.begin(), subjects_.end(), subject);
    if (found == subjects_.end()) return std::nullopt;
    return static_cast<std::size_t>(found - subjects_.begin());
  }
  void choose(std::size_t place, std::optional<AxisValue> value) { chosen_[place] = value; }

  /// What follows from what is chosen.
  std::size_t node() {
    if (++looks_ > kMostLooks) return 0;
    for (std::size_t i = 0; i < splitting_; ++i) {
      if (!chosen_[i]) return split_at(i);
    }
    std::size_t undecided = subjects_.size();
    for (const Line& line : lines_) {
      std::size_t first = subjects_.size();
      if (!may_hold(line, first)) continue;
      undecided = std::min(undecided, first);
      if (first == subjects_.size()) return undecided == first ? leaf(line.next) : split_at(undecided);
    }
    return undecided == subjects_.size() ? leaf(next_place(Next{})) : split_at(undecided);
  }

  Decided decided(std::size_t root) const {
    std::vector<bool> seen(nodes_.size()), by(subjects_.size()), to(nexts_.size());
    std::vector<std::size_t> left{root};
    while (!left.empty()) {
      const std::size_t at = left.back();
      left.pop_back();
      if (seen[at]) continue;
      seen[at] = true;
      const Node& node = nodes_[at];
      if (node.children.empty()) {
        to[node.what] = true;
      } else {
        by[node.what] = true;
        left.insert(left.end(), node.children.begin(), node.children.end());
      }
    }
    Decided result;
    for (std::size_t i = 0; i < to.size(); ++i) {
      if (to[i]) result.nexts.push_back(nexts_[i]);
    }
    for (std::size_t i = 0; i < by.size(); ++i) {
      if (by[i]) result.by.push_back(subjects_[i]);
    }
    return result;
  }

 private:
  struct Node {
    std::size_t what;                   // the subject, or the next of a leaf
    std::vector<std::size_t> children;  // one for each value; none in a leaf
    bool operator<(const Node& other) const {
      return what != other.what ? what < other.what : children < other.children;
    }
  };

  std::size_t place_of(const Subject& subject) {
    if (const auto place = find(subject)) return *place;
    subjects_.push_back(subject);
    return subjects_.size() - 1;
  }

  std::size_t next_place(const Next& next) {
    const auto found = std::find(nexts_.begin(), nexts_.end(), next);
    if (found != nexts_.end()) return static_cast<std::size_t>(found - nexts_.begin());
    nexts_.push_back(next);
    return nexts_.size() - 1;
  }

  void add_limits(const Conditions& when) {
    for (const Condition& condition : when) {
      for (const ThresholdId limit : limits_of(condition)) limits_.push_back(limit);
    }
  }

  void add_line(const Conditions& when, bool otherwise, bool is_watch, const Next& next) {
    Line line{{}, is_watch, next_place(next)};
    for (const Condition& condition : when) line.tests.push_back(Test{place_of(subject_of(condition)), &condition});
    if (otherwise) {
      for (const Ask& ask : step_.asks) {
        line.tests.push_back(Test{place_of({Subject::Kind::fact, ask.fact.index}), nullptr});
      }
    }
    lines_.push_back(std::move(line));
  }

  // Those it is compared with; for what picks a band, all of them.
  std::vector<ThresholdId> limits_of_subject(const Subject& subject) const {
    if (find(subject).value_or(splitting_) < splitting_) return limits_;
    std::vector<ThresholdId> limits;
    for (const Line& line : lines_) {
      for (const Test& test : line.tests) {
        if (test.condition == nullptr || !(subjects_[test.subject] == subject)) continue;
        for (const ThresholdId limit : limits_of(*test.condition)) limits.push_back(limit);
      }
    }
    return limits;
  }

  const Stretch* chosen(const Subject& subject) const {
    const auto place = find(subject);
    return place && chosen_[*place] ? &chosen_[*place]->in[static_cast<std::size_t>(unit_)] : nullptr;
  }

  // The child and the hour as far as they are chosen; an unknown weight takes the band of the lightest child.
  Context context() const {
    const Stretch *age = chosen(kAge), *weight = chosen(kWeight), *clock = chosen(kClock);
    Context context{Age::of_months(age != nullptr ? static_cast<int>(age->value) : 0), std::nullopt,
                    ClockTime::of_minutes(clock != nullptr ? static_cast<int>(clock->value) : 0)};
    if (weight != nullptr && !weight->unknown)
      context.weight = BodyWeight{Decimal::of_micros(weight->value), kKilogram};
    return context;
  }

  bool test_holds(const Line& line, const Test& test) const {
    const AxisValue& value = *chosen_[test.subject];
    if (line.is_watch && value.kind == AxisValue::Kind::not_asked) return false;
    const Stretch& stretch = value.in[static_cast<std::size_t>(unit_)];
    return test.condition == nullptr ? !stretch.unknown : holds(protocol_, *test.condition, stretch, unit_, context());
  }

  // False when something chosen rules it out; `first` is the first subject that is still to be chosen for it.
  bool may_hold(const Line& line, std::size_t& first) const {
    for (const Test& test : line.tests) {
      if (!chosen_[test.subject]) {
        first = std::min(first, test.subject);
      } else if (!test_holds(line, test)) {
        return false;
      }
    }
    return true;
  }

  std::size_t leaf(std::size_t next) { return known(Node{next, {}}); }

  std::size_t split_at(std::size_t place) {
    Node node{place, {}};
    for (const AxisValue& value : axes_[place].values) {
      chosen_[place] = value;
      node.children.push_back(this->node());
      if (gave_up()) break;
    }
    chosen_[place] = std::nullopt;
    const bool alike = std::all_of(node.children.begin(), node.children.end(),
                                   [&](std::size_t child) { return child == node.children.front(); });
    return alike ? node.children.front() : known(std::move(node));
  }

  std::size_t known(Node node) {
    const auto [found, is_new] = places_.emplace(std::move(node), nodes_.size());
    if (is_new) nodes_.push_back(found->first);
    return found->second;
  }

  const Protocol& protocol_;
  const Step& step_;
  GlucoseUnit unit_ = GlucoseUnit::mg_per_dl;
  std::vector<ThresholdId> limits_;
  std::vector<Subject> subjects_;
  std::size_t splitting_ = 0;  // the first of them pick the bands
  std::vector<Axis> axes_;
  std::vector<std::optional<AxisValue>> chosen_;
  std::vector<Line> lines_;
  std::vector<Next> nexts_;
  std::vector<Node> nodes_;
  std::map<Node, std::size_t> places_;
  std::size_t looks_ = 0;
  bool other_in_mmol_ = false;
};

Decided merged(const Decided& one, const Decided& other) {
  Decided all = one;
  for (const Next& next : other.nexts) {
    if (std::find(all.nexts.begin(), all.nexts.end(), next) == all.nexts.end()) all.nexts.push_back(next);
  }
  for (const Subject& subject : other.by) {
    if (std::find(all.by.begin(), all.by.end(), subject) == all.by.end()) all.by.push_back(subject);
  }
  return all;
}

}  // namespace

std::vector<Subject> read_by(const Protocol& protocol, const Step& step) { return Decider(protocol, step).subjects(); }

std::optional<Decisions> decisions_of(const Protocol& protocol, const Step& step, const Subject& across,
                                      const std::optional<Subject>& down, const std::vector<Held>& held) {
  Decider decider(protocol, step);
  for (const Held& fast : held) {
    const AxisValue value{fast.value.unknown ? AxisValue::Kind::cant_tell : AxisValue::Kind::option,
                          {fast.value, fast.value}};
    if (const auto place = decider.find(fast.subject)) decider.choose(*place, value);
  }
  const auto column = decider.find(across);
  const auto row = down ? decider.find(*down) : std::nullopt;
  if (!column || (down && !row)) return std::nullopt;
  Decisions all{decider.axis(*column), std::nullopt, {}, decider.other_in_mmol()};
  if (row) all.down = decider.axis(*row);
  for (std::size_t y = 0; y < all.rows(); ++y) {
    if (row) decider.choose(*row, all.down->values[y]);
    for (const AxisValue& value : all.across.values) {
      decider.choose(*column, value);
      decider.read_in(GlucoseUnit::mg_per_dl);
      Decided decided = decider.decided(decider.node());
      if (!all.other_in_mmol) {
        decider.read_in(GlucoseUnit::mmol_per_l);
        decided = merged(decided, decider.decided(decider.node()));
      }
      all.places.push_back(std::move(decided));
      if (decider.gave_up()) return std::nullopt;
    }
  }
  return all;
}

}  // namespace rushlight
