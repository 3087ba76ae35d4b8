// Nodes that nothing stops from turning, such as a joint where only pin-ended links meet.
//
// A rotation n of one node with n' K_rr n = 0 is a null vector of the whole stiffness matrix (K is
// positive semi-definite), so it affects nothing else: adding s n n' leaves every other
// displacement untouched and pins this rotation to zero, exactly, as long as no moment acts on it.
#pragma once

#include <Eigen/Core>
#include <vector>

#include "solver/linear_algebra/factorisation.h"
#include "solver/statics/assembly.h"

namespace tubewright {

struct ZeroStiffnessDof {
  int node = 0;
  Eigen::Vector3d axis = Eigen::Vector3d::Zero();  ///< unit vector, global axes
};

/// Not looked for at rigid bodies, whose rotation moves other nodes too.
/// Finds them and adds s n n' to the lower triangle `K`.
std::vector<ZeroStiffnessDof> restrain_zero_stiffness_dofs(SparseMatrix& K, const FreeDofs& free);

}  // namespace tubewright
