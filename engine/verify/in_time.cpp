#include "verify/in_time.hpp"

#include <algorithm>

#include "verify/in_words.hpp"
#include "verify/replay.hpp"
#include "verify/worst_time.hpp"

namespace rushlight {

namespace {

using Verdict = WorstTime::Verdict;

std::string quoted_id(const std::string& id) { return "`" + id + "`"; }

/// What led on, where it was not an answer.
std::string led_by(const Protocol& protocol, const NightStep& stage) {
  switch (stage.by) {
    case Leading::By::outcome:
      return " (" + quoted_id(protocol.actions[stage.index].name) + " " + std::string(name_of(stage.outcome)) + ")";
    case Leading::By::overdue:
      return " (nobody answers)";
    case Leading::By::watch:
      return " (" + quoted_id(protocol.watch[stage.index].name) + ")";
    case Leading::By::rule:
    case Leading::By::early:
    case Leading::By::back:
      break;
  }
  return "";
}

/// "0 min: `start`, `treat` (`sugar` refused); 15 min: `still-low`".
std::string in_words(const Protocol& protocol, const std::vector<NightStep>& night) {
  std::string text;
  for (std::size_t i = 0; i < night.size(); ++i) {
    const bool same_time = i > 0 && night[i].at == night[i - 1].at;
    if (i > 0) text += same_time ? ", " : "; ";
    if (!same_time) text += hours_and_minutes(night[i].at) + ": ";
    text += quoted_id(protocol[night[i].step].name);
    if (i + 1 < night.size()) text += led_by(protocol, night[i]);
  }
  return text;
}

class TimeLaws {
 public:
  TimeLaws(const Protocol& alone, const Protocol& whole) : alone_(alone), whole_(whole) {}

  InTime look(const std::vector<WithinLaw>& laws) {
    for (const WithinLaw& law : laws) look_at(law);
    return std::move(found_);
  }

 private:
  struct Worst {
    WorstTime time;
    const Protocol* protocol;
    GlucoseUnit unit;
  };

  // Whether what is found in one unit is found in the other.
  bool units_agree(const WithinLaw& law) const {
    const auto agree = [&](const Protocol& protocol) {
      const Space one(protocol, GlucoseUnit::mg_per_dl, law.stays), other(protocol, GlucoseUnit::mmol_per_l, law.stays);
      return one.is_cut_as(other, law.stays);
    };
    return agree(alone_) && (&whole_ == &alone_ || agree(whole_));
  }

  // The graver verdict, then the longer time, of the units.
  Worst worst_of(const WithinLaw& law, const std::vector<GlucoseUnit>& units, Promptness answers) const {
    std::optional<Worst> worst;
    for (const GlucoseUnit unit : units) {
      const Scenario scenario{law.stays, law.come_to};
      Worst each{worst_time(alone_, scenario, answers, unit), &alone_, unit};
      if (each.time.verdict == Verdict::leaves && &whole_ != &alone_)
        each = Worst{worst_time(whole_, scenario, answers, unit), &whole_, unit};
      const auto rank = [](const Worst& one) { return std::pair{static_cast<int>(one.time.verdict), one.time.most}; };
      if (!worst || rank(*worst) < rank(each)) worst = std::move(each);
    }
    return *worst;
  }

  void look_at(const WithinLaw& law) {
    std::vector<GlucoseUnit> units{GlucoseUnit::mg_per_dl};
    if (!units_agree(law)) units.push_back(GlucoseUnit::mmol_per_l);
    const Worst at_once = worst_of(law, units, Promptness::at_once);
    const Worst late = worst_of(law, units, Promptness::late);
    const bool kept = tell(law, at_once, Promptness::at_once, law.at_once);
    // What can never happen when all is answered at once is told once.
    const bool comes = at_once.time.verdict == Verdict::within;
    const bool kept_late = comes && tell(law, late, Promptness::late, law.late);
    if (kept && kept_late) {
      found_.shown.push_back(ComesInTime{in_words(alone_, law.stays), law.come_to, at_once.time.most, late.time.most});
    }
  }

  /// Whether the engine itself comes to the night's last step, or as late to another that is grave enough.
  static bool is_walked(const WithinLaw& law, const Worst& worst, Promptness answers) {
    const Replay replay = replayed(*worst.protocol, worst.time.night, answers, worst.unit);
    if (replay.came) return true;
    // Each late answer comes a second before it would be too late.
    const Duration slack{static_cast<Duration::rep>(worst.time.night.size())};
    return worst.time.verdict == Verdict::within && (*worst.protocol)[replay.step].urgency >= law.come_to &&
           replay.after + slack >= worst.time.most;
  }

  /// Where most of the time of the night goes.
  static std::optional<Because> longest_wait_of(const Worst& worst) {
    const std::vector<NightStep>& night = worst.time.night;
    const Step* slowest = nullptr;
    Duration longest{0};
    for (std::size_t i = 0; i + 1 < night.size(); ++i) {
      const Duration takes = night[i + 1].at - night[i].at;
      if (takes <= longest) continue;
      longest = takes;
      slowest = &(*worst.protocol)[night[i].step];
    }
    if (slowest == nullptr || !slowest->wait) return std::nullopt;
    return Because{
        "the longest wait of that night, " + hours_and_minutes(longest) + ", is in step " + quoted_id(slowest->name),
        slowest->wait->where};
  }

  /// True when the law is kept.
  bool tell(const WithinLaw& law, const Worst& worst, Promptness answers, Duration limit) {
    if (worst.time.verdict == Verdict::within && worst.time.most <= limit) return true;
    const bool walked = worst.time.verdict != Verdict::too_large && is_walked(law, worst, answers);
    const std::string child = in_words(alone_, law.stays), urgency = std::string(name_of(law.come_to));
    const std::string night = in_words(*worst.protocol, worst.time.night);
    const auto error = [&](Kind kind) {
      found_.findings.push_back(Finding{Severity::error, law.where, std::move(kind), longest_wait_of(worst)});
      return false;
    };
    const std::string step = quoted_id((*worst.protocol)[worst.time.step].name);
    switch (worst.time.verdict) {
      case Verdict::within:
        return error(CallTooLate{law.name, child, urgency, answers == Promptness::late,
                                 hours_and_minutes(worst.time.most), hours_and_minutes(limit), night, walked});
      case Verdict::ends:
        return error(CallNever{law.name, child, urgency, "ends at " + step, night, walked});
      case Verdict::leaves:
        return error(CallNever{law.name, child, urgency, "goes on from " + step + " in a protocol that is not here",
                               night, walked});
      case Verdict::goes_round:
        return error(CallNever{law.name, child, urgency, "goes round for ever by " + step, night, walked});
      case Verdict::too_large:
        break;
    }
    return error(LawNotShown{law.name});
  }

  const Protocol& alone_;
  const Protocol& whole_;
  InTime found_;
};

}  // namespace

InTime calls_in_time(const Protocol& alone, const Protocol& whole, const std::vector<WithinLaw>& laws) {
  return TimeLaws(alone, whole).look(laws);
}

}  // namespace rushlight
