#pragma once

#include <string>

#include "dice.hpp"
#include "protocol/protocol.hpp"

namespace rushlight::tests {

/// One edit as a clinic might make it, sound or not: a number moved, a comparison turned, rules in another order, a
/// rule or an action gone, another aim, another urgency, a danger handled or not. Says what it was; empty when there
/// was nothing of the kind to edit.
std::string edited(Protocol& protocol, Dice& dice);

}  // namespace rushlight::tests
