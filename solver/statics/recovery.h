// From displacements back to member forces, reactions and the proof of equilibrium.
#pragma once

#include <Eigen/Core>
#include <span>
#include <vector>

#include "solver/elements/beam_field.h"
#include "solver/model/actions.h"
#include "solver/model/model.h"

namespace tubewright {

/// Relative out-of-balance, force and moment apart.
struct Residual {
  double force = 0;
  double moment = 0;
};

struct StaticSolution {
  Eigen::VectorXd displacements;  ///< 6 a node, global axes
  Eigen::VectorXd reactions;      ///< 6 a node, what supports put on nodes; zero where not held
  std::vector<BeamState> beams;
  std::vector<double> bar_forces;   ///< tension positive, 0 for a slack cable
  std::vector<bool> slack;          ///< one a bar
  std::vector<double> panel_flows;  ///< q0 of each panel, N/m; see shear_panel.h
  /// One a bar: what the flows of panels put on it along its length, N/m; `bar_forces` is its mean
  /// force.
  std::vector<Eigen::Vector3d> bar_lines;
  Residual residual;     ///< worst free DOF: actions on the node against its members' answers
  Residual equilibrium;  ///< the whole frame: actions against reactions, moments about its middle
};

/// Everything that follows from the displacements (six a node, restrained DOFs at their values).
/// Of several cases, each with its slack bars and displacements, together: the same, sooner.
std::vector<StaticSolution> recover(const Model& model, std::span<const Actions> cases,
                                    std::span<const std::vector<bool>> slack,
                                    std::span<const Eigen::VectorXd> displacements);
StaticSolution recover(const Model& model, const Actions& actions, const std::vector<bool>& slack,
                       const Eigen::VectorXd& displacements);

}  // namespace tubewright
