// The tubes of a frame as they leave its nodes, and what else their cuts depend on.
#pragma once

#include <Eigen/Core>
#include <array>
#include <string>
#include <vector>

#include "cases/frame/frame.h"
#include "cases/model/build_model.h"
#include "cases/pieces/convex_polygon.h"
#include "cases/pieces/cut_tubes.h"
#include "solver/model/angle.h"

namespace tubewright {

/// Tubes that meet at less are spliced end to end; that leave a node at less are not cut against
/// each other.
constexpr double spliced_within = 10 * degree;

/// Half of the section along y and z, m.
struct HalfSizes {
  double y = 0, z = 0;
  bool round = false;
};

/// Alike but for a quarter turn about the axis, within 1 um.
bool same_size(const HalfSizes& a, const HalfSizes& b);

/// The outer line of a section in (y, z), of a round one 48 places on it; drawn in by `inset`, but
/// no farther than halfway to the axis.
ConvexPolygon section_polygon(const HalfSizes& half, double inset = 0);

/// Everything but `tubes` is in their order.
struct UncutTubes {
  std::vector<CutTube> tubes;
  std::vector<HalfSizes> half;
  std::vector<bool> link;                  ///< a bar between eyes
  std::vector<std::array<bool, 2>> joint;  ///< at each end: turns, slides or gives there
  std::vector<std::string> path;           ///< of which it is a run; empty: of none
  std::vector<int> rank;                   ///< as in the file; the same for images of each other

  const CutTube& tube(int t) const { return tubes[static_cast<size_t>(t)]; }
  const HalfSizes& half_of(int t) const { return half[static_cast<size_t>(t)]; }
};

UncutTubes uncut_tubes(const Frame& frame, const NumberedFrame& numbered);

/// A tube as it leaves a node at one of its ends.
struct TubeArm {
  int tube = 0;
  int end = 0;
  Eigen::Vector3d away;  ///< unit vector into the tube
  bool goes_on = false;  ///< another here is the next run of it
};

/// Above 0 to pi: 0 side by side, pi in line.
double angle_between(const TubeArm& a, const TubeArm& b);

struct NodeTubes {
  std::vector<int> through;   ///< tubes that are whole there
  std::vector<TubeArm> arms;  ///< those that end there
};

/// By node.
std::vector<NodeTubes> tubes_at_nodes(const Frame& frame, const NumberedFrame& numbered,
                                      const UncutTubes& all);

}  // namespace tubewright
