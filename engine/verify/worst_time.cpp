#include "verify/worst_time.hpp"

#include <algorithm>

namespace rushlight {

namespace {

constexpr std::size_t kMostValues = 4'000;  // of one variable

class Looking {
 public:
  Looking(const Protocol& protocol, const Scenario& scenario, Promptness answers, GlucoseUnit unit, std::size_t most)
      : protocol_(protocol),
        space_(protocol, unit, scenario.stays),
        diagrams_(space_.sizes()),
        program_(space_, diagrams_, {scenario.stays, answers}),
        most_(most) {
    for (const Step& step : protocol.steps) stops_.push_back(step.urgency >= scenario.call);
  }

  WorstTime look() {
    WorstTime found{};
    const std::vector<std::uint16_t> sizes = space_.sizes();
    if (*std::max_element(sizes.begin(), sizes.end()) > kMostValues) return too_large(found);
    found.step = protocol_.start;
    if (stops_[protocol_.start.index]) return found;
    const Nights once(space_, diagrams_, program_, protocol_.start, stops_, false, most_);
    if (once.gave_up()) return too_large(found);
    if (goes_round(once, found) || ends(once, found) || leaves(once, found)) return found;
    const Nights timed(space_, diagrams_, program_, protocol_.start, stops_, true, most_);
    if (timed.gave_up()) return too_large(found);
    longest(timed, found);
    return found;
  }

 private:
  static WorstTime too_large(WorstTime found) {
    found.verdict = WorstTime::Verdict::too_large;
    return found;
  }

  bool goes_round(const Nights& nights, WorstTime& found) {
    const std::vector<Diagrams::Set> rest = nights.going_round();
    for (std::size_t v = 0; v < nights.visits().size(); ++v) {
      const Nights::Visit& visit = nights.visits()[v];
      if (!diagrams_.meets(visit.set, rest[visit.step.index])) continue;
      tell(found, WorstTime::Verdict::goes_round, nights, nights.night_to(v, rest[visit.step.index]));
      follow_round(rest, found);
      return true;
    }
    return false;
  }

  // Once round, as far as the first step that comes again: what a reader sees is where it turns.
  void follow_round(const std::vector<Diagrams::Set>& rest, WorstTime& found) {
    std::vector<bool> seen(protocol_.steps.size(), false);
    StepId at = found.step;
    Duration time = found.night.empty() ? Duration{0} : found.night.back().at;
    Diagrams::Set here = rest[at.index];
    while (!seen[at.index]) {
      seen[at.index] = true;
      const Leading* next = nullptr;
      for (const Leading& move : program_.moves_of(at)) {
        if (!move.to || stops_[move.to->index]) continue;
        const Diagrams::Set leading = program_.before(rest[move.to->index], at, move);
        if (!diagrams_.meets(leading, here)) continue;
        here = diagrams_.both(program_.after(diagrams_.both(here, leading), at, move), rest[move.to->index]);
        next = &move;
        break;
      }
      if (next == nullptr) return;
      NightStep& stage = found.night.back();
      stage.by = next->by, stage.index = next->index, stage.outcome = next->outcome;
      stage.answers = answers_of(next->when);
      at = *next->to;
      time += next->takes;
      found.night.push_back(NightStep{at, time, Leading::By::rule, 0, Outcome::given, {}});
      found.step = at;
    }
  }

  bool ends(const Nights& nights, WorstTime& found) {
    for (std::size_t v = 0; v < nights.visits().size(); ++v) {
      const Nights::Visit& visit = nights.visits()[v];
      const Step& step = protocol_[visit.step];
      if (!step.ends) continue;
      // A visit goes back to where it was called from; only an emergency ends everything.
      const Diagrams::Set at_end = step.urgency == Urgency::emergency ? Diagrams::kAll : space_.visiting(diagrams_, 0);
      if (!diagrams_.meets(visit.set, at_end)) continue;
      tell(found, WorstTime::Verdict::ends, nights, nights.night_to(v, at_end));
      return true;
    }
    return false;
  }

  bool leaves(const Nights& nights, WorstTime& found) {
    for (const Nights::End& end : nights.ends()) {
      if (program_.moves_of(nights.visits()[end.visit].step)[end.move].to) continue;
      tell(found, WorstTime::Verdict::leaves, nights, nights.night_to(end));
      return true;
    }
    return false;
  }

  void longest(const Nights& nights, WorstTime& found) {
    const Nights::End* last = nullptr;
    for (const Nights::End& end : nights.ends()) {
      if (last == nullptr || end.at > last->at) last = &end;
    }
    if (last == nullptr) return;
    tell(found, WorstTime::Verdict::within, nights, nights.night_to(*last));
    found.most = last->at;
    found.step = *program_.moves_of(nights.visits()[last->visit].step)[last->move].to;
    found.night.push_back(NightStep{found.step, last->at, Leading::By::rule, 0, Outcome::given, {}});
  }

  void tell(WorstTime& found, WorstTime::Verdict verdict, const Nights& nights,
            const std::vector<Nights::Stage>& night) {
    found.verdict = verdict;
    Duration at{0};
    for (std::size_t i = 0; i < night.size(); ++i) {
      const Nights::Visit& visit = nights.visits()[night[i].visit];
      found.night.push_back(NightStep{visit.step, at, Leading::By::rule, 0, Outcome::given, {}});
      found.step = visit.step;
      found.most = at;
      if (!night[i].move) continue;
      const Leading& move = program_.moves_of(visit.step)[*night[i].move];
      at += move.takes;
      NightStep& stage = found.night.back();
      stage.by = move.by, stage.index = move.index, stage.outcome = move.outcome;
      Diagrams::Set wanted = Diagrams::kAll;
      if (i + 1 < night.size()) {
        wanted = diagrams_.freed(diagrams_.only(night[i + 1].entered), move.forgotten);
        for (std::size_t c = move.counts.size(); c-- > 0;) wanted = diagrams_.moved_back(wanted, move.counts[c]);
      }
      stage.answers = answers_of(diagrams_.both(diagrams_.both(move.when, wanted), children_of(night[i].entered)));
      if (i == 0) add_child(stage.answers, night[i].entered);
    }
  }

  // The child of a combination, whatever else is so.
  Diagrams::Set children_of(const Diagrams::Values& values) {
    std::vector<bool> others(values.size(), false);
    for (std::size_t v = 0; v < others.size(); ++v)
      others[v] = v >= space_.variables().size() || !stays_through_the_night(protocol_, space_.variables()[v].subject);
    return diagrams_.freed(diagrams_.only(values), diagrams_.group(others));
  }

  void add_child(std::vector<NightStep::Answer>& answers, const Diagrams::Values& values) const {
    for (std::size_t v = 0; v < space_.variables().size(); ++v) {
      const Space::Variable& variable = space_.variables()[v];
      if (stays_through_the_night(protocol_, variable.subject))
        answers.push_back({variable.subject, variable.stretches[values[v]]});
    }
  }

  // What has to be told in the step for this to happen: of each thing that it depends on one value.
  std::vector<NightStep::Answer> answers_of(Diagrams::Set here) {
    const Diagrams::Values values = diagrams_.one_of(here);
    const std::vector<bool> read = diagrams_.read_by(here);
    std::vector<NightStep::Answer> answers;
    for (std::size_t v = 0; v < space_.variables().size(); ++v) {
      const Space::Variable& variable = space_.variables()[v];
      if (variable.subject.kind == Subject::Kind::counter || variable.subject.kind == Subject::Kind::done) continue;
      if (stays_through_the_night(protocol_, variable.subject)) continue;
      if (!read[v]) continue;
      answers.push_back({variable.subject, variable.stretches[values[v]]});
    }
    return answers;
  }

  const Protocol& protocol_;
  Space space_;
  Diagrams diagrams_;
  Program program_;
  std::vector<bool> stops_;
  std::size_t most_;
};

}  // namespace

WorstTime worst_time(const Protocol& protocol, const Scenario& scenario, Promptness answers, GlucoseUnit unit,
                     std::size_t most_visits) {
  return Looking(protocol, scenario, answers, unit, most_visits).look();
}

}  // namespace rushlight
