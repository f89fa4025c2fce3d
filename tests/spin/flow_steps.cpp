#include <algorithm>

#include "tests/spin/flow_writer.hpp"

namespace rushlight::tests {

void FlowWriter::begin() {
  out_ << "  atomic {\n";
  demand_all(flow_.scenario.stays, "over");
  forget_everything_told();
  if (flow_.within.empty()) {
    // Ways without a wait are looked at from every step on, whether or not one comes there without a wait.
    out_ << "    if\n    :: waiting ->\n";
    go(protocol_.start);
    out_ << "    :: else\n    fi;\n";
  }
  for (const auto& [subject, values] : values_.all()) {
    if (!is_picked(subject))
      out_ << "    select(" << promela_name(subject) << " : 0 .. " << values.numbers.back() << ");\n";
  }
  out_ << "    if\n";
  for (std::uint16_t s = 0; s < protocol_.steps.size(); ++s) {
    if (is_followed(StepId{s})) out_ << "    :: goto accept" << s << "\n";
  }
  out_ << "    fi;\n";
}

void FlowWriter::write_step(StepId id) {
  const Step& step = protocol_[id];
  out_ << "accept" << id.index << ": (true);\n  atomic {\n";
  see(entering(protocol_, id));
  if (step.ends) {
    if (step.urgency != Urgency::emergency) out_ << "    if :: visit == 0 :: else -> goto b" << id.index << " fi;\n";
    out_ << "    c_code { flow_ended(); };\n    goto over;\n";
  } else {
    write_deeds(id);
    if (step.ends_visit) out_ << "    if :: visit == 0 :: else -> goto b" << id.index << " fi;\n";
    out_ << "    if\n";
    write_rules(id);
    write_outcomes(id);
    if (step.wait) write_overdue(id);
    write_watches(id);
    out_ << "    fi;\n";
  }
  write_ways_back(id);
  out_ << "  }\n";
}

void FlowWriter::write_deeds(StepId id) {
  const Step& step = protocol_[id];
  bool any = false;
  const auto deed = [&](const Action& action, const std::string& more, const std::string& what) {
    if (!any) out_ << "    do\n";
    any = true;
    option(id, more);
    demand_all(action.when, "over");
    out_ << "    " << what << ";\n";
    for (const Subject& subject : Subjects(told_)) {
      if (known_[id.index].count(subject) == 0) forget(subject);
    }
  };
  for (const ActionId action_id : step.actions) {
    const Action& action = protocol_[action_id];
    const Subject counter{Subject::Kind::counter, action.counts ? action.counts->index : std::uint16_t{0}};
    if (action.counts && values_.all().count(counter) != 0 && !is_loose(counter)) {
      const std::string name = promela_name(counter);
      deed(action, name + " < " + std::to_string(values_.of(counter).numbers.back()), name + " = " + name + " + 1");
    }
    const Subject done{Subject::Kind::done, action_id.index};
    if (values_.all().count(done) != 0) deed(action, promela_name(done) + " == 0", promela_name(done) + " = 1");
  }
  if (any) out_ << "    :: break\n    od;\n";
}

// A watch rule comes before what else may happen when everything it reads is certainly known: who the child is, what
// stays true, and what the step has just asked, when one is given.
bool FlowWriter::is_certain(const Watch& watch, const Step* asking) const {
  return std::all_of(watch.when.begin(), watch.when.end(), [&](const Condition& condition) {
    const Subject subject = subject_of(condition);
    return subject.kind != Subject::Kind::fact || protocol_.facts[subject.index].from_child ||
           is_told_to_stay(subject) || (asking != nullptr && question(*asking, subject.index) != nullptr);
  });
}

void FlowWriter::pass_watches(StepId id, bool asked) {
  const Step& step = protocol_[id];
  for (std::size_t w = 0; w < protocol_.watch.size(); ++w) {
    const Watch& watch = protocol_.watch[w];
    if (!is_own(id, w) || watch.told || handles(step, w) || !is_certain(watch, asked ? &step : nullptr)) continue;
    pass_watch(watch, new_label());
  }
}

void FlowWriter::pass_watch(const Watch& watch, const std::string& passed) {
  const Subjects sure = surely_picked_;
  demand_all(watch.when, passed);
  out_ << "    goto over;\n" << passed << ": skip;\n";
  surely_picked_ = sure;
}

bool FlowWriter::is_own(StepId id, std::size_t watch) const {
  const Part* part = protocol_.part_of(id);
  return part == nullptr || (watch >= part->first_watch && watch < std::size_t{part->first_watch} + part->watches);
}

void FlowWriter::write_rules(StepId id) {
  const Step& step = protocol_[id];
  option(id, "true");
  pass_watches(id, true);
  for (std::size_t r = 0; r < step.rules.size(); ++r) {
    const std::string next = new_label();
    const Subjects sure = surely_picked_;
    take_rule(id, By::rule, r, next);
    out_ << next << ": skip;\n";
    surely_picked_ = sure;
  }
  out_ << "    goto over\n";
  for (std::size_t r = 0; r < step.rules.size(); ++r) {
    if (!step.rules[r].early || !step.wait || step.rules[r].when.empty()) continue;
    option(id, "true");
    forget_everything_told();
    pass_watches(id, false);
    take_rule(id, By::early, r, "over");
  }
}

void FlowWriter::take_rule(StepId id, By by, std::size_t place, const std::string& otherwise) {
  const Step& step = protocol_[id];
  const Rule& rule = step.rules[place];
  const bool reads_counter = std::any_of(rule.when.begin(), rule.when.end(), [](const Condition& condition) {
    return std::holds_alternative<CountedAtLeast>(condition.test);
  });
  if (reads_counter)
    out_ << "    if :: without == " << left_out(id, place) << " -> goto " << otherwise << " :: else fi;\n";
  demand_all(rule.when, otherwise);
  for (std::size_t a = 0; a < step.asks.size() && rule.otherwise; ++a) {
    const Subject asked{Subject::Kind::fact, step.asks[a].fact.index};
    if (protocol_[step.asks[a].fact].from_child) continue;
    pick(asked);
    demand(values_.is_known(asked), otherwise);
  }
  const Move move{by, static_cast<std::uint16_t>(place), Outcome::given};
  const bool elsewhere = (!rule.visits.empty() || !rule.hands_over_to.empty()) && !rule.enters;
  if (elsewhere && flow_.comes_back && !rule.visits.empty()) {
    const Subjects told = told_;
    forget_everything_told();
    leave(id, move, rule.go, rule.resets);
    told_ = told;
    return;
  }
  if (!rule.enters) {
    leave(id, move, elsewhere ? std::nullopt : std::optional<StepId>(rule.go), rule.resets);
    return;
  }
  const Subjects told = told_, sure = surely_picked_;
  out_ << "    if\n    :: visit == 0 ->\n";
  for (std::size_t v = 0; v < visits_.size(); ++v) {
    if (visits_[v].step == id && visits_[v].rule == place) out_ << "    visit = " << v + 1 << ";\n";
  }
  leave(id, move, *rule.enters, rule.resets);
  for (std::size_t v = 0; v < visits_.size(); ++v) {
    told_ = told, surely_picked_ = sure;
    out_ << "    :: visit == " << v + 1 << " ->\n    visit = 0;\n";
    leave(id, move, visits_[v].back, rule.resets);
  }
  out_ << "    fi;\n";
  told_ = told;
}

void FlowWriter::write_outcomes(StepId id) {
  for (const ActionId action : protocol_[id].actions) {
    for (int outcome = 0; outcome < kOutcomes; ++outcome) {
      const auto& rule = protocol_[action].on[static_cast<std::size_t>(outcome)];
      if (!rule || !rule->go) continue;
      option(id, "true");
      pass_watches(id, false);
      demand_all(protocol_[action].when, "over");
      leave(id, {By::outcome, action.index, static_cast<Outcome>(outcome)}, *rule->go, {});
    }
  }
}

void FlowWriter::write_overdue(StepId id) {
  option(id, "late");
  forget_everything_told();
  pass_watches(id, false);
  leave(id, {By::overdue, 0, Outcome::given}, protocol_[id].wait->go, {});
}

void FlowWriter::write_watches(StepId id) {
  option(id, "watching");
  forget_everything_told();
  take_time(id, {By::watch, 0, Outcome::given});
  for (const Subject& subject : Subjects(told_)) forget(subject);
  out_ << "    from = " << id.index << ";\n    goto watches\n";
}

void FlowWriter::write_ways_back(StepId id) {
  const Step& step = protocol_[id];
  const bool ends_visit = step.ends_visit || (step.ends && step.urgency != Urgency::emergency);
  if (!ends_visit) return;
  out_ << "b" << id.index << ": skip;\n";
  if (visits_.empty()) {
    out_ << "    goto over\n";
    return;
  }
  out_ << "    if\n";
  for (std::size_t v = 0; v < visits_.size(); ++v) {
    option(id, "visit == " + std::to_string(v + 1));
    out_ << "    visit = 0;\n";
    leave(id, {By::back, visits_[v].rule, Outcome::given}, visits_[v].back, {});
  }
  out_ << "    fi\n";
}

}  // namespace rushlight::tests
