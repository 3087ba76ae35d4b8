// Nodes joined by a rigid body, such as the upright of a wheel, by exact elimination.
//
// The nodes of a body follow the first of them, its master: u = u_m + w_m x r and w = w_m, with r
// from the master to the node (small rotations). Only the master has DOFs; forces on the others
// count on the master with their moment r x F. No stiff beams, so nothing is lost to rounding.
#pragma once

#include <Eigen/Core>
#include <vector>

#include "solver/model/model.h"

namespace tubewright {

/// For each node the node whose DOFs move it: its body's master, or itself.
std::vector<int> masters_of(const Model& model);

/// Sets the displacements of nodes that follow a master; `u` has six entries a node.
void follow_masters(const Model& model, const std::vector<int>& masters, Eigen::VectorXd& u);

/// Moves forces on nodes that follow a master to it; `f` has six entries a node.
void gather_on_masters(const Model& model, const std::vector<int>& masters, Eigen::VectorXd& f);

/// Supports that hold nodes in all six directions; for a node that follows, its master.
std::vector<Support> held_fully(const Model& model, const std::vector<int>& nodes);

}  // namespace tubewright
