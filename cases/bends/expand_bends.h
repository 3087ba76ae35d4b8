// Paths with bends: the corner where two lines would meet becomes an arc that touches both.
//
// R tan(theta/2) before and after the corner the tube leaves its lines; between, R theta long, it
// is parted into an even number of arcs. The node of the corner is moved to the middle of the bend,
// R (1/cos(theta/2) - 1) inside of where the lines meet, so that what is joined or loaded there is
// on the tube. The tube's section keeps its place against each bend: its `roll` holds for the first
// piece, and is carried along.
#pragma once

#include "cases/frame/diagnostic.h"
#include "cases/frame/frame.h"
#include "solver/model/angle.h"

namespace tubewright {

/// A turn by less is no corner, rad.
constexpr double bend_from = 0.5 * degree;

/// Makes arcs and their nodes of every Member::bend; new ones are called by tube, corner and
/// number, "hoop.top_l.1". Reports bends that do not fit between their neighbours, that are tighter
/// than the tube is deep, that turn back on themselves, and two at one node. What has no place or
/// no section is left to validate(). Does nothing without bends.
Diagnostics expand_bends(Frame& frame);

/// One tube that goes on from one member into the other without a cut: next to each other, one of
/// them an arc.
bool bends_on(const Member& a, const Member& b);

/// Length of an arc between two ends of its chord, m.
double arc_length(const MemberArc& arc, double chord);

/// For the model: in the local axes of the chord, with what the walls leave.
Arc arc_of(const MemberArc& arc, const Eigen::Vector3d& from, const Eigen::Vector3d& to,
           double roll, const SectionEntry& section);

/// Greatest stress along the tube over that of the straight tube, for bending about y and z.
/// Nothing where the walls are not known.
std::optional<std::array<double, 2>> moment_factors(const MemberArc& arc,
                                                    const Eigen::Vector3d& from,
                                                    const Eigen::Vector3d& to, double roll,
                                                    const SectionEntry& section);

/// The bend's plane is that of two faces of a square or rectangular tube, within 2 degrees; true
/// for round ones.
bool bends_along_faces(const Arc& arc, const SectionEntry& section);

}  // namespace tubewright
