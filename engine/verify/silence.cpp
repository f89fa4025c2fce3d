#include "verify/properties.hpp"

namespace rushlight {

namespace {

/// Where a step goes over to as long as nobody answers at all; the step itself when it stays there.
const Step& when_nobody_answers(const Protocol& protocol, const Step& step) {
  return step.wait ? protocol[step.wait->go] : step;
}

// From late check to late check until somebody is called. Going round among calm steps calls nobody either.
bool comes_to_a_call(const Protocol& protocol, const Step& late) {
  const Step* at = &late;
  for (std::size_t steps = 0; steps <= protocol.steps.size(); ++steps) {
    if (at->urgency >= Urgency::clinic_now) return true;
    at = &when_nobody_answers(protocol, *at);
  }
  return false;
}

}  // namespace

void silence_comes_to_a_call(Checking& checking) {
  const Protocol& protocol = checking.protocol;
  for (const Step& step : protocol.steps) {
    if (!step.wait) continue;
    const Step& late = protocol[step.wait->go];
    const bool calmer = late.urgency < step.urgency;
    if (!calmer && comes_to_a_call(protocol, late)) continue;
    checking.error(step.wait->where, LateAndCalm{step.name, late.name, calmer},
                   Because{"step `" + late.name + "` is " + std::string(name_of(late.urgency)), late.where});
  }
}

}  // namespace rushlight
