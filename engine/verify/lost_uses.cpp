#include "verify/lost_uses.hpp"

#include <algorithm>
#include <string>

#include "finding/quoted.hpp"

namespace rushlight {

namespace {

/// Whether a part of a file uses the number, or the counter, of this name.
struct Uses {
  const Protocol& protocol;
  const std::string& name;

  bool is_it(ThresholdId limit) const { return protocol[limit].name == name; }
  bool is_it(std::optional<ThresholdId> limit) const { return limit && is_it(*limit); }

  bool operator()(const Compares& test) const { return is_it(test.limit); }
  bool operator()(const CountedAtLeast& test) const { return is_it(test.limit) || protocol[test.counter].name == name; }
  bool operator()(const WithinClock& test) const { return is_it(test.from) || is_it(test.up_to); }
  template <class Other>
  bool operator()(const Other&) const {
    return false;
  }

  bool in(const Conditions& conditions) const {
    return std::any_of(conditions.begin(), conditions.end(),
                       [&](const Condition& each) { return std::visit(*this, each.test); });
  }
  bool in(const Wait& wait) const {
    return is_it(wait.lasts) || is_it(wait.overdue) || is_it(wait.start_within) || is_it(wait.insulin_again);
  }
  bool in(const Action& action) const {
    return in(action.when) || (action.call && is_it(action.call->answer_within)) ||
           (action.starts && is_it(action.starts->lasts));
  }
  bool in(const Step& step) const {
    return (step.wait && in(*step.wait)) ||
           std::any_of(step.asks.begin(), step.asks.end(), [&](const Ask& ask) { return is_it(ask.fresh); }) ||
           std::any_of(step.rules.begin(), step.rules.end(), [&](const Rule& rule) { return in(rule.when); }) ||
           std::any_of(step.actions.begin(), step.actions.end(), [&](ActionId id) { return in(protocol[id]); });
  }
};

/// What uses it there and has a namesake here; one that is in one line of the file is nearer to the slip.
std::optional<Because> place_in(const Protocol& here, const Protocol& there, const std::string& name) {
  const Uses uses{there, name};
  for (const Watch& watch : there.watch) {
    const auto same =
        std::find_if(here.watch.begin(), here.watch.end(), [&](const Watch& each) { return each.name == watch.name; });
    if (same != here.watch.end() && uses.in(watch.when))
      return Because{quoted(there.name) + " uses it in watch " + quoted(watch.name) + "; that watch here", same->where};
  }
  for (const Step& step : there.steps) {
    const auto same = here.step_named(step.name);
    if (!same || !uses.in(step)) continue;
    const Step& mine = here[*same];
    const bool waits = step.wait && uses.in(*step.wait) && mine.wait;
    return Because{quoted(there.name) + " uses it in step " + quoted(step.name) + "; that step here",
                   waits ? mine.wait->where : mine.where};
  }
  return std::nullopt;
}

}  // namespace

void point_at_lost_uses(const std::vector<const Protocol*>& protocols, std::vector<Finding>& findings) {
  for (Finding& finding : findings) {
    const auto* lost = finding.kind.as<NobodyUses>();
    if (lost == nullptr) continue;
    const auto here = std::find_if(protocols.begin(), protocols.end(),
                                   [&](const Protocol* each) { return each->where.file == finding.where.file; });
    if (here == protocols.end()) continue;
    for (const Protocol* there : protocols) {
      if (there == *here) continue;
      if (auto place = place_in(**here, *there, lost->id)) {
        finding.because = std::move(place);
        break;
      }
    }
  }
}

}  // namespace rushlight
