#include <algorithm>

#include "tests/spin/flow_writer.hpp"

namespace rushlight::tests {

// What watch rules do is the same wherever one comes from, but for who handles them.
void FlowWriter::write_all_watches() {
  out_ << "watches: skip;\n    if\n    :: goto over\n";
  for (std::uint16_t w = 0; w < protocol_.watch.size(); ++w) {
    const auto is_live = [&](StepId id, bool own) { return !handles(protocol_[id], w) && is_own(id, w) == own; };
    write_watch(w, from_where([&](StepId id) { return is_live(id, true); }), false);
    std::string visit;
    for (std::size_t v = 0; v < visits_.size(); ++v) {
      if (is_live(visits_[v].step, true))
        visit += (visit.empty() ? "visit == " : " || visit == ") + std::to_string(v + 1);
    }
    const std::string elsewhere = from_where([&](StepId id) { return is_live(id, false); });
    if (!visit.empty()) write_watch(w, elsewhere + " && (" + visit + ")", true);
  }
  out_ << "    fi;\n";
}

void FlowWriter::write_watch(std::uint16_t w, const std::string& when, bool ends_visit) {
  told_.clear();
  surely_picked_.clear();
  out_ << "    :: " << when << " ->\n";
  for (std::uint16_t before = 0; before < w; ++before) {
    const Watch& watch = protocol_.watch[before];
    if (watch.told || !is_certain(watch, nullptr)) continue;
    const std::string passed = new_label();
    demand(from_where([&](StepId id) { return !handles(protocol_[id], before) && is_own(id, before); }), passed);
    pass_watch(watch, passed);
  }
  demand_all(protocol_.watch[w].when, "over");
  out_ << "    c_code { saw(" << first_event_ + events_.size() << " + Pflow" << number_ << "->from); };\n";
  for (std::uint16_t s = 0; s < protocol_.steps.size(); ++s)
    events_.push_back(moving(protocol_, StepId{s}, By::watch, w, Outcome::given));
  out_ << "    from = 0;\n";
  if (ends_visit) out_ << "    visit = 0;\n";
  forget_everything_told();
  go(protocol_.watch[w].go);
}

void FlowWriter::option(StepId id, const std::string& when) {
  told_ = known_[id.index];
  surely_picked_.clear();
  out_ << "    :: " << when << " ->\n";
}

void FlowWriter::count(const std::optional<CounterId>& counter) {
  if (!counter) return;
  const Subject subject{Subject::Kind::counter, counter->index};
  if (values_.all().count(subject) == 0 || is_loose(subject)) return;
  const std::string name = promela_name(subject);
  out_ << "    if :: " << name << " < " << values_.of(subject).numbers.back() << " -> " << name << " = " << name
       << " + 1 :: else fi;\n";
}

// What is no longer known behind the way; what is asked anew where it leads is forgotten there.
void FlowWriter::forget_on_the_way(StepId id, By by) {
  for (const Subject& subject : Subjects(told_)) {
    if (taken_back_.count(subject) == 0 || !is_kept(id, by, subject)) forget(subject);
  }
}

void FlowWriter::take_time(StepId id, const Move& move) {
  const Step& step = protocol_[id];
  if (!step.wait) return;
  std::vector<ThresholdId> times{step.wait->lasts, step.wait->overdue};
  if (step.wait->after && step.wait->start_within) times.push_back(*step.wait->start_within);
  // The wait began at another hour than the one at which its questions are answered.
  const Subject clock{Subject::Kind::clock, 0};
  for (const Subject& subject : values_.bands_read_by(times)) {
    if (subject == clock) {
      forget(clock);
      surely_picked_.erase(clock);
    }
    pick(subject);
  }
  out_ << "    if\n";
  for (const ToldValues::Times& each : values_.times_of(times)) {
    std::int64_t late = 0;
    for (const std::int64_t seconds : each.seconds) late += seconds;
    const std::int64_t at_once = move.by == By::outcome ? 0 : each.seconds[0];
    out_ << "    :: " << each.truth << " -> t = t + (timed -> (late -> " << late << " : " << at_once << ") : 0)\n";
  }
  out_ << "    fi;\n";
}

bool FlowWriter::passes_a_wait(StepId id, const Move& move) const {
  if (move.by == By::overdue) return true;
  if (move.by != By::rule) return false;
  const Step& step = protocol_[id];
  bool waits = step.wait.has_value();
  if (waits) {
    for (const Band& band : protocol_[step.wait->lasts].bands) {
      const auto* time = std::get_if<Duration>(&band.value);
      waits = waits && time != nullptr && *time > Duration{0};
    }
  }
  for (const Ask& ask : step.asks) waits = waits || !ask.fresh;
  return waits || !step.rules[move.index].visits.empty();
}

void FlowWriter::leave(StepId id, const Move& move, std::optional<StepId> to, const std::vector<CounterId>& resets) {
  if (passes_a_wait(id, move)) out_ << "    if :: waiting :: else -> goto over fi;\n";
  take_time(id, move);
  if (move.by != By::back) see(moving(protocol_, id, move.by, move.index, move.outcome));
  if (!to) {
    out_ << "    c_code { flow_left(); };\n    goto over;\n";
    return;
  }
  for (const CounterId counter : resets) {
    const Subject subject{Subject::Kind::counter, counter.index};
    if (values_.all().count(subject) != 0 && !is_loose(subject)) set_to_none(subject);
  }
  const Subjects told = told_;
  forget_on_the_way(id, move.by);
  go(*to);
  told_ = told;  // who does not go this way still knows it
}

bool FlowWriter::is_followed(StepId id) const {
  return flow_.within.empty() || std::find(flow_.within.begin(), flow_.within.end(), id) != flow_.within.end();
}

void FlowWriter::go(StepId to) {
  if (!is_followed(to)) {
    out_ << "    goto over;\n";
    return;
  }
  brought_[to.index].insert(told_.begin(), told_.end());
  out_ << "    goto to" << to.index << ";\n";
}

// What every way into a step has in common.
void FlowWriter::write_entry(StepId id) {
  const Step& step = protocol_[id];
  out_ << "to" << id.index << ": skip;\n    if :: t > horizon -> c_code { flow_went_on(); }; goto over :: else fi;\n";
  count(step.counts);
  told_ = brought_[id.index];
  for (const Subject& subject : brought_[id.index]) {
    const Ask* asked = question(step, subject.index);
    const bool unread = flow_.forgets_unread && read_[id.index].count(subject) == 0;
    if (step.wait || unread || (asked != nullptr && !asked->fresh)) forget(subject);
  }
  if (step.urgency >= flow_.scenario.call)
    out_ << "    if :: stopping -> c_code { flow_called(Pflow" << number_ << "->t); }; goto over :: else fi;\n";
  out_ << "    goto accept" << id.index << ";\n";
}

}  // namespace rushlight::tests
