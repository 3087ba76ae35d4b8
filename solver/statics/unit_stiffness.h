// Whether a model can move is a matter of its geometry: which members, joints and supports there
// are, and where. Their stiffnesses only have to be above zero. This gives each element the
// stiffness of a stocky one of its own length, so that rounding cannot hide a free motion behind
// the great differences between a slender tube's stiffnesses along and across.
#pragma once

#include <Eigen/Core>
#include <vector>

#include "solver/model/model.h"

namespace tubewright {

/// The same nodes, elements, releases and supports. Beams: E = G = 1, A = L, I = L^3/12, I_t = L^3,
/// so that a unit displacement or a turn that moves the far end by one takes about a unit force;
/// joint springs above zero rigid. Bars of any stiffness above zero: 1. Sheets: G t = 1, rigidly
/// joined, unbuckled.
Model with_unit_stiffness(const Model& model);

/// u_i' K u_j for the columns of `u` (six entries a node), summed over the elements from what
/// deforms them: a rigid motion gives nothing, to the square of rounding. `slack`: bars left out.
Eigen::MatrixXd element_energies(const Model& model, const std::vector<bool>& slack,
                                 const Eigen::MatrixXd& u);

}  // namespace tubewright
