#include "episode/out_of_place.hpp"

#include "episode/fold.hpp"
#include "episode/scene.hpp"

namespace rushlight {

std::optional<ActionId> deed_out_of_place(const Protocol& protocol, const Child& child, const Episode& episode,
                                          const Event& event) {
  const auto* done = std::get_if<Done>(&event.what);
  if (done == nullptr) return std::nullopt;
  const Episode then = settled_at(protocol, child, episode, event.at);
  const Scene here = scene_at(protocol, child, then, then.clock.last_wall + then.clock.lost);
  for (const Deed& deed : done->deeds) {
    const Action& action = protocol[deed.action];
    if (!deed.when && (action.step != then.step || !applies(here, action))) return deed.action;
  }
  return std::nullopt;
}

}  // namespace rushlight
