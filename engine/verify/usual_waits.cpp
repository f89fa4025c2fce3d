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
constexpr UsualWait kUsualWaits[] = {
    {ActionKind::by_mouth, minutes{10}, minutes{20}},
    {ActionKind::glucagon, minutes{5}, minutes{30}},
};
// Nobody waits longer beside a child in an emergency, or for one who does not answer the phone: common practice, no
// source.
constexpr Duration kMostInEmergency = minutes{20};
constexpr Duration kMostForAnAnswer = minutes{60};

class WaitsLookedAt {
 public:
  explicit WaitsLookedAt(Checking& checking) : checking_(checking), protocol_(checking.protocol) {}

  void look_at(const Step& step) {
    if (step.wait && !step.ends) look_at_wait(step);
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
      const auto time = time_outside(protocol_, step.wait->lasts, usual->least, usual->most);
      if (time) return tell(step, step.wait->where, "after `" + action.name + "`", *time, usual->least, usual->most);
    }
    if (step.urgency != Urgency::emergency) return;
    if (const auto time = time_outside(protocol_, step.wait->lasts, std::nullopt, kMostInEmergency))
      tell(step, step.wait->where, "in an emergency", *time, minutes{1}, kMostInEmergency);
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
