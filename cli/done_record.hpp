#pragma once

#include "cli/situation.hpp"

namespace rushlight {

/// What "all done" will put on record about the step's actions: every face says it beside the key or the button.
struct DoneRecord {
  enum class Kind : std::uint8_t {
    asks_how_much,    // nothing of that dose yet: it is asked next
    asks_the_clinic,  // whether the clinic gave a dose is asked next
    went_in,          // all of the amount, by mouth
    given,            // all of the amount, through the skin
    only_done,        // no amount
  } kind;
  std::optional<Quantity> amount;  // empty: as it stands there
  std::size_t place = 0;           // of that action
};
DoneRecord done_record(const Situation& situation);

}  // namespace rushlight
