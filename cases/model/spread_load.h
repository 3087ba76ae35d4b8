// A force at a point, handed to a set of nodes without stiffening them.
#pragma once

#include <Eigen/Core>
#include <vector>

#include "solver/model/actions.h"
#include "solver/model/model.h"

namespace tubewright {

/// The force and moment that each node takes.
struct NodeShare {
  Eigen::Vector3d force = Eigen::Vector3d::Zero();
  Eigen::Vector3d moment = Eigen::Vector3d::Zero();
};

/// Shares that are statically equivalent to `force` and `moment` at `at`: equal parts of the force,
/// plus the smallest forces (least squares) that make up the moment about the nodes' middle, as in
/// a group of equal rivets. What forces cannot make up (one node, or a moment about the line of
/// nodes in a row) is shared as equal moments. Requires: at least one node.
std::vector<NodeShare> spread_load(const std::vector<Eigen::Vector3d>& nodes,
                                   const Eigen::Vector3d& at, const Eigen::Vector3d& force,
                                   const Eigen::Vector3d& moment);

/// Adds the shares of `nodes` of a model to its actions.
void add_spread(Actions& actions, const Model& model, const std::vector<int>& nodes,
                const Eigen::Vector3d& at, const Eigen::Vector3d& force,
                const Eigen::Vector3d& moment);

}  // namespace tubewright
