#pragma once

#include "episode/telling.hpp"

// Private to engine/episode: the night as it is believed after its corrections.

namespace rushlight {

/// The history as it is to be told again, corrections carried back to the answers they correct; deeds stay as they are.
/// Up to the first thing that goes another way than it was walked, every event has its own time. From there on time
/// stands still: nobody was shown what would have been due, so a call or a wait that is there only because of the
/// correction begins at its moment. Where insulin, or glucagon in an emergency, went in on an answer that was wrong, the
/// night stays as it was walked, and what is right is told now.
std::vector<Telling> as_believed(const Protocol& protocol, const Child& child, Moment began,
                                 const std::vector<Event>& history);

}  // namespace rushlight
