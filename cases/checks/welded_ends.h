// What is welded at the ends of every member, and to what.
//
// SI units. Where cut_tubes.h saws a tube there is a weld: at its ends, where its path turns, and
// where a bigger path runs through its own. An end that nothing holds or loads is no weld. A tube
// that runs on through a node has no weld of its own there, but the heat of what is welded on it.
#pragma once

#include <array>
#include <string>
#include <vector>

#include "cases/checks/weld_check.h"
#include "cases/frame/frame.h"
#include "cases/frame/layout.h"
#include "cases/model/build_model.h"
#include "solver/model/angle.h"

namespace tubewright {

/// Weld metal of ordinary wire for steel, Pa: least ultimate strength of class 70, AWS A5.18
/// (MEMORY). Taken for steels that are stronger than such wire is meant for (f_u above 560 MPa,
/// that of S460NH in EN 1993-1-1 Table 3.1, MEMORY) where no filler is given; steels below are
/// welded with metal as strong as they are (EN 1993-1-8 4.2(2), MEMORY).
constexpr double ordinary_wire = 480e6;

/// f_u to count on for a weld on metal of `fu`: 0.25 f_u + 0.75 f_u,filler, not above f_u
/// (EN 1993-1-8:2024 6.6.3 for welds that do not match, MEMORY). `filler` 0: not given.
double weld_metal_strength(double fu, double filler);

/// Throat that a weld of a tube on its like is made with where none is given: as strong as the wall
/// (7.3.1(4)), no thinner than it. `wall`: m. Metals other than steel: the wall.
double usual_throat(const MaterialEntry& material, double wall);

struct WeldedEnd {
  bool welded = false;    ///< this tube ends here in a weld
  bool on_tube = false;   ///< and another beam is welded to it
  std::string obstacle;   ///< why the weld cannot be checked; empty if it can
  FilletWeld weld;        ///< strength of the weakest of what is joined
  double heated = 0;      ///< from the node along the member, m; 0: no weld at this node
  double heat_yield = 0;  ///< least f_o,haz and f_u,haz of what is joined, Pa; NaN: not known
  double heat_ultimate = 0;
};

/// Both ends of each member, in the order of Frame::members.
std::vector<std::array<WeldedEnd, 2>> welded_ends(const Frame& frame,
                                                  const NumberedFrame& numbered);

}  // namespace tubewright
