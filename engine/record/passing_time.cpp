#include "record/passing_time.hpp"

namespace rushlight {

std::optional<Moment> next_change(const Scene& scene, Moment until) {
  const Episode& episode = scene.episode;
  if (episode.ended) return std::nullopt;
  std::optional<Moment> next;
  const auto consider = [&](Instant when) {
    const Moment at = wall(episode.clock, when);
    if (at.utc > episode.clock.last_wall && at.utc <= until.utc && (!next || at.utc < next->utc)) next = at;
  };
  const auto time_in = [&](ThresholdId id) {
    const auto* time = std::get_if<Duration>(&value_in(scene.protocol[id], scene.context));
    return time != nullptr ? *time : Duration{0};
  };
  if (const std::optional<Wait>& wait = scene.protocol[episode.step].wait) {
    if (!episode.wait_ends && wait->start_within) consider(episode.entered + time_in(*wait->start_within));
    if (episode.wait_ends) {
      consider(*episode.wait_ends);
      consider(*episode.wait_ends + time_in(wait->overdue));
    }
  }
  for (const OpenCall& call : episode.calls) {
    if (call.answer_within > Duration{0}) consider(call.answer_by());
  }
  return next;
}

}  // namespace rushlight
