// What the bender needs to know of a bent tube: where each bend begins, how far to turn the tube
// for it, how far to bend so that it springs back to the drawing, and what the walls become.
//
// Springback by an elastic, perfectly plastic section: 1/R = 1/R_die - M_p/(E I), the length of the
// bend kept (derived for this project). The tube's true yield strength is often more than the
// standard's least, and springs back the more: a first piece is bent on trial. Outer and inner wall
// t R/(R +- D/2): the volume kept, the length of the section's outline too (common practice).
#pragma once

#include <string>
#include <vector>

#include "cases/frame/frame.h"

namespace tubewright {

/// One bend of a tube, in the order along it. Lengths in m, along the centre line.
struct TubeBend {
  std::string node;  ///< the corner's
  double at = 0;     ///< from the start of the first member to where the bend begins
  double angle = 0;  ///< rad
  double radius = 0;
  double towards = 0;  ///< rad, from the section's y to the side of its centre, right hand
  /// From the plane of the bend before to that of this one, about the tube's axis, right hand, rad.
  double turn = 0;
  double bent_to = 0;     ///< angle under load, rad
  double die_radius = 0;  ///< radius under load
  double outer_wall = 0, inner_wall = 0;
  double elongation = 0;  ///< of the outer wall
};

/// Angle and radius under load from those wanted. `W_pl`, `I` about the axis of the bend.
struct BentUnderLoad {
  double angle = 0, radius = 0;
};
BentUnderLoad before_springback(double angle, double radius, double yield, double W_pl, double E,
                                double I);

/// The bends of members one after the other of one tube, by expand_bends().
std::vector<TubeBend> bends_of(const Frame& frame, const std::vector<int>& members);

/// The tightest that tools usually bend: 3 times the depth of a square tube, twice that of a round
/// one (common practice, no source).
double usual_least_radius(const SectionEntry& section);

/// Greatest BentWalls::across of all bends, whichever pair of walls is curved; 0 without.
double greatest_wall_bending(const Frame& frame);

}  // namespace tubewright
