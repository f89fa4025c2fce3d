#include <algorithm>

#include "verify/properties.hpp"
#include "verify/step_parts.hpp"

namespace rushlight {

namespace {

using std::chrono::minutes;

/// How soon and how late what was given is looked at again.
struct UsualWait {
  ActionKind kind;
  Duration least, most;
};

// Sugar: 10 to 15 min (ISPAD 2022, hypoglycemia; NHS leaflets of Oxford and Leicestershire), 15 min with room of
// another five. Glucagon: 10 to 15 min (ISPAD 2022; US labels of 2021), a mini-dose 30 min (Haymond and Schreiner
// 2001).
// Insulin: given again after 3 to 4 h at the earliest (ICMR 2022, Table I), looked at again by then; it does not show
// within half an hour.
constexpr UsualWait kUsualWaits[] = {
    {ActionKind::by_mouth, minutes{10}, minutes{20}},
    {ActionKind::glucagon, minutes{5}, minutes{30}},
    {ActionKind::insulin, minutes{30}, minutes{240}},
};
// Nobody waits longer beside a child in an emergency, or for one who does not answer the phone: common practice, no
// source.
constexpr Duration kMostInEmergency = minutes{20};
constexpr Duration kMostForAnAnswer = minutes{60};
// Nobody takes longer to say that something was done, or is asked in vain for longer, before somebody calls: common
// practice, no source.
constexpr Duration kMostLate = minutes{60};

class WaitsLookedAt {
 public:
  explicit WaitsLookedAt(Checking& checking) : checking_(checking), protocol_(checking.protocol) {}

  void look_at(const Step& step) {
    if (step.wait && !step.ends) {
      look_at_wait(step);
      look_at_lateness(step);
    }
    for (const ActionId id : step.actions) {
      const Action& action = protocol_[id];
      // In the morning: the day number of the clinic is closed for hours.
      if (!is_call(action.kind) || !action.call || action.call->contact == Contact::clinic) continue;
      const Duration most = action.kind == ActionKind::call_emergency ? kMostInEmergency : kMostForAnAnswer;
      if (const auto time = time_outside(protocol_, action.call->answer_within, std::nullopt, most))
        tell(step, action.where, "for an answer to `" + action.name + "`", *time, minutes{1}, most);
    }
  }

 private:
  void look_at_wait(const Step& step) {
    for (const ActionId id : step.actions) {
      const Action& action = protocol_[id];
      const auto usual = std::find_if(std::begin(kUsualWaits), std::end(kUsualWaits),
                                      [&](const UsualWait& each) { return each.kind == action.kind; });
      if (usual == std::end(kUsualWaits)) continue;
      if (action.kind == ActionKind::insulin && step.urgency == Urgency::emergency) continue;  // help is on the way
      const auto time = time_outside(protocol_, step.wait->lasts, usual->least, usual->most);
      if (time) return tell(step, step.wait->where, "after `" + action.name + "`", *time, usual->least, usual->most);
    }
    if (step.urgency != Urgency::emergency) return;
    if (const auto time = time_outside(protocol_, step.wait->lasts, std::nullopt, kMostInEmergency))
      tell(step, step.wait->where, "in an emergency", *time, minutes{1}, kMostInEmergency);
  }

  void look_at_lateness(const Step& step) {
    const Duration most = step.urgency == Urgency::emergency ? kMostInEmergency : kMostLate;
    if (const auto time = time_outside(protocol_, step.wait->overdue, std::nullopt, most))
      return tell(step, step.wait->where, "for an answer that does not come (`overdue`)", *time, minutes{1}, most);
    if (!step.wait->start_within) return;
    if (const auto time = time_outside(protocol_, *step.wait->start_within, std::nullopt, most))
      tell(step, step.wait->where, "for somebody to say that it was done (`start-within`)", *time, minutes{1}, most);
  }

  void tell(const Step& step, const Where& where, std::string what, Duration time, Duration least, Duration most) {
    checking_.warning(where, WaitUnusual{step.name, std::move(what), text_from_duration(time),
                                         text_from_duration(least), text_from_duration(most)});
  }

  Checking& checking_;
  const Protocol& protocol_;
};

}  // namespace

void every_wait_is_a_usual_one(Checking& checking) {
  WaitsLookedAt waits(checking);
  for (const Step& step : checking.protocol.steps) waits.look_at(step);
}

}  // namespace rushlight
