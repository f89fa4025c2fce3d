#pragma once

#include "episode/view.hpp"

namespace rushlight {

/// What an alarm is about: when one of these changes without a key, somebody has to look.
struct Noticed {
  std::string step;
  bool waiting;
  std::size_t calls, due;
  std::optional<Contact> call;
  std::optional<Moment> call_by;  // an emergency call that nobody answered is to be made again
  friend bool operator==(const Noticed&, const Noticed&) = default;
};
Noticed noticed_in(const View& view, Instant now);

}  // namespace rushlight
