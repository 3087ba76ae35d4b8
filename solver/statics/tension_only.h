// Which cables are slack: the search for the state that minimises the potential energy.
//
// The energy 1/2 u'K u + 1/2 sum k max(e, 0)^2 - f'u is convex, so Newton's method with an exact
// line search along each step ends after finitely many changes of the slack set.
#pragma once

#include <Eigen/Core>
#include <vector>

#include "solver/model/model.h"

namespace tubewright {

bool has_tension_only(const Model& model);

/// Flags, one a bar: cables that are shorter than unstressed under displacements `u`.
std::vector<bool> slack_under(const Model& model, const Eigen::VectorXd& u);

/// The step length t > 0 that minimises the energy from `u` along `step`. `loads`: six a node.
double energy_step(const Model& model, const Eigen::VectorXd& u, const Eigen::VectorXd& step,
                   const Eigen::VectorXd& loads);

}  // namespace tubewright
