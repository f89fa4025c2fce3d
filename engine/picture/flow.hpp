#pragma once

#include <optional>

#include "picture/picture.hpp"
#include "protocol/protocol.hpp"

namespace rushlight {

/// All steps of a protocol on one page: a box for each, grouped by urgency, with what it waits for, what bounds its
/// loops and where each answer leads, by number; the danger signs and the limits beside them. An arrow shows how a step
/// is come to first, where it lies near. On A4 when letters of six points are enough for it, otherwise on A3 or A2; empty
/// when that is not enough either.
std::optional<Picture> flow_picture(const Protocol& protocol);

}  // namespace rushlight
