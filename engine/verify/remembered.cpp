#include <algorithm>

#include "verify/program.hpp"
#include "verify/step_parts.hpp"

// What a program remembers of what was told, and what it forgets.

namespace rushlight {

bool Program::is_told(std::size_t place) const {
  if (place >= space_.variables().size()) return false;
  const Subject& subject = space_.variables()[place].subject;
  if (subject.kind == Subject::Kind::done) return false;
  if (subject.kind == Subject::Kind::counter) return !follows(CounterId{subject.index});
  return !stays_through_the_night(protocol_, subject);
}

bool Program::follows(CounterId counter) const {
  const auto& some = assumed_.counters;
  return !some || std::find(some->begin(), some->end(), counter) != some->end();
}

// Backwards from where an answer that is still fresh is taken, over rules that lead on in no time, up to where the fact
// is asked anew. A wait makes every answer older than it was: what is asked after it may be asked again.
void Program::find_what_is_remembered() {
  const std::size_t variables = space_.variables().size();
  remembered_.assign(protocol_.steps.size(), Facts(variables + 1, false));
  for (bool more = true; more;) {
    more = false;
    for (std::size_t s = protocol_.steps.size(); s-- > 0;) {
      const Step& step = protocol_.steps[s];
      if (step.wait) continue;
      for (std::size_t v = 0; v < variables; ++v) {
        const Subject& subject = space_.variables()[v].subject;
        if (remembered_[s][v] || subject.kind != Subject::Kind::fact || !told_[v]) continue;
        const FactId fact{subject.index};
        if (protocol_[fact].from_child) continue;
        const Ask* ask = ask_for(step, fact);
        bool read = ask != nullptr && ask->fresh;
        const auto read_in = [&](StepId next) { read = read || remembered_[next.index][v]; };
        if (ask == nullptr) {
          for (const Rule& rule : step.rules) {
            if (!takes_over_elsewhere(rule)) read_in(enters(rule));
          }
          for (const ActionId action : step.actions) {
            for (const auto& outcome : protocol_[action].on) {
              if (outcome && outcome->go) read_in(*outcome->go);
            }
          }
          if (ends_a_visit(step)) {
            for (const Space::VisitRule& visit : space_.visits()) read_in(protocol_[visit.step].rules[visit.rule].go);
          }
        }
        if (!read) continue;
        remembered_[s][v] = more = true;
      }
    }
  }
}

// What stays known from before the move to after it.
Program::Facts Program::kept_over(StepId id, const Leading& move) const {
  const Step& step = protocol_[id];
  Facts kept(space_.variables().size() + 1, false);
  const bool at_once = move.by == Leading::By::back || (move.by == Leading::By::outcome && !step.wait);
  if (!move.to || (move.by != Leading::By::rule && !at_once)) return kept;
  for (std::size_t v = 0; v < space_.variables().size(); ++v) {
    if (!told_[v] || !remembered_[move.to->index][v]) continue;
    const FactId fact{space_.variables()[v].subject.index};
    const Ask* ask = ask_for(step, fact);
    kept[v] = !step.wait || (ask != nullptr && !ask->fresh);
    for (const ActionId action : step.actions) {
      const bool records = protocol_[action].records && protocol_[action].records->fact == fact;
      const bool times = protocol_[action].kind == ActionKind::insulin && protocol_[fact].kind == FactKind::time_since;
      if (records || times) kept[v] = false;
    }
  }
  return kept;
}

}  // namespace rushlight
