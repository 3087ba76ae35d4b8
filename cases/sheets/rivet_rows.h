// Where rivets stand along a tube. SI units.
//
// A row keeps clear of the joints at its ends: as far along the tube as the other tube there
// reaches, and beyond that the leg of the weld and half a rivet's head (about a rivet's diameter).
// Common practice, no source.
#pragma once

#include <vector>

namespace tubewright {

/// Hole of a blind rivet: 0.1 mm more than the rivet (common practice; makers give 0.1 to 0.2 mm).
constexpr double hole_clearance = 0.1e-3;

/// Least distances in hole diameters, EN 1993-1-8 Table 3.3 (p1 >= 2.2 d0 from memory, e1 >= 1.2 d0
/// seen in excerpt), the same in EN 1999-1-1 Table 8.2 (from memory): from hole to hole, and from a
/// hole's middle to an edge.
constexpr double least_spacing = 2.2;
constexpr double least_edge = 1.2;

/// How far the other tube of a joint reaches along this one, from the node, both in the plane of
/// the sheet; `angle` between them (0 to pi), half widths of both. Up to a right angle to where
/// their sides part, (b + a cos)/sin; beyond it to the other's side, b/sin; flatter than 130
/// degrees to the end of a mitre.
double joint_reach(double angle, double own_half_width, double other_half_width);

/// Places from the row's beginning: equal spacing, at most `pitch` and at least `least`, the first
/// and last as near the ends as `clear_from` and `clear_to` let them. Where there is room for less
/// than `least` between these, one in the middle; where there is none, nothing.
std::vector<double> rivet_places(double length, double clear_from, double clear_to, double pitch,
                                 double least);

}  // namespace tubewright
