#include "planted/same_decisions.hpp"

#include <algorithm>
#include <map>
#include <tuple>

#include "verify/space.hpp"
#include "verify/step_parts.hpp"

namespace rushlight::planted {
namespace {

/// Where a rule leads, and what it does on the way.
using Leads =
    std::tuple<std::uint16_t, std::string, std::string, std::vector<std::uint16_t>, std::vector<std::uint16_t>>;

template <class Ids>
std::vector<std::uint16_t> places(const Ids& ids) {
  std::vector<std::uint16_t> list;
  for (const auto& id : ids) list.push_back(id.index);
  std::sort(list.begin(), list.end());
  return list;
}

Leads leads_of(const Rule& rule) {
  return {rule.go.index, rule.visits, rule.hands_over_to, places(rule.resets), places(rule.sets)};
}

class Deciding {
 public:
  Deciding(const Protocol& protocol, const Step& other, StepId step, GlucoseUnit unit)
      : protocol_(protocol),
        step_(protocol[step]),
        space_(protocol, unit, conditions_of(other)),
        diagrams_(space_.sizes()),
        watched_(surely_watched()) {}

  /// What each way takes, first match; of the early rules alone, those that are looked at during the wait.
  std::map<Leads, Diagrams::Set> taken_by(const Step& step, bool early) {
    std::map<Leads, Diagrams::Set> by;
    Diagrams::Set taken = early ? Diagrams::kNone : watched_;
    for (const Rule& rule : step.rules) {
      if (early && !rule.early) continue;
      Diagrams::Set holding = space_.where(diagrams_, rule.when);
      for (std::size_t a = 0; a < step.asks.size() && rule.otherwise; ++a)
        holding = diagrams_.both(holding, space_.known(diagrams_, step.asks[a].fact));
      Diagrams::Set& all = by.emplace(leads_of(rule), Diagrams::kNone).first->second;
      all = diagrams_.either(all, diagrams_.without(holding, taken));
      taken = diagrams_.either(taken, holding);
    }
    for (auto at = by.begin(); at != by.end();) at = at->second == Diagrams::kNone ? by.erase(at) : std::next(at);
    return by;
  }

 private:
  static Conditions conditions_of(const Step& step) {
    Conditions all;
    for (const Rule& rule : step.rules) all.insert(all.end(), rule.when.begin(), rule.when.end());
    return all;
  }

  Diagrams::Set surely_watched() {
    Diagrams::Set watched = Diagrams::kNone;
    for (std::size_t i = 0; i < protocol_.watch.size(); ++i) {
      const WatchId id{static_cast<std::uint16_t>(i)};
      const Watch& watch = protocol_[id];
      const bool handled = std::find(step_.handles.begin(), step_.handles.end(), id) != step_.handles.end();
      const bool known = std::all_of(watch.when.begin(), watch.when.end(), [&](const Condition& condition) {
        const Subject subject = subject_of(condition);
        return subject.kind != Subject::Kind::fact || protocol_.facts[subject.index].from_child ||
               ask_for(step_, FactId{subject.index}) != nullptr;
      });
      if (!watch.told && !handled && known) watched = diagrams_.either(watched, space_.where(diagrams_, watch.when));
    }
    return watched;
  }

  const Protocol& protocol_;
  const Step& step_;
  Space space_;
  Diagrams diagrams_;
  Diagrams::Set watched_;
};

}  // namespace

bool decides_the_same(const Protocol& before, const Protocol& after, const std::string& name) {
  const auto id = before.step_named(name);
  const auto other = after.step_named(name);
  if (!id || !other || !(*id == *other)) return false;
  for (const GlucoseUnit unit : {GlucoseUnit::mg_per_dl, GlucoseUnit::mmol_per_l}) {
    Deciding deciding(before, after[*other], *id, unit);
    for (const bool early : {false, true}) {
      if (deciding.taken_by(before[*id], early) != deciding.taken_by(after[*other], early)) return false;
    }
  }
  return true;
}

}  // namespace rushlight::planted
