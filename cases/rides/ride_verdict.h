// All rides of a frame as one check: what comes nearest its limit, the verdict, and what a report
// shows of them.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "cases/rides/ride_study.h"
#include "cases/verdict/frame_studies.h"

namespace tubewright {

/// Parts that a list of what is nearest its limit shows.
constexpr size_t items_shown = 12;

/// Members, panels, attachments and gussets that could be checked, nearest their limits first.
std::vector<const RideWorst*> nearest_limits(const RideResult& ride, size_t most = items_shown);

/// The greatest utilisation of each member over the rides, in the order of Frame::members; none: no
/// check could be made.
std::vector<std::optional<double>> worst_of_members(const RideStudy& study);

/// The rides as a check whose load cases are the instants at which nearest_limits() are worst, in
/// the order of the rides and of time; its verdict is on all instants, on the rides themselves and
/// on what they wear. Takes the instants out of the rides; their `instant_times` are then those of
/// the load cases.
FrameStudies take_instants(RideStudy& study);

/// Of such instants the worst of each ride alone, for pictures.
Analysis worst_instants(const Analysis& instants, const RideStudy& study);

}  // namespace tubewright
