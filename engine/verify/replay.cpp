#include "verify/replay.hpp"

#include <algorithm>

#include "episode/fold.hpp"
#include "episode/settle.hpp"

namespace rushlight {

namespace {

using namespace std::chrono_literals;

constexpr Day kDay{std::chrono::year{2026}, std::chrono::March, std::chrono::day{2}};
constexpr int kUsualStart = 130;  // minutes after midnight

class Replaying {
 public:
  Replaying(const Protocol& protocol, const std::vector<NightStep>& night, Promptness answers, GlucoseUnit unit)
      : protocol_(protocol), night_(night), answers_(answers), unit_(unit) {
    read_child();
    Moment began{std::chrono::sys_days{kDay} + std::chrono::minutes{start_of_clock()}, 0min};
    episode_ = begun(protocol_, child_, began);
    began_ = now_ = began.utc;
    answer_opening();
  }

  Replay run() {
    for (std::size_t i = 0; i + 1 < night_.size(); ++i) {
      // Steps that lead on at once by what is known are behind already.
      if (episode_.step == night_[i].step) take(night_[i]);
    }
    return Replay{!night_.empty() && episode_.step == night_.back().step, episode_.step, episode_.entered - began_};
  }

 private:
  std::optional<std::int64_t> first(ChildFact fact) const {
    if (night_.empty()) return std::nullopt;
    for (const NightStep::Answer& answer : night_.front().answers) {
      if (answer.subject == Subject{Subject::Kind::fact, fact_id(fact).index} && !answer.stretch.unknown)
        return answer.stretch.value;
    }
    return std::nullopt;
  }

  void read_child() {
    child_.name = "Child";
    child_.unit = unit_;
    const auto months = first(ChildFact::age).value_or(72);
    const std::chrono::year_month month =
        std::chrono::year_month{kDay.year(), kDay.month()} - std::chrono::months{months};
    child_.birth = month / std::chrono::day{1};
    if (const auto weight = first(ChildFact::weight))
      child_.weight = BodyWeight{Decimal::of_micros(*weight), kKilogram};
    if (child_.weight) child_.weighed = kDay;
    if (const auto dose = first(ChildFact::total_daily_dose)) {
      child_.total_daily_dose = InsulinDose{Decimal::of_micros(*dose), kInsulinUnit};
      child_.daily_dose_on = kDay;
    }
    child_.delivery = static_cast<Delivery>(first(ChildFact::delivery).value_or(0));
    child_.strips = static_cast<Strips>(first(ChildFact::strips).value_or(0));
    const bool mini_dose = first(ChildFact::mini_dose_kit).value_or(1) == 0;
    if (first(ChildFact::correction_known).value_or(1) == 0)
      child_.correction_factor = CorrectionFactor{Decimal::whole(1), unit_};
    add_rescue(static_cast<std::uint16_t>(first(ChildFact::rescue).value_or(mini_dose ? 1 : 4)), mini_dose);
  }

  // The kit that a mini-dose is drawn from is a rescue medicine too; the one named first is what would be used.
  void add_rescue(std::uint16_t option, bool mini_dose) {
    const std::optional<Quantity> strength = Quantity{Decimal::whole(1), Unit::mg_per_ml};
    if (option <= 2) child_.rescue.push_back({static_cast<RescueKind>(option), std::nullopt, "", std::nullopt});
    if (option == 3) child_.rescue.push_back({RescueKind::injection, kDay - std::chrono::months{1}, "", std::nullopt});
    if (mini_dose) child_.rescue.push_back({RescueKind::injection, std::nullopt, "", strength});
  }

  std::int64_t start_of_clock() const {
    std::int64_t minutes = 0;
    for (const NightStep& stage : night_) {
      for (const NightStep::Answer& answer : stage.answers) {
        if (answer.subject.kind == Subject::Kind::clock)
          return answer.stretch.value - std::chrono::duration_cast<std::chrono::minutes>(stage.at).count();
      }
      minutes = kUsualStart;
    }
    return minutes;
  }

  const NightStep::Answer* told_in(const NightStep& stage, FactId fact) const {
    for (const NightStep::Answer& answer : stage.answers) {
      if (answer.subject == Subject{Subject::Kind::fact, fact.index}) return &answer;
    }
    return nullptr;
  }

  bool is_danger(FactId fact, const Value& value) const {
    const auto* chosen = std::get_if<Chosen>(&value);
    return std::any_of(protocol_.watch.begin(), protocol_.watch.end(), [&](const Watch& watch) {
      return std::any_of(watch.when.begin(), watch.when.end(), [&](const Condition& condition) {
        const auto* is = std::get_if<Is>(&condition.test);
        return is != nullptr && is->fact == fact && (chosen == nullptr || (is->options >> chosen->option & 1U) != 0);
      });
    });
  }

  // The questions before the first step: as the night says, or what is no danger. News there leads on before they are answered.
  void answer_opening() {
    Answers answers;
    const bool news_first = !night_.empty() && night_.front().by == Leading::By::watch;
    for (const FactId fact : episode_.opening) {
      const NightStep::Answer* told = night_.empty() ? nullptr : told_in(night_.front(), fact);
      if (told == nullptr && news_first) continue;
      std::optional<Value> value;
      if (told != nullptr) value = value_from(protocol_[fact], told->stretch, unit_);
      for (std::uint16_t option = 0; !value && option < protocol_[fact].options.size(); ++option) {
        if (!is_danger(fact, Chosen{option})) value = Chosen{option};
      }
      answers.push_back({fact, value.value_or(CantTell{})});
    }
    if (!answers.empty()) tell(Answered{std::move(answers)});
  }

  template <class What>
  void tell(What what) {
    episode_ = folded(protocol_, child_, std::move(episode_), Event{Moment{now_, 0min}, std::move(what)});
  }

  void wait_until(Instant instant) {
    now_ = std::max(now_, instant);
    episode_ = settled_at(protocol_, child_, std::move(episode_), Moment{now_, 0min});
  }

  Duration time_in(ThresholdId id) const {
    const Scene here = scene_at(protocol_, child_, episode_, now_);
    const auto* time = std::get_if<Duration>(&value_in(protocol_[id], here.context));
    return time != nullptr ? *time : Duration{0};
  }

  // The last second before the step would be left because nobody answered; now where it has no wait.
  void let_time_pass(const NightStep& stage, bool whole_wait) {
    const Step& step = protocol_[episode_.step];
    if (!step.wait) return;
    if (answers_ == Promptness::at_once) {
      if (whole_wait) tell(AllDone{});
    } else if (!episode_.wait_ends && step.wait->start_within) {
      wait_until(episode_.entered + time_in(*step.wait->start_within));
    }
    if (!episode_.wait_ends) return;
    if (answers_ == Promptness::late) {
      const Duration before = stage.by == Leading::By::overdue ? 0s : 1s;
      wait_until(*episode_.wait_ends + time_in(step.wait->overdue) - before);
    } else if (stage.by == Leading::By::rule) {
      wait_until(*episode_.wait_ends);
    } else if (whole_wait) {
      wait_until(*episode_.wait_ends - 1s);
    }
  }

  Answers open_answers(const NightStep& stage) const {
    Answers answers;
    for (const FactId fact : open_questions(protocol_, child_, episode_, now_)) {
      const NightStep::Answer* told = told_in(stage, fact);
      std::optional<Value> value;
      if (told != nullptr) value = value_from(protocol_[fact], told->stretch, unit_);
      answers.push_back({fact, value.value_or(CantTell{})});
    }
    return answers;
  }

  Answers answers_to(const Conditions& conditions, const NightStep& stage) const {
    Answers answers;
    for (const Condition& condition : conditions) {
      const Subject subject = subject_of(condition);
      if (subject.kind != Subject::Kind::fact || protocol_.facts[subject.index].from_child) continue;
      const FactId fact{subject.index};
      const NightStep::Answer* told = told_in(stage, fact);
      if (told == nullptr) continue;
      if (const auto value = value_from(protocol_[fact], told->stretch, unit_)) answers.push_back({fact, *value});
    }
    return answers;
  }

  void take(const NightStep& stage) {
    switch (stage.by) {
      case Leading::By::rule:
        let_time_pass(stage, true);
        if (!protocol_[stage.step].wait) tell(AllDone{});
        for (int rounds = 0; rounds < 3 && episode_.step == stage.step; ++rounds) {
          Answers answers = open_answers(stage);
          if (answers.empty()) return;
          tell(Answered{std::move(answers)});
        }
        return;
      case Leading::By::early:
        let_time_pass(stage, true);
        return tell(Answered{answers_to(protocol_[stage.step].rules[stage.index].when, stage)});
      case Leading::By::outcome:
        let_time_pass(stage, false);
        return take_outcome(protocol_.actions[stage.index], ActionId{stage.index}, stage.outcome);
      case Leading::By::overdue:
        return let_time_pass(stage, true);
      case Leading::By::watch:
        let_time_pass(stage, true);
        return tell(GotWorse{answers_to(protocol_.watch[stage.index].when, stage)});
      case Leading::By::back:
        return;
    }
  }

  void take_outcome(const Action& action, ActionId id, Outcome outcome) {
    if (outcome == Outcome::reached || outcome == Outcome::no_answer || outcome == Outcome::told) {
      if (action.call) tell(Called{action.call->contact, outcome, ""});
      return;
    }
    tell(Done{{Deed{id, outcome, std::nullopt, std::nullopt}}});
  }

  const Protocol& protocol_;
  const std::vector<NightStep>& night_;
  Promptness answers_;
  GlucoseUnit unit_;
  Child child_{};
  Episode episode_{};
  Instant began_{}, now_{};
};

}  // namespace

std::optional<Value> value_from(const Fact& fact, const Stretch& stretch, GlucoseUnit unit) {
  if (stretch.unknown) return CantTell{};
  const Decimal number = Decimal::of_micros(stretch.value);
  switch (fact.kind) {
    case FactKind::choice:
    case FactKind::ordered_choice:
      return Chosen{static_cast<std::uint16_t>(stretch.value)};
    case FactKind::count:
      return Count{static_cast<int>(stretch.value)};
    case FactKind::glucose:
      if (stretch.value == kMeterLo) return Glucose::lo(unit);
      if (stretch.value == kMeterHi || number > meter_range(unit).most) return Glucose::hi(unit);
      return Glucose::reading(number, unit);
    case FactKind::ketones:
      if (stretch.value == kMeterHi) return KetoneReading::hi();
      return KetoneReading::reading(BloodKetones{number, kMillimolePerLitre});
    case FactKind::time_since:
      return Ago{Duration{stretch.value}};
    case FactKind::age:
    case FactKind::weight:
    case FactKind::insulin:
      break;
  }
  return std::nullopt;
}

Replay replayed(const Protocol& protocol, const std::vector<NightStep>& night, Promptness answers, GlucoseUnit unit) {
  return Replaying(protocol, night, answers, unit).run();
}

}  // namespace rushlight
