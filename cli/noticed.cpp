#include "cli/noticed.hpp"

#include <algorithm>

namespace rushlight {

Noticed noticed_in(const View& view, Instant now) {
  Noticed noticed{view.step, view.waiting, view.open_calls.size(), 0, std::nullopt, std::nullopt};
  if (view.call) {
    noticed.call = view.call->contact;
    noticed.call_by = view.call->answer_by;
  }
  noticed.due =
      static_cast<std::size_t>(std::count_if(view.timers.begin(), view.timers.end(), [&](const ShownTimer& timer) {
        return !timer.controls && timer.until.utc <= now;
      }));
  return noticed;
}

}  // namespace rushlight
