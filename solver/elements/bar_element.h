// The bar: an element between two nodes that carries axial force only.
//
// Matrices are in global axes on the twelve degrees of freedom of the two nodes; a bar has none of
// the rotations.
#pragma once

#include <Eigen/Core>

#include "solver/elements/beam_element.h"
#include "solver/model/model.h"

namespace tubewright {

/// Unit vector along a bar, from `from` to `to`.
Eigen::Vector3d bar_direction(const Model& model, const Bar& bar);

/// k n n', n the direction of the bar. N/m.
Matrix12 bar_stiffness(const Model& model, const Bar& bar);

/// Stress stiffness under the axial force N (tension positive): N/L (1 - n n'). N/m.
Matrix12 bar_stress_stiffness(const Model& model, const Bar& bar, double N);

/// Elongation of a bar under displacements `u`, first order, m.
double bar_elongation(const Model& model, const Bar& bar, const Eigen::VectorXd& u);

}  // namespace tubewright
