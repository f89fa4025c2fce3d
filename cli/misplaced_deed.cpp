#include "cli/misplaced_deed.hpp"

#include "episode/out_of_place.hpp"
#include "episode/view.hpp"

namespace rushlight {

std::optional<Finding> misplaced_deed(const Protocol& protocol, const Child& child, const Episode& episode,
                                      const Event& event, const Where& where) {
  const auto misplaced = deed_out_of_place(protocol, child, episode, event);
  if (!misplaced) return std::nullopt;
  const View shown = view_of(protocol, child, episode, event.at);
  std::vector<std::string> known;
  for (const ShownAction& action : shown.actions) known.push_back(action.name);
  const UnknownId other{protocol[*misplaced].name, "action of step `" + shown.step + "`", known};
  return Finding{Severity::error, where, other, {}};
}

}  // namespace rushlight
