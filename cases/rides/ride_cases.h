// Load cases from rides: what the road does at the worst instants, taken at rest.
#pragma once

#include "cases/frame/diagnostic.h"
#include "cases/frame/frame.h"

namespace tubewright {

/// Of its greatest value in the ride that a part has in one of the instants at least, if that is
/// this share at least of the hardest hit part's (judgement: more instants say little more).
constexpr double ridden_share = 0.95;
constexpr double part_that_counts = 0.2;

/// The frame with every case of kind ride replaced by the worst instants of its ride, in order of
/// time, "NAME_1", "NAME_2", ..., of kind vehicle: the forces of the wheels, and as forces on nodes
/// and within tubes those of dampers and what the masses take beyond moving as one, since springs
/// and tubes let them swing. Limits on displacements in such a case go to each of its instants.
/// They stay as they are when sizes are changed afterwards. Requires: the frame is sound.
/// Diagnostics: it cannot be driven, a name is taken.
Result<Frame> with_ride_cases(Frame frame);

}  // namespace tubewright
