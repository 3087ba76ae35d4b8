// What bending a tube round leaves of its stiffness, and how much it stresses its walls.
//
// A round tube in a bend ovalises: T. von Karman (1911); R. A. Clark, E. Reissner (1951), both from
// memory. The walls of a square tube that lie on the outside and the inside of the bend give way
// towards its middle, since their own pull pushes them inward, and carry less in the middle than at
// the corners: H. Bleich's curved flange, worked out anew as a strip on an elastic foundation with
// edges held from turning (derived for this project: an upper bound of what is left). Walls as
// thick as drawn. Long bends: the ends of short ones are held in shape by the straight tube, which
// makes them stiffer than this.
#pragma once

#include <optional>

#include "cases/frame/frame.h"

namespace tubewright {

struct BentWalls {
  double in_plane = 1;      ///< share of EI left for bending in the plane of the bend
  double out_of_plane = 1;  ///< and across it
  /// Greatest stress along the tube over that of the straight tube under the same moment.
  double stress_in_plane = 1;
  double stress_out_of_plane = 1;
  /// Stress across the wall at the corner of a square tube, from the wall's own bending, over the
  /// stress along the tube there, for bending in the plane.
  double across = 0;
};

/// Of a tube bent to `radius`, m, of its centre line. `depth_in_plane`: of the section, m, in the
/// plane of the bend; `width` across it; both are the diameter of a round tube.
BentWalls bent_round_tube(double diameter, double wall, double radius);
BentWalls bent_box(double depth_in_plane, double width, double wall, double radius);

/// `inward_z`: the centre of the bend lies along the section's z axis rather than its y. Bars,
/// which have no walls, keep everything; of given properties nothing is known.
std::optional<BentWalls> bent_walls(const SectionEntry& section, double radius, bool inward_z);

}  // namespace tubewright
