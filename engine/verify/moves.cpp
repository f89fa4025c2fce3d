#include "verify/moves.hpp"

#include <algorithm>

#include "verify/answering.hpp"
#include "verify/distances.hpp"

namespace rushlight {
namespace {

constexpr Duration kToAnswer{60};  // one thing a minute: examples read well, and no answer grows old
constexpr int kOnTheWay = 1;       // a deed or a wait, when the same can be had without
constexpr int kUnusual = 3;        // a wait that passes although nobody said what was done

bool asks(const Step& step, FactId fact) {
  return std::any_of(step.asks.begin(), step.asks.end(), [&](const Ask& ask) { return ask.fact == fact; });
}

class Moves {
 public:
  Moves(const Protocol& protocol, const Child& child, const Episode& episode, Moment now)
      : protocol_(protocol), child_(child), episode_(episode), step_(protocol[episode.step]), now_(now) {}

  std::vector<Move> all() {
    if (episode_.ended) return {};
    if (!episode_.opening.empty()) {
      answer_opening();
    } else {
      if (waiting()) {
        tell_early();
        pass_the_wait();
      } else {
        answer();
        if (step_.wait) add_tick(overdue_at(), kStepFurther, step_.wait->go);
      }
      do_all();
      tell_outcomes();
    }
    get_worse();
    return std::move(moves_);
  }

 private:
  bool waiting() const { return step_.wait && !episode_.wait_passed; }
  Instant instant() const { return now_.utc; }  // the clocks of examples are never set back
  Moment soon() const { return Moment{now_.utc + kToAnswer, now_.offset}; }
  Scene scene() const { return scene_at(protocol_, child_, episode_, instant()); }

  Duration time_of(ThresholdId id) const {
    const auto* time = std::get_if<Duration>(&value_in(protocol_[id], scene().context));
    return time != nullptr ? *time : Duration{0};
  }
  Instant overdue_at() const { return *episode_.wait_ends + time_of(step_.wait->overdue); }

  template <class What>
  void add(What what, int cost, std::optional<StepId> heads_for) {
    moves_.push_back(Move{Event{soon(), std::move(what)}, cost, heads_for});
  }
  void add_tick(Instant at, int cost, std::optional<StepId> heads_for) {
    moves_.push_back(Move{Event{Moment{std::max(at, instant()), now_.offset}, Ticked{}}, cost, heads_for});
  }

  /// The watch rules that would come before any rule of the step; of these the first `end`.
  std::vector<const Conditions*> watched(std::size_t end) const {
    std::vector<const Conditions*> lists;
    const Scene here = scene();
    for (std::size_t i = 0; i < end; ++i) {
      const WatchId id{static_cast<std::uint16_t>(i)};
      if (can_fire(id, here)) lists.push_back(&protocol_[id].when);
    }
    return lists;
  }
  bool can_fire(WatchId id, const Scene& here) const {
    return std::find(step_.handles.begin(), step_.handles.end(), id) == step_.handles.end() && is_live(here, id);
  }

  void answer_opening() {
    Episode after = episode_;
    after.opening.clear();
    std::vector<FactId> questions = episode_.opening;
    if (!waiting()) {
      for (const FactId fact : open_questions(protocol_, child_, after, instant())) {
        if (std::find(questions.begin(), questions.end(), fact) == questions.end()) questions.push_back(fact);
      }
    }
    if (!waiting() && !step_.rules.empty()) return answer(std::move(questions));
    Answering answering(protocol_, child_, episode_, instant(), std::move(questions));
    static const Conditions kAnything;
    const Answering::Wanted wanted{&kAnything, false, {}, watched(protocol_.watch.size())};
    if (const auto answers = answering.find(wanted, std::nullopt)) add(Answered{*answers}, kOnTheWay, {});
  }

  void answer() {
    std::vector<FactId> questions = open_questions(protocol_, child_, episode_, instant());
    if (!questions.empty()) answer(std::move(questions));
  }

  void answer(std::vector<FactId> questions) {
    Answering answering(protocol_, child_, episode_, instant(), std::move(questions));
    std::vector<const Conditions*> earlier;
    for (const Rule& rule : step_.rules) {
      const Answering::Wanted wanted{&rule.when, rule.otherwise, earlier, watched(protocol_.watch.size())};
      add_answers(answering, wanted, rule.enters.value_or(rule.go));
      earlier.push_back(&rule.when);
    }
  }

  void add_answers(Answering& answering, const Answering::Wanted& wanted, StepId to) {
    const auto first = answering.find(wanted, std::nullopt);
    if (!first) return;
    add(Answered{*first}, kStepFurther, to);
    for (std::size_t i = 0; i < answering.questions().size(); ++i) {
      const FactId fact = answering.questions()[i];
      if (!is_used_later(fact)) continue;
      for (const Value& value : answering.values_of(i)) {
        if (value == (*first)[i].second) continue;
        if (const auto other = answering.find(wanted, std::pair{fact, value})) add(Answered{*other}, kStepFurther, to);
      }
    }
  }

  /// Whether an answer of today's step may be read again later: as fresh enough, by a mark, or beside a watch.
  bool is_used_later(FactId fact) const {
    for (const Step& step : protocol_.steps) {
      for (const Ask& ask : step.asks) {
        if (ask.fact == fact && ask.fresh) return true;
      }
    }
    return std::any_of(protocol_.marks.begin(), protocol_.marks.end(),
                       [&](const Mark& mark) { return mark.fact == fact; });
  }

  void tell_early() {
    for (const Rule& rule : step_.rules) {
      if (!rule.early) continue;
      std::vector<FactId> facts;
      for (const Condition& condition : rule.when) {
        const auto fact = fact_of(protocol_, condition);
        if (fact && asks(step_, *fact)) facts.push_back(*fact);
      }
      Answering answering(protocol_, child_, episode_, instant(), std::move(facts));
      const Answering::Wanted wanted{&rule.when, false, {}, watched(protocol_.watch.size())};
      if (const auto answers = answering.find(wanted, std::nullopt)) add(Answered{*answers}, kStepFurther, rule.go);
    }
  }

  bool has_outcome(ActionId id) const {
    return std::any_of(episode_.deeds.begin(), episode_.deeds.end(),
                       [&](const Given& deed) { return deed.action == id; });
  }

  std::vector<ActionId> outstanding() const {
    std::vector<ActionId> actions;
    const Scene here = scene();
    for (const ActionId id : step_.actions) {
      if (!has_outcome(id) && applies(here, protocol_[id])) actions.push_back(id);
    }
    return actions;
  }

  void do_all() {
    Done done;
    for (const ActionId id : outstanding()) done.deeds.push_back(Deed{id, Outcome::given, std::nullopt, std::nullopt});
    if (!done.deeds.empty()) add(std::move(done), kOnTheWay, {});
  }

  void pass_the_wait() {
    const int cost = outstanding().empty() ? kOnTheWay : kUnusual;
    if (episode_.wait_ends) return add_tick(*episode_.wait_ends, cost, {});
    if (step_.wait->start_within) add_tick(episode_.entered + time_of(*step_.wait->start_within), cost, {});
  }

  void tell_outcomes() {
    for (const ActionId id : outstanding()) {
      const Action& action = protocol_[id];
      for (int i = 0; i < kOutcomes; ++i) {
        const auto& rule = action.on[static_cast<std::size_t>(i)];
        if (!rule || !rule->go) continue;
        const Outcome outcome = static_cast<Outcome>(i);
        if (action.call && is_call(action.kind)) {
          add(Called{action.call->contact, outcome, ""}, kStepFurther, *rule->go);
        } else {
          add(Done{{Deed{id, outcome, std::nullopt, std::nullopt}}}, kStepFurther, *rule->go);
        }
      }
    }
  }

  void get_worse() {
    const Scene here = scene();
    for (std::size_t i = 0; i < protocol_.watch.size(); ++i) {
      const WatchId id{static_cast<std::uint16_t>(i)};
      if (!can_fire(id, here)) continue;
      std::vector<FactId> facts;
      for (const Condition& condition : protocol_[id].when) {
        const auto fact = fact_of(protocol_, condition);
        if (fact && !protocol_[*fact].from_child) facts.push_back(*fact);
      }
      Answering answering(protocol_, child_, episode_, instant(), std::move(facts));
      const Answering::Wanted wanted{&protocol_[id].when, false, {}, watched(i)};
      if (auto answers = answering.find(wanted, std::nullopt))
        add(GotWorse{std::move(*answers)}, kStepFurther, protocol_[id].go);
    }
  }

  const Protocol& protocol_;
  const Child& child_;
  const Episode& episode_;
  const Step& step_;
  Moment now_;
  std::vector<Move> moves_;
};

}  // namespace

std::vector<Move> moves_from(const Protocol& protocol, const Child& child, const Episode& episode, Moment now) {
  return Moves(protocol, child, episode, now).all();
}

}  // namespace rushlight
