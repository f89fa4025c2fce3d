#include "said.hpp"

#include <algorithm>

#include "episode/view.hpp"
#include "verify/in_words.hpp"

namespace rushlight::tests {
namespace {

std::int64_t as_number(const Value& value) {
  struct Number {
    std::int64_t operator()(CantTell) const { return 0; }
    std::int64_t operator()(Chosen chosen) const { return chosen.option; }
    std::int64_t operator()(Count count) const { return count.number; }
    std::int64_t operator()(const Glucose& glucose) const {
      if (glucose.mark()) return *glucose.mark() == MeterMark::lo ? -1 : std::int64_t{1} << 59;
      return glucose.number()->micros();
    }
    std::int64_t operator()(const KetoneReading& ketones) const {
      return ketones.number() ? ketones.number()->in(kMillimolePerLitre).micros() : std::int64_t{1} << 59;
    }
    std::int64_t operator()(Ago ago) const { return ago.time.count(); }
    std::int64_t operator()(NotLately) const { return std::int64_t{1} << 59; }
    std::int64_t operator()(Age age) const { return age.months(); }
    std::int64_t operator()(BodyWeight weight) const { return weight.in(kKilogram).micros(); }
    std::int64_t operator()(InsulinDose dose) const { return dose.in(kInsulinUnit).micros(); }
  };
  return std::visit(Number{}, value);
}

bool is_in(const std::vector<Interval>& intervals, std::int64_t number) {
  return std::any_of(intervals.begin(), intervals.end(), [&](const Interval& each) {
    if (each.from && (each.with_from ? number < *each.from : number <= *each.from)) return false;
    return !each.up_to || (each.with_up_to ? number <= *each.up_to : number < *each.up_to);
  });
}

}  // namespace

std::string shown(const Version& version, const Child& child, Moment moment) {
  const View view = view_of(version.protocol, child, version.episode, moment);
  std::string text = std::string(name_of(version.protocol[version.episode.step].urgency));
  for (const ShownAction& action : view.actions)
    text += " | " + std::string(name_of(action.kind)) + " " +
            as_written(version.protocol, version.protocol[action.id].text);
  return text;
}

std::optional<std::int64_t> Said::value(const CaseLimit& limit, const Occasion& here, bool& unknown) const {
  const Protocol& both = said_.sides.both;
  const Version& before = here.before;
  const Scene scene = scene_at(before.protocol, here.child, before.episode, here.moment.utc);
  switch (limit.subject.kind) {
    case Subject::Kind::clock:
      return scene.context.clock.minutes();
    case Subject::Kind::counter: {
      for (std::uint16_t i = 0; i < before.protocol.counters.size(); ++i) {
        if (before.protocol.counters[i].name == both.counters[limit.subject.index].name)
          return before.episode.counted[i];
      }
      return 0;
    }
    case Subject::Kind::done: {
      const std::string& name = both.actions[limit.subject.index].name;
      const auto is_given = [&](const Given& each) {
        return before.protocol[each.action].name == name &&
               (each.outcome == Outcome::given || each.outcome == Outcome::part);
      };
      return std::any_of(before.episode.given.begin(), before.episode.given.end(), is_given) ? 1 : 0;
    }
    case Subject::Kind::change: {
      for (std::uint16_t i = 0; i < before.protocol.marks.size(); ++i) {
        if (before.protocol.marks[i].name == both.marks[limit.subject.index].name)
          return static_cast<std::int64_t>(change_since(scene, MarkId{i}));
      }
      return 3;
    }
    case Subject::Kind::fact:
      break;
  }
  const Fact& fact = both.facts[limit.subject.index];
  std::optional<Value> value;
  // What nobody asked now may still be known from before.
  if (const auto told = here.values.find(fact.name); told != here.values.end() && here.told.count(fact.name) > 0)
    value = told->second;
  if (!value && !(here.told_alone && !fact.from_child)) {
    if (const auto id = before.protocol.fact_named(fact.name)) value = value_of(scene, *id);
  }
  unknown = !value || std::holds_alternative<CantTell>(*value);
  if (unknown) return std::nullopt;
  return as_number(*value);
}

bool Said::holds(const Cases& cases, const Occasion& here) const {
  return std::all_of(cases.limits.begin(), cases.limits.end(), [&](const CaseLimit& limit) {
    bool unknown = false;
    const std::optional<std::int64_t> number = value(limit, here, unknown);
    if (unknown || !number) return limit.cant_tell;
    if (!limit.options.empty())
      return std::find(limit.options.begin(), limit.options.end(), static_cast<std::uint16_t>(*number)) !=
             limit.options.end();
    return is_in(limit.intervals, *number);
  });
}

const std::vector<Cases>& Said::cases_for(const Difference& difference, const Child& child) const {
  const bool mmol = child.unit == GlucoseUnit::mmol_per_l && !difference.regions_mmol.empty();
  return mmol ? difference.regions_mmol : difference.regions;
}

bool Said::is_said(const std::vector<Difference::Kind>& kinds, const std::string& occasion, const std::string& step,
                   const Occasion& here) const {
  return std::any_of(said_.changes.begin(), said_.changes.end(), [&](const Difference& each) {
    if (std::find(kinds.begin(), kinds.end(), each.kind) == kinds.end()) return false;
    const auto is_here = [&](const Difference::Place& place) {
      const bool known = occasion == "after" && place.occasion == "with answers known from before, after";
      return place.step == step && (place.occasion == occasion || (known && !here.all_told));
    };
    const std::vector<Cases>& cases = cases_for(each, here.child);
    return std::any_of(each.at.begin(), each.at.end(), is_here) &&
           (each.too_many ||
            std::any_of(cases.begin(), cases.end(), [&](const Cases& one) { return holds(one, here); }));
  });
}

bool Said::has(Difference::Kind kind) const {
  return std::any_of(said_.changes.begin(), said_.changes.end(),
                     [&](const Difference& each) { return each.kind == kind; });
}

std::string Said::everything(const std::string& step, const Occasion& here) const {
  std::string text;
  for (const Difference& each : said_.changes) {
    const auto is_here = [&](const Difference::Place& place) { return place.step == step; };
    if (each.kind != Difference::Kind::leads || std::none_of(each.at.begin(), each.at.end(), is_here)) continue;
    for (const Cases& cases : cases_for(each, here.child)) {
      if (!holds(cases, here)) continue;
      text += "\n  " + each.at.front().occasion + ": " + each.was + " -> " + each.now + ", for ";
      for (const CaseLimit& limit : cases.limits) text += in_words(said_.sides.both, limit, cases.unit) + ", ";
    }
  }
  return text;
}

}  // namespace rushlight::tests
