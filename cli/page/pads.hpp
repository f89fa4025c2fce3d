#pragma once

#include "cli/dialog.hpp"
#include "wire/json_writer.hpp"

namespace rushlight {

/// The number pads of a screen: what the number is of, in which unit, whether it has a decimal mark, what stands beside
/// the digits (LO, HI), and what is typed behind the number. One that is `open` is the question of the screen; the
/// others open by a button of their own.
void write_pads(JsonWriter& json, const Situation& situation, const Dialog& dialog);

}  // namespace rushlight
