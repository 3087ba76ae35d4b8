// A member that is an arc: how it goes on, how long it is, what it is in the model and in checks.
#pragma once

#include <Eigen/Core>
#include <array>
#include <optional>

#include "cases/frame/frame.h"
#include "solver/model/model.h"

namespace tubewright {

/// One tube that goes on from one member into the other without a cut: next to each other, one of
/// them an arc.
bool bends_on(const Member& a, const Member& b);

/// Length of an arc between two ends of its chord, m.
double arc_length(const MemberArc& arc, double chord);

/// For the model: in the local axes of the chord, with what the walls leave.
Arc arc_of(const MemberArc& arc, const Eigen::Vector3d& from, const Eigen::Vector3d& to,
           double roll, const SectionEntry& section);

/// The centre of the bend lies along the section's z axis rather than its y.
bool centre_along_z(const Arc& arc);

/// The bend's plane is that of two faces of a square or rectangular tube, within 2 degrees; true
/// for round ones.
bool bends_along_faces(const Arc& arc, const SectionEntry& section);

/// Greatest stress along the tube over that of the straight tube, for bending about y and z.
/// Nothing where the walls are not known.
std::optional<std::array<double, 2>> moment_factors(const Arc& arc, const SectionEntry& section);

}  // namespace tubewright
