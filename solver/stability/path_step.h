// Whether a step of an equilibrium path ends on the branch it began on.
//
// Newton's method finds an equilibrium, not the one that the frame comes to: beyond a limit point
// it may land on the far branch, which is stable too. A step that is fine enough for the path tells
// itself by its ends: along a smooth curve the chord is the mean of the tangents at both ends but
// for a term of third order in its length (trapezoidal rule). A jump has no reason to be.
#pragma once

#include <Eigen/Core>
#include <vector>

namespace tubewright {

/// A step between two equilibria along a path on which the load factor rises.
struct PathStep {
  Eigen::VectorXd velocity_from;  ///< d free DOFs / d load factor where it begins
  Eigen::VectorXd velocity_to;    ///< where it ends
  Eigen::VectorXd moved;          ///< of the free DOFs
  double load_change = 0;
  bool kinked = false;  ///< cables went slack or taut: the tangent turned at once
};

/// `weights`: of the free DOFs in lengths, rotations as m^2/rad^2; `node_of`: the node of each;
/// `negligible`: a length that is no movement, m.
bool stays_on_path(const PathStep& step, const Eigen::VectorXd& weights,
                   const std::vector<int>& node_of, double negligible);

}  // namespace tubewright
