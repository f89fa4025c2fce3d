#pragma once

#include "episode/event.hpp"
#include "said.hpp"

namespace rushlight::tests {

/// For each danger that stands and that the step of one of them handles, an answer after which no such watch fires. A
/// danger told in an earlier step is as true behind this one: it leads back at once from any step that does not handle
/// it.
Answers dangers_taken_back(const Version& was, const Version& now, const Child& child, Moment moment);

}  // namespace rushlight::tests
