#pragma once

#include "episode/scene.hpp"

namespace rushlight {

/// The episode as it begins: in the protocol's start step, with the opening questions to ask.
Episode begun(const Protocol& protocol, const Child& child, Moment at);

/// The episode after one more event. Deadlines that passed before the event are applied first, in their order,
/// whether or not a tick came. Total: an event that does not fit (an action of another step, a call nobody opened)
/// is kept as what it says and changes only what it says. After the end no step is entered and no question answered;
/// deeds, calls, readings and the language are still kept, and `worse` opens the episode again.
Episode folded(const Protocol& protocol, const Child& child, Episode episode, const Event& event);

/// The episode as it stands at `now` if nothing more was said: passed deadlines applied, nothing else.
Episode settled_at(const Protocol& protocol, const Child& child, Episode episode, Moment now);

/// The questions to put now, in order: opening questions first; none of the step's own during a wait.
std::vector<FactId> open_questions(const Protocol& protocol, const Child& child, const Episode& episode, Instant now);

/// Whether the child's file and what was given so far make this action part of the step.
bool applies(const Scene& scene, const Action& action);

/// (Law: of several urgencies the worst wins.) The worst of the step's urgency and of every open call's.
Urgency urgency_of(const Protocol& protocol, const Episode& episode);

}  // namespace rushlight
