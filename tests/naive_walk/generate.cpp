#include "generate.hpp"

#include <algorithm>
#include <utility>

#include "parts.hpp"

namespace rushlight::naive {

namespace {

std::uint64_t bit(std::size_t option) { return std::uint64_t{1} << option; }

/// One drawn protocol. A valid one leads forwards, or back to the step itself as often as a counter allows; its last
/// step ends.
class Lot {
 public:
  Lot(Dice& dice, Duration beat, bool wild) : dice_(dice), beat_(beat), wild_(wild) {}

  Protocol drawn() {
    facts();
    for (int i = 0; i < 2; ++i) add_timer(p_);
    const int regular = dice_.between(1, 4);
    for (int i = 0; i < regular; ++i) add_step(p_, "s" + std::to_string(i), any_urgency());
    danger_ = StepId{static_cast<std::uint16_t>(regular)};
    last_ = StepId{static_cast<std::uint16_t>(regular + 1)};
    add_step(p_, "danger", Urgency::emergency);
    add_step(p_, "end", Urgency::home).ends = true;
    if (!wild_) over_ = StepId{static_cast<std::uint16_t>(regular + 2)};
    if (!wild_) add_step(p_, "over", Urgency::emergency).ends = true;
    watches();
    for (std::uint16_t i = 0; i <= danger_.index; ++i) fill(StepId{i});
    if (dice_.chance(40)) call_from(last_);
    if (wild_ && dice_.chance(10)) p_.start = any_step();
    if (!wild_) signs();
    if (!wild_ || dice_.chance(70)) p_.opening.push_back(Ask{awake_, {}, nowhere()});
    if (dice_.chance(50)) p_.opening.push_back(Ask{any_fact(), {}, nowhere()});
    return std::move(p_);
  }

 private:
  Urgency any_urgency() { return static_cast<Urgency>(dice_.between(0, 2)); }
  StepId any_step() { return StepId{static_cast<std::uint16_t>(dice_.below(p_.steps.size()))}; }
  /// Later in the file; a wild one goes anywhere.
  StepId onward(StepId from) {
    if (wild_ && dice_.chance(60)) return any_step();
    if (from == danger_) return over_.value_or(last_);
    const StepId to{static_cast<std::uint16_t>(dice_.between(from.index + 1, last_.index))};
    return to == danger_ && !wild_ ? last_ : to;
  }
  /// In a valid protocol nobody answers for ever without a call, and nothing gets calmer by it.
  StepId when_late(StepId from) {
    const StepId to = onward(from);
    const Urgency urgency = p_[to].urgency;
    return over_ && (urgency < Urgency::clinic_now || urgency < p_[from].urgency) ? *over_ : to;
  }
  FactId any_fact() {
    return FactId{static_cast<std::uint16_t>(dice_.between(kChildFacts, static_cast<int>(p_.facts.size()) - 1))};
  }
  ThresholdId some_time(int least, int most) { return add_time(p_, beat_ * dice_.between(least, most)); }

  void facts() {
    awake_ = add_fact(p_, "awake", FactKind::choice, {"yes", "confused", "no"});
    swallow_ = add_fact(p_, "swallow", FactKind::choice, {"yes", "no"});
    seizure_ = add_fact(p_, "seizure", FactKind::choice, {"yes", "no"});
    add_fact(p_, "meal-soon", FactKind::choice, {"yes", "no"});
    add_fact(p_, "glucose", FactKind::glucose);
    if (dice_.chance(50)) add_fact(p_, "vomits", FactKind::count);
    if (dice_.chance(50)) add_fact(p_, "last-rapid-insulin", FactKind::time_since);
    if (dice_.chance(30)) add_fact(p_, "ketones", FactKind::ketones);
  }

  /// A second band for half of the thresholds of a kind that may change with the child or the hour.
  ThresholdId banded(ThresholdKind kind, Limit value, Limit other) {
    const ThresholdId id = add_threshold(p_, kind, std::move(value));
    std::vector<Band>& bands = p_.thresholds[id.index].bands;
    const int by = dice_.between(0, 5);
    if (by > 2) return id;
    bands.push_back(bands.front());
    bands.back().value = std::move(other);
    if (by == 0) bands[0].age_up_to = bands[1].age_from = Age::of_years(dice_.between(5, 7));
    if (by == 1)
      bands[0].weight_up_to = bands[1].weight_from = BodyWeight{Decimal::whole(dice_.between(20, 23)), kKilogram};
    if (by == 2) {
      bands[0].clock_up_to = bands[1].clock_from =
          ClockTime::of_minutes(dice_.between(20, 23) * 60 + 10 * dice_.between(0, 5));
      bands[0].clock_from = bands[1].clock_up_to = ClockTime::of_minutes(dice_.between(0, 6) * 60);
    }
    return id;
  }

  ThresholdId glucose_limit() {
    const auto limit = [this] {
      const int mg_per_dl = dice_.between(6, 9) * 10;
      return GlucoseLimit{Decimal::whole(mg_per_dl), other_value(Decimal::whole(mg_per_dl), GlucoseUnit::mg_per_dl)};
    };
    return banded(ThresholdKind::glucose, limit(), limit());
  }

  ThresholdId count_limit() { return banded(ThresholdKind::count, dice_.between(1, 3), dice_.between(1, 3)); }

  Comparison any_comparison() { return static_cast<Comparison>(dice_.between(0, 3)); }

  /// Something about a question; what a wild one asks about is not always what the step asks for.
  Condition about(FactId id) {
    switch (p_[id].kind) {
      case FactKind::glucose:
        return when(Compares{id, any_comparison(), glucose_limit()});
      case FactKind::count:
        return when(Compares{id, any_comparison(), count_limit()});
      case FactKind::time_since:
        return when(Compares{id, any_comparison(), some_time(2, 12)});
      case FactKind::ketones: {
        const auto limit = [this] {
          return BloodKetones{Decimal::of_micros(dice_.between(1, 3) * 500'000), kMillimolePerLitre};
        };
        return when(Compares{id, any_comparison(), banded(ThresholdKind::ketones, limit(), limit())});
      }
      default:
        break;
    }
    std::uint64_t options = bit(dice_.below(p_[id].options.size()));
    if (dice_.chance(25)) options |= kUnknownBit;
    return is(id, options);
  }

  Condition from_child_file() {
    switch (dice_.between(0, 3)) {
      case 0:
        return is(fact_id(ChildFact::delivery), bit(dice_.below(3)) | bit(dice_.below(3)));
      case 1:
        return is(fact_id(ChildFact::rescue), bit(dice_.below(5)) | bit(dice_.below(5)));
      case 2:
        return when(Compares{fact_id(ChildFact::age), any_comparison(),
                             add_threshold(p_, ThresholdKind::age, Age::of_years(dice_.between(5, 7)))});
      default:
        return when(Compares{
            fact_id(ChildFact::weight), any_comparison(),
            add_threshold(p_, ThresholdKind::weight, BodyWeight{Decimal::whole(dice_.between(20, 23)), kKilogram})});
    }
  }

  Condition counted() {
    if (p_.counters.empty()) add_counter(p_);
    return when(CountedAtLeast{CounterId{static_cast<std::uint16_t>(dice_.below(p_.counters.size()))}, count_limit()});
  }

  Condition by_the_clock() {
    const auto clock = [this](int least, int most) {
      return add_threshold(p_, ThresholdKind::clock,
                           ClockTime::of_minutes(dice_.between(least, most) % 24 * 60 + 10 * dice_.between(0, 5)));
    };
    const ThresholdId from = clock(20, 24);
    return when(WithinClock{from, clock(23, 31)});
  }

  /// What a rule may read beside the answers.
  Condition beside() {
    const int by = dice_.between(0, 2);
    return by == 0 ? from_child_file() : by == 1 ? counted() : by_the_clock();
  }

  void watches() {
    const auto add = [this](Conditions conditions) {
      p_.watch.push_back(
          Watch{"w" + std::to_string(p_.watch.size()), std::move(conditions), danger_, SourceId{0}, nowhere()});
      const WatchId id{static_cast<std::uint16_t>(p_.watch.size() - 1)};
      if (!wild_ || dice_.chance(80)) p_.steps[danger_.index].handles.push_back(id);
      if (over_) p_.steps[over_->index].handles.push_back(id);
      if (wild_ && dice_.chance(30)) p_.watch.back().go = any_step();
      if (wild_ && dice_.chance(30))
        p_.steps[any_step().index].handles.push_back(WatchId{static_cast<std::uint16_t>(p_.watch.size() - 1)});
    };
    if (!wild_ || dice_.chance(70)) add({is(awake_, bit(2) | kUnknownBit)});
    if (!wild_ || dice_.chance(30)) add({is(swallow_, bit(1) | kUnknownBit)});
    if (!wild_ || dice_.chance(30)) add({is(seizure_, bit(0))});
    if (dice_.chance(40)) {
      Conditions conditions{about(any_fact())};
      if (dice_.chance(50)) conditions.push_back(about(any_fact()));
      if (dice_.chance(30)) conditions.push_back(beside());
      add(std::move(conditions));
      p_.watch.back().told = dice_.chance(40);
    }
    if (dice_.chance(20)) {  // news of a question that the opening asks too
      add({is(awake_, bit(1))});
      p_.watch.back().told = true;
    }
  }

  void signs() {
    for (const auto& [fact, option] : {std::pair{awake_, 2}, std::pair{swallow_, 1}, std::pair{seizure_, 0}})
      p_.worse.push_back(Sign{fact, static_cast<std::uint64_t>(option), {}, nowhere()});
  }

  /// Nobody takes this one away from a valid protocol.
  void call_for_help() {
    const ActionId id = add_action(p_, danger_, ActionKind::call_emergency);
    p_.actions[id.index].call = Action::Call{Contact::emergency, some_time(1, 6)};
  }

  void call_from(StepId step) {
    const auto contact = static_cast<Contact>(dice_.between(0, 2));
    const ActionId id =
        add_action(p_, step, contact == Contact::emergency ? ActionKind::call_emergency : ActionKind::call_clinic);
    p_.actions[id.index].call = Action::Call{contact, some_time(1, 6)};
    for (const Outcome outcome : {Outcome::reached, Outcome::no_answer, Outcome::told}) {
      if (dice_.chance(25) && !(step == last_))
        p_.actions[id.index].on[static_cast<std::size_t>(outcome)] = OutcomeRule{onward(step), nowhere()};
    }
  }

  void action_of(StepId step) {
    if (dice_.chance(25)) return call_from(step);
    auto kind = static_cast<ActionKind>(dice_.between(0, 7));
    if (kind >= ActionKind::call_clinic) kind = ActionKind::note;
    const bool by_mouth_in_danger = (kind == ActionKind::by_mouth || kind == ActionKind::fluid) && step == danger_;
    if (!wild_ && (by_mouth_in_danger || kind == ActionKind::insulin)) kind = ActionKind::note;  // no dose is drawn
    const ActionId id = add_action(p_, step, kind);
    for (const Outcome outcome : outcomes_to_cover(kind)) {
      if (wild_ && dice_.chance(30)) continue;
      OutcomeRule rule{{}, nowhere()};
      if (outcome != Outcome::part && dice_.chance(70)) rule.go = onward(step);
      p_.actions[id.index].on[static_cast<std::size_t>(outcome)] = rule;
    }
    if (wild_ && dice_.chance(10)) p_.actions[id.index].on[0] = OutcomeRule{any_step(), nowhere()};
    Action& action = p_.actions[id.index];
    if (dice_.chance(20)) action.records = Action::Records{*p_.fact_named("meal-soon"), 0};
    if (dice_.chance(20))
      action.starts = Action::Starts{TimerId{static_cast<std::uint16_t>(dice_.below(2))}, some_time(1, 20)};
    if (dice_.chance(15)) action.stops = TimerId{static_cast<std::uint16_t>(dice_.below(2))};
    if (dice_.chance(20)) p_.actions[id.index].counts = add_counter(p_);
    if (dice_.chance(25)) p_.actions[id.index].when.push_back(action_condition(id));
  }

  Condition action_condition(ActionId id) {
    if (id.index > 0 && dice_.chance(40))
      return when(WasGiven{ActionId{static_cast<std::uint16_t>(dice_.below(id.index))}});
    return dice_.chance(50) ? from_child_file() : counted();
  }

  void fill(StepId id) {
    if (id == danger_ && !wild_) call_for_help();
    for (int i = dice_.between(0, 3); i > 0; --i) action_of(id);
    if (dice_.chance(id == danger_ ? 80 : 50)) wait_of(id);
    const int asks = dice_.between(0, 2);
    for (int i = 0; i < asks; ++i) {
      const FactId asked = i == 0 && id == danger_ ? awake_ : any_fact();
      const std::vector<Ask>& already = p_.steps[id.index].asks;
      if (std::any_of(already.begin(), already.end(), [asked](const Ask& ask) { return ask.fact == asked; })) continue;
      std::optional<ThresholdId> fresh;
      if (dice_.chance(30)) fresh = some_time(0, 6);
      p_.steps[id.index].asks.push_back(Ask{asked, fresh, nowhere()});
    }
    rules_of(id);
  }

  void wait_of(StepId id) {
    Wait wait{TimerId{0}, some_time(1, 5), {}, {}, {}, some_time(1, 5), when_late(id), nowhere()};
    const std::vector<ActionId>& actions = p_.steps[id.index].actions;
    if (!actions.empty() && dice_.chance(70)) {
      wait.after = dice_.one_of(actions);
      wait.start_within = some_time(1, 4);
      if (dice_.chance(wild_ ? 15 : 0)) wait.start_within.reset();
    }
    p_.steps[id.index].wait = wait;
  }

  void rules_of(StepId id) {
    std::vector<Rule> rules;
    const std::vector<Ask> asks = p_.steps[id.index].asks;
    if (dice_.chance(35)) {
      const CounterId rounds = add_counter(p_);
      p_.steps[id.index].counts = rounds;
      Conditions again;
      if (!asks.empty()) again.push_back(about(dice_.one_of(asks).fact));
      Conditions enough = again;
      enough.push_back(when(CountedAtLeast{rounds, count_limit()}));
      if (!wild_ || dice_.chance(70)) rules.push_back(rule_to(onward(id), enough));
      rules.push_back(rule_to(id, again));
      if (wild_ && dice_.chance(30)) rules.back().resets.push_back(rounds);
    }
    for (const Ask& ask : asks) {
      if (!wild_ || dice_.chance(80)) rules.push_back(rule_to(onward(id), {is(ask.fact, kUnknownBit)}));
    }
    for (int i = dice_.between(0, 2); i > 0; --i) {
      Conditions conditions;
      if (wild_ && dice_.chance(30)) conditions.push_back(about(any_fact()));
      if (!asks.empty()) conditions.push_back(about(dice_.one_of(asks).fact));
      if (conditions.empty() || dice_.chance(30)) conditions.push_back(beside());
      rules.push_back(rule_to(onward(id), std::move(conditions)));
      if (!p_.counters.empty() && dice_.chance(20))
        rules.back().resets.push_back(CounterId{static_cast<std::uint16_t>(dice_.below(p_.counters.size()))});
    }
    StepId next{static_cast<std::uint16_t>(id.index + 1)};
    if (next == danger_) next = last_;
    if (id == danger_) next = over_.value_or(last_);
    if (!wild_ || dice_.chance(70)) rules.push_back(rule_to(next, {}, !asks.empty()));
    if (p_.steps[id.index].wait) make_some_early(rules, asks);
    p_.steps[id.index].rules = std::move(rules);
  }

  void make_some_early(std::vector<Rule>& rules, const std::vector<Ask>& asks) {
    const auto told = [&](const Condition& condition) {
      const auto* among = std::get_if<Is>(&condition.test);
      if (among == nullptr || (among->options & kUnknownBit) != 0 || p_[among->fact].options.empty()) return false;
      return std::any_of(asks.begin(), asks.end(), [&](const Ask& ask) { return ask.fact == among->fact; });
    };
    for (Rule& rule : rules) {
      const bool can_be = !rule.when.empty() && std::all_of(rule.when.begin(), rule.when.end(), told);
      rule.early = (can_be && dice_.chance(60)) || (wild_ && dice_.chance(20));
    }
  }

  Dice& dice_;
  Duration beat_;
  bool wild_;
  Protocol p_ = bare_protocol();
  FactId awake_{}, swallow_{}, seizure_{};
  StepId danger_{}, last_{};
  std::optional<StepId> over_;  // where a valid protocol's emergency ends
};

}  // namespace

Duration beat_from(Dice& dice) {
  constexpr int kBeats[] = {1, 10, 60, 600};
  return Duration{dice.one_of(kBeats)};
}

Protocol valid_protocol(Dice& dice, Duration beat) { return Lot(dice, beat, false).drawn(); }
Protocol wild_protocol(Dice& dice, Duration beat) { return Lot(dice, beat, true).drawn(); }

}  // namespace rushlight::naive
