#include "episode/grounds.hpp"

#include "episode/words.hpp"

namespace rushlight {
namespace {

class Grounds {
 public:
  explicit Grounds(const Scene& scene) : scene_(scene), language_(scene.episode.language) {}

  void add(const std::string& rule, const std::vector<ThresholdId>& numbers, SourceId source) {
    if (numbers.empty()) all_.push_back({rule, "", "", "", citation(scene_.protocol[source])});
    for (const ThresholdId id : numbers) {
      const Threshold& threshold = scene_.protocol[id];
      all_.push_back({rule, threshold.name, plain_words(threshold.label, language_),
                      said(value_in(threshold, scene_.context), scene_.child.unit, language_),
                      citation(scene_.protocol[threshold.source])});
    }
  }

  void add_cause() {
    const Cause& cause = scene_.episode.cause;
    const Protocol& protocol = scene_.protocol;
    const Step& from = protocol[cause.from];
    switch (cause.kind) {
      case Cause::Kind::start:
        return add("start", {}, protocol[protocol.start].source);
      case Cause::Kind::rule: {
        const Rule& rule = from.rules[cause.index];
        return add(rule.name, numbers_in(rule.when), rule.source);
      }
      case Cause::Kind::watch: {
        const Watch& watch = protocol.watch[cause.index];
        return add("watch/" + watch.name, numbers_in(watch.when), watch.source);
      }
      case Cause::Kind::outcome: {
        const Action& action = protocol.actions[cause.index];
        return add(from.name + "/" + action.name + "/" + std::string(name_of(cause.outcome)), {}, action.source);
      }
      case Cause::Kind::overdue:
        return add(from.name + "/overdue", {from.wait->overdue}, from.source);
    }
  }

  void add_met(const Step& step) {
    for (const WatchId id : watches_met(scene_, step)) {
      const Watch& watch = scene_.protocol[id];
      if (watch.also) add("watch/" + watch.name, numbers_in(watch.when), watch.source);
    }
  }

  void add_doses(const Step& step) {
    for (const ActionId id : step.actions) {
      const Action& action = scene_.protocol[id];
      if (!action.dose || !applies(scene_, action)) continue;
      const DoseResult dose = dose_for(scene_, *action.dose, language_);
      if (dose.source) add("dose/" + scene_.protocol[*action.dose].name, dose.used, *dose.source);
    }
    if (step.wait) add(step.name + "/wait", {step.wait->lasts}, step.source);
  }

  std::vector<Why> all() { return std::move(all_); }

 private:
  static std::vector<ThresholdId> numbers_in(const Conditions& conditions) {
    std::vector<ThresholdId> numbers;
    for (const Condition& condition : conditions) {
      if (const auto* compared = std::get_if<Compares>(&condition.test)) numbers.push_back(compared->limit);
      if (const auto* counted = std::get_if<CountedAtLeast>(&condition.test)) numbers.push_back(counted->limit);
      if (const auto* clock = std::get_if<WithinClock>(&condition.test)) {
        numbers.push_back(clock->from);
        numbers.push_back(clock->up_to);
      }
    }
    return numbers;
  }

  const Scene& scene_;
  Language language_;
  std::vector<Why> all_;
};

}  // namespace

std::vector<Why> grounds_of(const Scene& scene, const Step& step) {
  Grounds grounds(scene);
  grounds.add_cause();
  grounds.add_met(step);
  grounds.add_doses(step);
  return grounds.all();
}

}  // namespace rushlight
