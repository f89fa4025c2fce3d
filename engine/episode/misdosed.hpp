#pragma once

#include "episode/scene.hpp"

namespace rushlight {

/// The outcome by which a deed counts. More insulin or glucagon than the step states went wrong, and so did insulin
/// while the last dose is closer than the no-stacking time, whoever says that it was given as told. The rest of a dose
/// that was given in part is no second one. `when` it was done, as it was told. Source: Royal Children's Hospital
/// Melbourne, "Giving the wrong insulin or the wrong dose of insulin".
Outcome counted_outcome(const Scene& before, const Deed& deed, Instant when);

}  // namespace rushlight
