#include "tests/spin/flow_writer.hpp"

#include <algorithm>

namespace rushlight::tests {

FlowWriter::FlowWriter(const Flow& flow, std::size_t number, std::size_t first_event)
    : flow_(flow),
      protocol_(flow.protocol),
      number_(std::to_string(number)),
      first_event_(first_event),
      values_(flow.protocol, flow.scenario.stays, flow.unit, flow.loose) {
  for (std::size_t s = 0; s < protocol_.steps.size(); ++s) {
    const Step& step = protocol_.steps[s];
    for (const Ask& ask : step.asks) {
      if (ask.fresh && !protocol_[ask.fact].from_child) taken_back_.insert({Subject::Kind::fact, ask.fact.index});
    }
    for (std::size_t r = 0; r < step.rules.size(); ++r) {
      const Rule& rule = step.rules[r];
      if (rule.enters && rule.hands_over_to.empty())
        visits_.push_back({StepId{static_cast<std::uint16_t>(s)}, static_cast<std::uint16_t>(r), rule.go});
    }
  }
  find_what_may_be_known();
  find_what_is_read();
}

const Ask* FlowWriter::question(const Step& step, std::uint16_t fact) {
  for (const Ask& ask : step.asks) {
    if (ask.fact.index == fact) return &ask;
  }
  return nullptr;
}

bool FlowWriter::handles(const Step& step, std::size_t watch) {
  return std::any_of(step.handles.begin(), step.handles.end(), [&](WatchId each) { return each.index == watch; });
}

std::string FlowWriter::text() {
  write_picks();
  out_ << "proctype flow" << number_ << "() {\n  byte visit, from;\n";
  for (const auto& [subject, values] : values_.all()) out_ << "  byte " << promela_name(subject) << ";\n";
  out_ << "  int t;\n";
  begin();
  std::ostringstream first = std::move(out_);
  out_ = std::ostringstream();
  for (std::uint16_t s = 0; s < protocol_.steps.size(); ++s) {
    if (is_followed(StepId{s})) write_step(StepId{s});
  }
  std::ostringstream steps = std::move(out_);
  out_ = std::move(first);
  for (std::uint16_t s = 0; s < protocol_.steps.size(); ++s) {
    if (is_followed(StepId{s})) write_entry(StepId{s});
  }
  write_all_watches();
  out_ << "    goto over\n  }\n" << steps.str();
  out_ << "over: skip\n}\n";
  return picks_.str() + out_.str();
}

// What is told is told for the step or until a wait; who the child is and what was counted stays.
bool FlowWriter::stays(const Subject& subject) const {
  if (subject.kind == Subject::Kind::counter) return !is_loose(subject);
  if (subject.kind == Subject::Kind::done) return true;
  if (subject.kind != Subject::Kind::fact || !protocol_.facts[subject.index].from_child) return false;
  return std::none_of(std::begin(kPastFacts), std::end(kPastFacts),
                      [&](ChildFact past) { return fact_id(past).index == subject.index; });
}

bool FlowWriter::is_picked(const Subject& subject) const {
  return !stays(subject) || subject.kind == Subject::Kind::fact;
}

bool FlowWriter::is_loose(const Subject& subject) const {
  return subject.kind == Subject::Kind::counter &&
         std::any_of(flow_.loose.begin(), flow_.loose.end(), [&](CounterId id) { return id.index == subject.index; });
}

bool FlowWriter::is_told_to_stay(const Subject& subject) const {
  return std::any_of(flow_.scenario.stays.begin(), flow_.scenario.stays.end(),
                     [&](const Condition& condition) { return subject_of(condition) == subject; });
}

// Whether an answer that is known in a step, or given there, is still known behind the way.
bool FlowWriter::is_kept(StepId id, By by, const Subject& subject) const {
  const Step& step = protocol_[id];
  const Ask* here = question(step, subject.index);
  const bool at_once = by == By::rule || by == By::back || (by == By::outcome && !step.wait);
  if (!at_once) return false;
  if (step.wait && (here == nullptr || here->fresh)) return false;
  return std::none_of(step.actions.begin(), step.actions.end(), [&](ActionId id_of_action) {
    const Action& action = protocol_[id_of_action];
    const bool times =
        action.kind == ActionKind::insulin && protocol_.facts[subject.index].kind == FactKind::time_since;
    return times || (action.records && action.records->fact.index == subject.index);
  });
}

// A byte that is surely 0 need not be set to 0: that is all this is for.
void FlowWriter::find_what_may_be_known() {
  known_.resize(protocol_.steps.size());
  brought_.resize(protocol_.steps.size());
  for (bool more = true; more;) {
    more = false;
    for (std::uint16_t s = 0; s < protocol_.steps.size(); ++s) {
      const StepId id{s};
      const Step& step = protocol_[id];
      const auto leads = [&](By by, StepId to) {
        for (const Subject& subject : taken_back_) {
          const Ask* there = question(protocol_[to], subject.index);
          if (protocol_[to].wait || (there != nullptr && !there->fresh)) continue;
          const bool here =
              known_[s].count(subject) != 0 || question(step, subject.index) != nullptr || is_told_to_stay(subject);
          if (here && is_kept(id, by, subject)) more = known_[to.index].insert(subject).second || more;
        }
      };
      for (const Rule& rule : step.rules) {
        leads(By::rule, rule.enters.value_or(rule.go));
        if (rule.enters) {
          for (const Visit& visit : visits_) leads(By::rule, visit.back);
        }
      }
      for (const ActionId action : step.actions) {
        for (const auto& outcome : protocol_[action].on) {
          if (outcome && outcome->go) leads(By::outcome, *outcome->go);
        }
      }
      if (step.ends_visit || step.ends) {
        for (const Visit& visit : visits_) leads(By::back, visit.back);
      }
    }
  }
}

// Over every way that keeps what is known; what is not read by then makes no difference to anything.
void FlowWriter::find_what_is_read() {
  read_.resize(protocol_.steps.size());
  for (bool more = true; more;) {
    more = false;
    for (std::size_t s = protocol_.steps.size(); s-- > 0;) {
      const Step& step = protocol_.steps[s];
      for (const Subject& subject : taken_back_) {
        const Ask* asked = question(step, subject.index);
        if (step.wait || (asked != nullptr && !asked->fresh)) continue;
        bool reads = asked != nullptr;
        const auto reads_in = [&](StepId next) { reads = reads || read_[next.index].count(subject) != 0; };
        for (const Rule& rule : step.rules) reads_in(rule.enters.value_or(rule.go));
        for (const ActionId action : step.actions) {
          for (const auto& outcome : protocol_[action].on) {
            if (outcome && outcome->go) reads_in(*outcome->go);
          }
        }
        for (const Visit& visit : visits_) reads_in(visit.back);
        if (reads) more = read_[s].insert(subject).second || more;
      }
    }
  }
}

std::string FlowWriter::pick_name(const Subject& subject) const {
  return "pick" + number_ + "_" + promela_name(subject);
}

void FlowWriter::write_picks() {
  for (const auto& [subject, values] : values_.all()) {
    if (!is_picked(subject)) continue;
    const std::string name = promela_name(subject);
    picks_ << "inline " << pick_name(subject) << "() {\n  if\n  :: " << name << " != 0\n  :: else -> if";
    for (std::size_t i = 0; i < values.count(); ++i) picks_ << " :: " << name << " = " << i + 1;
    picks_ << " fi\n  fi\n}\n";
  }
}

void FlowWriter::pick(const Subject& subject) {
  if (!is_picked(subject) || surely_picked_.count(subject) != 0) return;
  if (!stays(subject)) told_.insert(subject);
  surely_picked_.insert(subject);
  if (!is_told_to_stay(subject)) {
    out_ << "    " << pick_name(subject) << "();\n";
    return;
  }
  for (const Condition& condition : flow_.scenario.stays) {
    if (!(subject_of(condition) == subject)) continue;
    for (const Subject& read : values_.read_by(condition)) {
      if (!(read == subject)) pick(read);
    }
  }
  out_ << "    " << pick_name(subject) << "();\n";
  for (const Condition& condition : flow_.scenario.stays) {
    if (subject_of(condition) == subject) demand(values_.truth_of(condition), "over");
  }
}

void FlowWriter::demand(const std::string& truth, const std::string& otherwise) {
  if (truth == "true" || truth == "((true))") return;
  out_ << "    if :: " << truth << " :: else -> goto " << otherwise << " fi;\n";
}

/// Goes to `otherwise` where one of them does not hold; what was picked up to there is not sure afterwards.
void FlowWriter::demand_all(const Conditions& conditions, const std::string& otherwise) {
  for (const Condition& condition : conditions) {
    for (const Subject& subject : values_.read_by(condition)) pick(subject);
    demand(values_.truth_of(condition), otherwise);
  }
}

void FlowWriter::set_to_none(const Subject& subject) { out_ << "    " << promela_name(subject) << " = 0;\n"; }

void FlowWriter::forget(const Subject& subject) {
  if (told_.erase(subject) != 0) set_to_none(subject);
}

void FlowWriter::forget_everything_told() {
  for (const Subject& subject : Subjects(told_)) forget(subject);
}

std::string FlowWriter::new_label() { return "n" + std::to_string(++labels_); }

void FlowWriter::see(const std::string& event) {
  const auto known = numbers_.emplace(event, events_.size());
  if (known.second) events_.push_back(event);
  out_ << "    c_code { saw(" << first_event_ + known.first->second << "); };\n";
}

}  // namespace rushlight::tests
