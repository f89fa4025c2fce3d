#include "lockstep.hpp"

#include <algorithm>
#include <functional>
#include <set>

#include "episode/settle.hpp"
#include "finding/quoted.hpp"
#include "measure/decimal.hpp"
#include "verify/in_words.hpp"

namespace rushlight::tests {
namespace {

using Values = std::map<std::string, Value>;  // by the fact's name

constexpr int kTriesOfAnOccasion = 25;

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

/// One version of one night.
struct Version {
  const Protocol& protocol;
  Episode episode;
};

bool acts(const Step& step) { return !step.actions.empty() || step.wait || step.ends || step.ends_visit; }

class Judge {
 public:
  Judge(const Protocol& was, const Protocol& now, const Differences& said, Dice& dice, Judged& judged)
      : was_(was), now_(now), said_(said), dice_(dice), judged_(judged) {
    for (const Protocol* protocol : {&was, &now}) {
      for (const Threshold& threshold : protocol->thresholds) {
        for (const Band& band : threshold.bands) limits_[threshold.kind].push_back(band.value);
      }
    }
  }

  void night() {
    child_ = any_child();
    moment_ = Moment{Instant{std::chrono::sys_days{std::chrono::year{2026} / 3 / 1}} +
                         std::chrono::minutes(static_cast<int>(dice_.below(24 * 60))),
                     std::chrono::minutes{0}};
    Version was{was_, begun(was_, child_, moment_)}, now{now_, begun(now_, child_, moment_)};
    if (!walk("at the start", "", was, now)) return;
    for (int steps = 0; steps < 12 && judged_.complaint.empty(); ++steps) {
      if (!compare_steps(was, now)) return;
      if (was.episode.ended || now.episode.ended) return;
      if (!occasion(was, now)) return;
    }
  }

 private:
  // What to say

  template <class Kind>
  std::vector<Kind> limits(ThresholdKind kind) const {
    std::vector<Kind> found;
    const auto at = limits_.find(kind);
    if (at == limits_.end()) return found;
    for (const Limit& limit : at->second) {
      if (const auto* value = std::get_if<Kind>(&limit)) found.push_back(*value);
    }
    return found;
  }

  Decimal around(Decimal border, Decimal grain) {
    switch (dice_.below(4)) {
      case 0:
        return border;
      case 1:
        return border > grain ? border - grain : border;
      case 2:
        return border + grain;
      default:
        return border + Decimal::of_micros(grain.micros() * static_cast<std::int64_t>(dice_.below(30)));
    }
  }

  Value any_value(const Fact& fact) {
    if (dice_.chance(6)) return CantTell{};
    switch (fact.kind) {
      case FactKind::choice:
      case FactKind::ordered_choice:
        return Chosen{static_cast<std::uint16_t>(dice_.below(fact.options.size()))};
      case FactKind::count: {
        std::vector<int> known = limits<int>(ThresholdKind::count);
        known.push_back(0);
        return Count{std::max(0, dice_.one_of(known) + static_cast<int>(dice_.below(3)) - 1)};
      }
      case FactKind::glucose: {
        if (dice_.chance(4)) return dice_.chance(50) ? Glucose::lo(child_.unit) : Glucose::hi(child_.unit);
        const std::vector<GlucoseLimit> known = limits<GlucoseLimit>(ThresholdKind::glucose);
        const Decimal grain =
            child_.unit == GlucoseUnit::mg_per_dl ? Decimal::whole(1) : Decimal::of_micros(100'000);
        const Decimal number = known.empty() ? Decimal::whole(100) : around(dice_.one_of(known).in(child_.unit), grain);
        const MeterRange range = meter_range(child_.unit);
        return Glucose::reading(std::min(range.most, std::max(range.least, number)), child_.unit);
      }
      case FactKind::ketones: {
        if (dice_.chance(3)) return KetoneReading::hi();
        const std::vector<BloodKetones> known = limits<BloodKetones>(ThresholdKind::ketones);
        const Decimal number = known.empty() ? Decimal::whole(1)
                                             : around(dice_.one_of(known).in(kMillimolePerLitre), Decimal::of_micros(100'000));
        return KetoneReading::reading(BloodKetones{std::min(number, Decimal::whole(8)), kMillimolePerLitre});
      }
      case FactKind::time_since: {
        if (dice_.chance(20)) return NotLately{};
        const std::vector<Duration> known = limits<Duration>(ThresholdKind::time);
        const auto minutes = known.empty() ? 60 : dice_.one_of(known).count() / 60;
        return Ago{Duration{60 * (minutes + static_cast<std::int64_t>(dice_.below(3)))}};
      }
      case FactKind::age:
      case FactKind::weight:
      case FactKind::insulin:
        break;
    }
    return CantTell{};
  }

  // Most children are awake: otherwise every night is over at once.
  Value usual_value(const Fact& fact) {
    if (!fact.options.empty() && dice_.chance(70)) {
      const bool good_is_no = fact.options.front().name == "yes" && fact.options.back().name == "no" &&
                              fact.name != "swallow" && fact.name != "breathing-normally" && fact.options.size() == 2;
      return Chosen{static_cast<std::uint16_t>(good_is_no ? 1 : 0)};
    }
    return any_value(fact);
  }

  Values any_values() {
    Values values;
    for (const Protocol* protocol : {&was_, &now_}) {
      for (const Fact& fact : protocol->facts) {
        if (!fact.from_child) values.emplace(fact.name, usual_value(fact));
      }
    }
    return values;
  }

  Child any_child() {
    Child child{};
    child.name = "Mara";
    child.birth = Day{std::chrono::sys_days{std::chrono::year{2026} / 3 / 1} -
                      std::chrono::days(30 + static_cast<int>(dice_.below(18 * 365)))};
    child.weight = BodyWeight{Decimal::whole(3 + static_cast<int>(dice_.below(70))), kKilogram};
    child.weighed = Day{std::chrono::sys_days{std::chrono::year{2026} / 2 / 20}};
    child.unit = dice_.chance(50) ? GlucoseUnit::mg_per_dl : GlucoseUnit::mmol_per_l;
    child.delivery = static_cast<Delivery>(dice_.below(3));
    child.strips = static_cast<Strips>(dice_.below(3));
    if (dice_.chance(60))
      child.rescue.push_back({static_cast<RescueKind>(dice_.below(3)), std::nullopt, "kitchen", std::nullopt});
    child.language = Language::en;
    return child;
  }

  // What the engine does

  void happens(Version& version, std::variant<Ticked, Answered, GotWorse, Corrected, Done, AllDone, Called,
                                              LanguageChanged, TakenOver, Abandoned, Remembered> what) {
    version.episode = folded(version.protocol, child_, std::move(version.episode), Event{moment_, std::move(what)});
  }

  // Another protocol takes over there: each is compared by itself.
  static bool has_gone_elsewhere(const Version& version) {
    const Cause& cause = version.episode.cause;
    if (cause.kind != Cause::Kind::rule) return false;
    const Rule& rule = version.protocol[cause.from].rules[cause.index];
    return !rule.visits.empty() || !rule.hands_over_to.empty();
  }

  /// Answers what is asked until there is something to do or to wait for. False when it never comes to that.
  bool come_to_rest(Version& version, const Values& values, StepId left, bool leaves) {
    std::set<std::string> told;
    for (int turns = 0; turns < 80; ++turns) {
      const Step& step = version.protocol[version.episode.step];
      if (has_gone_elsewhere(version)) return false;
      const bool has_left = !leaves || !(version.episode.step == left) || version.episode.entered_by > entered_before_;
      const bool asks_again = std::any_of(step.asks.begin(), step.asks.end(), [&](const Ask& ask) {
        return !ask.fresh && told.count(version.protocol[ask.fact].name) > 0;
      });
      if (has_left && version.episode.opening.empty() && (acts(step) || asks_again)) {
        // What was asked on the way here without a stop was known from before.
        if (version.episode.cause.kind == Cause::Kind::rule) {
          const Step& from = version.protocol[version.episode.cause.from];
          for (const Ask& ask : from.asks) {
            if (told.count(version.protocol[ask.fact].name) == 0) all_told_ = false;
          }
        }
        return true;
      }
      const std::vector<FactId> open = open_questions(version.protocol, child_, version.episode, moment_.utc);
      if (open.empty()) return false;
      note_what_was_known(version, step, open, told);
      Answers answers;
      for (const FactId fact : open) {
        const std::string& name = version.protocol[fact].name;
        answers.emplace_back(fact, values.at(name));
        told_.insert(name);
        if (version.episode.opening.empty() || version.episode.step == left) told.insert(name);
      }
      happens(version, Answered{std::move(answers)});
    }
    return false;
  }

  void note_what_was_known(const Version& version, const Step& step, const std::vector<FactId>& open,
                           const std::set<std::string>& told) {
    for (const Ask& ask : step.asks) {
      const bool is_open = std::find(open.begin(), open.end(), ask.fact) != open.end();
      if (!is_open && told.count(version.protocol[ask.fact].name) == 0) all_told_ = false;
    }
  }

  // What compare says

  std::optional<std::int64_t> value_in_night(const RegionLimit& limit, const Version& before, const Values& values,
                                             bool& unknown) {
    const Protocol& both = said_.sides.both;
    const Scene scene = scene_at(before.protocol, child_, before.episode, moment_.utc);
    switch (limit.subject.kind) {
      case Subject::Kind::clock:
        return scene.context.clock.minutes();
      case Subject::Kind::counter: {
        for (std::uint16_t i = 0; i < before.protocol.counters.size(); ++i) {
          if (before.protocol.counters[i].name == both.counters[limit.subject.index].name) return before.episode.counted[i];
        }
        return 0;
      }
      case Subject::Kind::done: {
        const std::string& name = both.actions[limit.subject.index].name;
        const bool given = std::any_of(before.episode.given.begin(), before.episode.given.end(), [&](const Given& each) {
          return before.protocol[each.action].name == name &&
                 (each.outcome == Outcome::given || each.outcome == Outcome::part);
        });
        return given ? 1 : 0;
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
    if (const auto told = values.find(fact.name); told != values.end() && told_.count(fact.name) > 0)
      value = told->second;
    if (!value) {
      if (const auto id = before.protocol.fact_named(fact.name)) value = value_of(scene, *id);
    }
    unknown = !value || std::holds_alternative<CantTell>(*value);
    if (unknown) return std::nullopt;
    return as_number(*value);
  }

  bool holds(const Region& region, const Version& before, const Values& values) {
    return std::all_of(region.limits.begin(), region.limits.end(), [&](const RegionLimit& limit) {
      bool unknown = false;
      const std::optional<std::int64_t> number = value_in_night(limit, before, values, unknown);
      if (unknown || !number) return limit.cant_tell;
      if (!limit.options.empty())
        return std::find(limit.options.begin(), limit.options.end(), static_cast<std::uint16_t>(*number)) !=
               limit.options.end();
      return is_in(limit.intervals, *number);
    });
  }

  bool speaks_of(const Difference& difference, const Version& before, const Values& values) {
    const bool mmol = child_.unit == GlucoseUnit::mmol_per_l && !difference.regions_mmol.empty();
    const std::vector<Region>& regions = mmol ? difference.regions_mmol : difference.regions;
    return difference.too_many ||
           std::any_of(regions.begin(), regions.end(), [&](const Region& each) { return holds(each, before, values); });
  }

  bool is_said(const std::vector<Difference::Kind>& kinds, const std::string& occasion, const std::string& step,
               const Version& before, const Values& values) {
    return std::any_of(said_.changes.begin(), said_.changes.end(), [&](const Difference& each) {
      if (std::find(kinds.begin(), kinds.end(), each.kind) == kinds.end()) return false;
      const auto is_here = [&](const Difference::Place& place) {
        const bool known = occasion == "after" && place.occasion == "with answers known from before, after" && !all_told_;
        return place.step == step && (place.occasion == occasion || known);
      };
      return std::any_of(each.at.begin(), each.at.end(), is_here) && speaks_of(each, before, values);
    });
  }

  /// What is said of this place, and where each region does not hold: for whoever has to find out why.
  std::string everything_said(const std::string& step, const Version& before, const Values& values) {
    std::string text;
    for (const Difference& each : said_.changes) {
      const auto is_here = [&](const Difference::Place& place) { return place.step == step; };
      if (each.kind != Difference::Kind::leads || std::none_of(each.at.begin(), each.at.end(), is_here)) continue;
      const bool mmol = child_.unit == GlucoseUnit::mmol_per_l && !each.regions_mmol.empty();
      for (const Region& region : mmol ? each.regions_mmol : each.regions) {
        std::string words;
        int lacking = 0;
        for (const RegionLimit& limit : region.limits) {
          const bool fits = holds(Region{region.unit, {limit}}, before, values);
          lacking += fits ? 0 : 1;
          words += std::string(fits ? "" : "NOT ") + in_words(said_.sides.both, limit, region.unit) + ", ";
        }
        if (lacking < 1) text += "\n  " + each.was + " -> " + each.now + "\n    " + each.at.front().occasion + ": " + words;
      }
    }
    return text;
  }

  // Whether they agree

  std::string shown(const Version& version) {
    const View view = view_of(version.protocol, child_, version.episode, moment_);
    std::string text = std::string(name_of(version.protocol[version.episode.step].urgency));
    for (const ShownAction& action : view.actions)
      text += " | " + std::string(name_of(action.kind)) + " " + as_written(version.protocol, version.protocol[action.id].text);
    return text;
  }

  void complain(const std::string& text) {
    if (judged_.complaint.empty()) judged_.complaint = text;
  }

  std::string told_in(const Values& values) const {
    std::string text = child_.unit == GlucoseUnit::mg_per_dl ? "mg/dL" : "mmol/L";
    for (const auto& [name, value] : values) {
      const auto id = was_.fact_named(name);
      if (id && told_.count(name) > 0) text += ", " + in_words(was_, *id, value);
    }
    return text;
  }

  // With answers known from before, a step that has something to do is passed unseen; what differs behind it is said of it.
  bool is_said_of_a_step_passed(const Version& before, const Values& values) {
    all_told_ = false;
    return std::any_of(was_.steps.begin(), was_.steps.end(), [&](const Step& step) {
      return !step.actions.empty() && !step.asks.empty() && !step.wait &&
             is_said({Difference::Kind::leads}, "after", step.name, before, values);
    });
  }

  /// Both come to rest after an occasion; false when the night is not to go on.
  bool walk(const std::string& occasion, const std::string& step, Version& was, Version& now) {
    const Version before = was;
    const Values values = any_values();
    told_.clear();
    all_told_ = true;
    const bool leaves = !step.empty();
    const StepId was_left = was.episode.step, now_left = now.episode.step;
    return landed(occasion, step, before, values, was, now, come_to_rest_both(was, now, values, was_left, now_left, leaves));
  }
  bool come_to_rest_both(Version& was, Version& now, const Values& values, StepId was_left, StepId now_left, bool leaves) {
    entered_before_ = was.episode.entered_by;
    const bool one = come_to_rest(was, values, was_left, leaves);
    entered_before_ = now.episode.entered_by;
    return come_to_rest(now, values, now_left, leaves) && one;
  }

  bool landed(const std::string& occasion, const std::string& step, const Version& before, const Values& values,
              const Version& was, const Version& now, bool at_rest) {
    if (!at_rest) return false;
    ++judged_.cases;
    const std::string& one = was.protocol[was.episode.step].name;
    const std::string& other = now.protocol[now.episode.step].name;
    const bool apart = one != other && shown(was) != shown(now);
    const bool alike = one != other && !apart;
    if (apart) ++judged_.apart;
    bool said = is_said({Difference::Kind::leads}, occasion, step, before, values);
    if (!said && apart && !all_told_) said = is_said_of_a_step_passed(before, values);
    // How long an answer counts is told of the question, not of every way that it may change.
    const bool other_freshness = std::any_of(said_.changes.begin(), said_.changes.end(), [](const Difference& each) {
      return each.kind == Difference::Kind::question;
    });
    if (other_freshness && apart && !said) return false;
    // Of an answer that was known before, `after` may speak as of news.
    if (said && !apart && !all_told_) return one == other;
    if (said != apart && !alike)
      complain(occasion + " `" + step + "`: " + one + " and " + other + (apart ? ", not said" : ", said to differ") +
               "; with " + told_in(values) + "; the clock " +
               text_from_clock_time(scene_at(was.protocol, child_, before.episode, moment_.utc).context.clock) +
               everything_said(step, before, values));
    return one == other;
  }

  /// In one step both show the same, or compare says what differs there for this child.
  bool compare_steps(Version& was, Version& now) {
    const Step &a = was.protocol[was.episode.step], &b = now.protocol[now.episode.step];
    if (a.name != b.name) return false;
    ++judged_.content;
    const Values none;
    told_.clear();
    all_told_ = true;
    const bool differs = shown(was) != shown(now);
    const bool said = is_said({Difference::Kind::urgency, Difference::Kind::action, Difference::Kind::order,
                               Difference::Kind::words, Difference::Kind::dose},
                              "in", a.name, was, none);
    // Texts and amounts name numbers; those are told once, as numbers and doses.
    const bool only_numbers = differs && !said;
    if (differs && only_numbers) {
      const bool number = std::any_of(said_.changes.begin(), said_.changes.end(), [](const Difference& each) {
        return each.kind == Difference::Kind::number;
      });
      if (!number) complain("in `" + a.name + "`: " + shown(was) + " and " + shown(now) + ", not said");
    }
    if (a.wait && b.wait) {
      const Duration one = std::get<Duration>(value_in(was.protocol[a.wait->lasts], context(was)));
      const Duration other = std::get<Duration>(value_in(now.protocol[b.wait->lasts], context(now)));
      const bool wait_said = is_said({Difference::Kind::wait}, "in", a.name, was, none);
      if (one != other && !wait_said) complain("in `" + a.name + "`: another wait, not said");
      if (one != other) return false;
    }
    return a.wait.has_value() == b.wait.has_value();
  }
  Context context(const Version& version) const {
    return scene_at(version.protocol, child_, version.episode, moment_.utc).context;
  }

  void both(Version& was, Version& now, const std::function<void(Version&)>& what) {
    what(was);
    what(now);
  }

  bool occasion(Version& was, Version& now) {
    const std::string step = was.protocol[was.episode.step].name;
    if (dice_.chance(12)) return worse(was, now, step);
    if (dice_.chance(12)) return outcome(was, now, step);
    if (was.protocol[was.episode.step].wait && dice_.chance(8)) return nobody(was, now, step);
    return answers(was, now, step);
  }

  bool answers(Version& was, Version& now, const std::string& step) {
    const Step& here = was.protocol[was.episode.step];
    if (here.asks.empty() && !here.wait) return after_deeds(was, now, step);
    if (!here.actions.empty()) both(was, now, [&](Version& version) { happens(version, AllDone{}); });
    if (was.protocol[was.episode.step].name != step || now.protocol[now.episode.step].name != step) return false;
    if (here.wait) {
      if (!was.episode.wait_ends || !now.episode.wait_ends || *was.episode.wait_ends != *now.episode.wait_ends) return false;
      moment_.utc = std::max(moment_.utc, *was.episode.wait_ends);
      both(was, now, [&](Version& version) { happens(version, Ticked{}); });
      if (was.protocol[was.episode.step].name != step || now.protocol[now.episode.step].name != step) return false;
    }
    // Many answers to the same questions; the last goes on.
    Version last_was = was, last_now = now;
    bool goes_on = false;
    for (int i = 0; i < kTriesOfAnOccasion && judged_.complaint.empty(); ++i) {
      last_was.episode = was.episode;
      last_now.episode = now.episode;
      goes_on = walk("after", step, last_was, last_now);
    }
    was.episode = std::move(last_was.episode);
    now.episode = std::move(last_now.episode);
    return goes_on;
  }

  bool after_deeds(Version& was, Version& now, const std::string& step) {
    const Version before = was;
    const Values values = any_values();
    told_.clear();
    all_told_ = true;
    const StepId was_left = was.episode.step, now_left = now.episode.step;
    const int was_entered = was.episode.entered_by, now_entered = now.episode.entered_by;
    both(was, now, [&](Version& version) { happens(version, AllDone{}); });
    entered_before_ = was_entered;
    const bool one = come_to_rest(was, values, was_left, true);
    entered_before_ = now_entered;
    const bool other = come_to_rest(now, values, now_left, true);
    return landed("after", step, before, values, was, now, one && other);
  }

  bool outcome(Version& was, Version& now, const std::string& step) {
    std::vector<ActionId> actions = was.protocol[was.episode.step].actions;
    if (actions.empty()) return false;
    const Action& action = was.protocol[dice_.one_of(actions)];
    const auto other = now.protocol.action_named(action.name);
    const auto kind = static_cast<Outcome>(dice_.below(6));
    if (!other || now.protocol[*other].step.index != now.episode.step.index ||
        !action.on[static_cast<std::size_t>(kind)])
      return false;
    const auto own = was.protocol.action_named(action.name);
    const Scene one = scene_at(was.protocol, child_, was.episode, moment_.utc);
    const Scene two = scene_at(now.protocol, child_, now.episode, moment_.utc);
    if (!applies(one, action) || !applies(two, now.protocol[*other])) return false;
    const bool leads = action.on[static_cast<std::size_t>(kind)]->go.has_value();
    const bool leads_now = now.protocol[*other].on[static_cast<std::size_t>(kind)] &&
                           now.protocol[*other].on[static_cast<std::size_t>(kind)]->go.has_value();
    if (!leads || !leads_now) return false;  // "as given" may finish the step: `answers` looks at that
    const Version before = was;
    const Values values = any_values();
    told_.clear();
    all_told_ = true;
    const int was_entered = was.episode.entered_by, now_entered = now.episode.entered_by;
    const StepId was_left = was.episode.step, now_left = now.episode.step;
    happens(was, Done{{Deed{*own, kind, std::nullopt, std::nullopt}}});
    happens(now, Done{{Deed{*other, kind, std::nullopt, std::nullopt}}});
    entered_before_ = was_entered;
    const bool a = come_to_rest(was, values, was_left, true);
    entered_before_ = now_entered;
    const bool b = come_to_rest(now, values, now_left, true);
    return landed(quoted(action.name) + " " + std::string(name_of(kind)) + " in", step, before, values, was, now, a && b);
  }

  bool nobody(Version& was, Version& now, const std::string& step) {
    const Step& here = was.protocol[was.episode.step];
    if (!was.episode.wait_ends && !here.actions.empty()) both(was, now, [&](Version& version) { happens(version, AllDone{}); });
    if (was.protocol[was.episode.step].name != step || now.protocol[now.episode.step].name != step) return false;
    if (!was.episode.wait_ends || !now.episode.wait_ends || *was.episode.wait_ends != *now.episode.wait_ends) return false;
    if (open_after_wait(was).empty() || open_after_wait(now).empty()) return false;
    const Duration one = std::get<Duration>(value_in(was.protocol[here.wait->overdue], context(was)));
    const Duration other = std::get<Duration>(
        value_in(now.protocol[now.protocol[now.episode.step].wait->overdue], context(now)));
    if (one != other) return false;
    const Version before = was;
    const Values values = any_values();
    told_.clear();
    all_told_ = true;
    const StepId was_left = was.episode.step, now_left = now.episode.step;
    const int was_entered = was.episode.entered_by, now_entered = now.episode.entered_by;
    moment_.utc = *was.episode.wait_ends + one;
    both(was, now, [&](Version& version) { happens(version, Ticked{}); });
    if (was.episode.cause.kind != Cause::Kind::overdue || now.episode.cause.kind != Cause::Kind::overdue) return false;
    entered_before_ = was_entered;
    const bool a = come_to_rest(was, values, was_left, true);
    entered_before_ = now_entered;
    const bool b = come_to_rest(now, values, now_left, true);
    return landed("nobody answers in", step, before, values, was, now, a && b);
  }
  std::vector<Ask> open_after_wait(const Version& version) const { return version.protocol[version.episode.step].asks; }

  bool worse(Version& was, Version& now, const std::string& step) {
    if (was_.watch.empty()) return false;
    const Step& here = was.protocol[was.episode.step];
    if (!here.wait || was.episode.wait_passed) return false;  // told while it waits: nothing else reads it
    const Watch& watch = was_.watch[dice_.below(was_.watch.size())];
    Answers one, other;
    Values values = any_values();
    told_.clear();
    all_told_ = true;
    for (const Condition& condition : watch.when) {
      const auto fact = question_in(was_, condition);
      if (!fact) continue;
      const auto id = now_.fact_named(was_[*fact].name);
      values[was_[*fact].name] = any_value(was_[*fact]);
      const bool asked = std::any_of(here.asks.begin(), here.asks.end(), [&](const Ask& ask) { return ask.fact == *fact; });
      if (!id || asked) return false;
      told_.insert(was_[*fact].name);
      one.emplace_back(*fact, values[was_[*fact].name]);
      other.emplace_back(*id, values[was_[*fact].name]);
    }
    if (one.empty()) return false;
    const Version before = was;
    const StepId was_left = was.episode.step, now_left = now.episode.step;
    const int was_entered = was.episode.entered_by, now_entered = now.episode.entered_by;
    happens(was, GotWorse{one});
    happens(now, GotWorse{other});
    const bool was_moved = was.episode.entered_by != was_entered, now_moved = now.episode.entered_by != now_entered;
    entered_before_ = was_entered;
    const bool a = !was_moved || come_to_rest(was, values, was_left, true);
    entered_before_ = now_entered;
    const bool b = !now_moved || come_to_rest(now, values, now_left, true);
    if (a && b) {
      ++judged_.cases;
      const std::string& x = was.protocol[was.episode.step].name;
      const std::string& y = now.protocol[now.episode.step].name;
      const bool apart = was_moved != now_moved || (x != y && shown(was) != shown(now));
      const bool said = is_said({Difference::Kind::leads}, "told at any time in", step, before, values);
      if (apart) ++judged_.apart;
      if (apart != said && x != y)
        complain("told in `" + step + "`: " + x + " and " + y + (apart ? ", not said" : ", said to differ") + "; " +
                 in_words(was_, Event{moment_, GotWorse{one}}));
    }
    return false;
  }

  const Protocol &was_, &now_;
  const Differences& said_;
  Dice& dice_;
  Judged& judged_;
  std::map<ThresholdKind, std::vector<Limit>> limits_;
  Child child_{};
  Moment moment_{};
  int entered_before_ = 0;
  bool all_told_ = true;        // nothing was known from before
  std::set<std::string> told_;  // on this occasion, to either
};

}  // namespace

void judge(const Protocol& was, const Protocol& now, const Differences& said, Dice& dice, long cases, Judged& judged) {
  const long end = judged.cases + cases;
  for (int nights = 0; judged.cases < end && judged.complaint.empty() && nights < cases; ++nights)
    Judge(was, now, said, dice, judged).night();
}

}  // namespace rushlight::tests
