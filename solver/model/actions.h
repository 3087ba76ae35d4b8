// What acts on a model in one load case. Global axes, SI units.
#pragma once

#include <Eigen/Core>
#include <vector>

#include "solver/model/model.h"

namespace tubewright {

/// A force and a moment at a point of a beam.
struct PointAction {
  double at = 0;  ///< fraction of the length from `from`, 0..1
  Eigen::Vector3d force = Eigen::Vector3d::Zero();
  Eigen::Vector3d moment = Eigen::Vector3d::Zero();
};

/// Loads along one beam: a uniform line load (N per metre of member), a uniform couple (N m per
/// metre) and point actions.
struct BeamActions {
  Eigen::Vector3d line = Eigen::Vector3d::Zero();
  std::vector<PointAction> points;
  Eigen::Vector3d couple = Eigen::Vector3d::Zero();

  bool empty() const { return points.empty() && line.isZero(0) && couple.isZero(0); }
};

struct Actions {
  Eigen::VectorXd nodal;           ///< 6 a node: forces and moments, N and N m
  std::vector<BeamActions> beams;  ///< one a beam
  Eigen::VectorXd prescribed;      ///< 6 a node: displacements of restrained DOFs, m and rad
  /// One a panel: traction of a buckled sheet's tension field on all its edges, inward, N/m; see
  /// sheet_buckling.h.
  std::vector<double> tension_fields;
};

/// No action at all, sized for `model`.
Actions no_actions(const Model& model);

/// Adds factor * other to `sum`. Both belong to the same model.
void add_actions(Actions& sum, const Actions& other, double factor);

}  // namespace tubewright
