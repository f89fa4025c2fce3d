#include <sstream>

#include "generate.hpp"

namespace rushlight::naive {

namespace {

class Describer {
 public:
  explicit Describer(const Protocol& protocol) : p_(protocol) {}

  std::string text() {
    for (const Threshold& threshold : p_.thresholds) describe(threshold);
    out_ << "opening";
    for (const Ask& ask : p_.opening) out_ << " " << p_[ask.fact].name;
    out_ << "\n";
    for (const Watch& watch : p_.watch)
      out_ << watch.name << (watch.told ? " told:" : ":") << words(watch.when) << " -> " << p_[watch.go].name << "\n";
    for (const Step& step : p_.steps) describe(step);
    return out_.str();
  }

 private:
  void describe(const Threshold& threshold) {
    out_ << threshold.name << " =";
    for (const Band& band : threshold.bands) {
      out_ << " " << text_from_limit(band.value, GlucoseUnit::mg_per_dl);
      if (std::holds_alternative<GlucoseLimit>(band.value))
        out_ << "/" << text_from_limit(band.value, GlucoseUnit::mmol_per_l);
      if (band.age_from) out_ << " age>=" << band.age_from->months() << "mo";
      if (band.age_up_to) out_ << " age<" << band.age_up_to->months() << "mo";
      if (band.weight_from) out_ << " weight>=" << text_from_quantity(band.weight_from->quantity());
      if (band.weight_up_to) out_ << " weight<" << text_from_quantity(band.weight_up_to->quantity());
      if (band.clock_from) out_ << " from " << text_from_clock_time(*band.clock_from);
      if (band.clock_up_to) out_ << " up to " << text_from_clock_time(*band.clock_up_to);
      out_ << ";";
    }
    out_ << "\n";
  }

  std::string words(const Conditions& conditions) const {
    std::string all;
    for (const Condition& condition : conditions) all += " [" + words(condition) + "]";
    return all.empty() ? " [always]" : all;
  }

  std::string words(const Condition& condition) const {
    constexpr const char* kSigns[] = {" < ", " >= ", " > ", " <= "};
    if (const auto* compares = std::get_if<Compares>(&condition.test)) {
      return p_[compares->fact].name + kSigns[static_cast<int>(compares->comparison)] + p_[compares->limit].name;
    }
    if (const auto* is = std::get_if<Is>(&condition.test)) {
      std::string text = p_[is->fact].name + " is";
      for (std::size_t i = 0; i < p_[is->fact].options.size(); ++i) {
        if ((is->options >> i) & 1) text += " " + p_[is->fact].options[i].name;
      }
      return is->options & kUnknownBit ? text + " unknown" : text;
    }
    if (const auto* counts = std::get_if<CountedAtLeast>(&condition.test)) {
      return p_[counts->counter].name + " >= " + p_[counts->limit].name;
    }
    if (const auto* given = std::get_if<WasGiven>(&condition.test)) return "done " + p_[given->action].name;
    const auto& clock = std::get<WithinClock>(condition.test);
    return "clock " + p_[clock.from].name + " to " + p_[clock.up_to].name;
  }

  void describe(ActionId id) {
    const Action& action = p_[id];
    out_ << "    do " << action.name << " " << name_of(action.kind);
    if (!action.when.empty()) out_ << words(action.when);
    if (action.counts) out_ << " counts " << p_[*action.counts].name;
    if (action.records) out_ << " records " << p_[action.records->fact].name << "=" << action.records->option;
    if (action.starts)
      out_ << " starts " << p_[action.starts->timer].name << " lasts " << p_[action.starts->lasts].name;
    if (action.stops) out_ << " stops " << p_[*action.stops].name;
    if (action.call)
      out_ << " call " << name_of(action.call->contact) << " within " << p_[action.call->answer_within].name;
    for (int i = 0; i < kOutcomes; ++i) {
      const auto& on = action.on[static_cast<std::size_t>(i)];
      if (on) out_ << ", " << name_of(static_cast<Outcome>(i)) << (on->go ? " -> " + p_[*on->go].name : " as given");
    }
    out_ << "\n";
  }

  void describe(const Step& step) {
    out_ << step.name << " (" << name_of(step.urgency) << ")";
    if (step.ends) out_ << " ends";
    if (step.counts) out_ << " counts " << p_[*step.counts].name;
    for (const WatchId watch : step.handles) out_ << " handles " << p_[watch].name;
    out_ << "\n";
    for (const ActionId action : step.actions) describe(action);
    if (const auto& wait = step.wait) {
      out_ << "    wait " << p_[wait->lasts].name;
      if (wait->after) out_ << " after " << p_[*wait->after].name;
      if (wait->start_within) out_ << " start-within " << p_[*wait->start_within].name;
      out_ << " overdue " << p_[wait->overdue].name << " -> " << p_[wait->go].name << "\n";
    }
    for (const Ask& ask : step.asks) {
      out_ << "    ask " << p_[ask.fact].name << (ask.fresh ? " fresh " + p_[*ask.fresh].name : "") << "\n";
    }
    for (const Rule& rule : step.rules) {
      out_ << "    rule" << (rule.early ? " early" : "") << (rule.otherwise ? " otherwise" : words(rule.when)) << " -> " << p_[rule.go].name;
      for (const CounterId counter : rule.resets) out_ << " resets " << p_[counter].name;
      out_ << "\n";
    }
  }

  const Protocol& p_;
  std::ostringstream out_;
};

}  // namespace

std::string described(const Protocol& protocol) { return Describer(protocol).text(); }

}  // namespace rushlight::naive
