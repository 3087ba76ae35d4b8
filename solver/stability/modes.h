// Natural frequencies and mode shapes of a model, held or free.
#pragma once

#include <Eigen/Core>
#include <vector>

#include "solver/model/model.h"
#include "solver/model/outcome.h"
#include "solver/statics/mechanism.h"

namespace tubewright {

/// Mass beside that of the beams, which comes from their material's density: a symmetric matrix on
/// nodes, six DOFs each, global axes.
struct AddedMass {
  std::vector<int> nodes;
  Eigen::MatrixXd M;
};

/// Stiffness beside that of the elements, towards a ground that stands still, such as a tyre's: a
/// symmetric matrix on nodes, six DOFs each, global axes.
struct GroundStiffness {
  std::vector<int> nodes;
  Eigen::MatrixXd K;
};

struct Mode {
  double frequency = 0;  ///< Hz; exactly 0 for a rigid-body motion
  bool rigid = false;
  Eigen::VectorXd shape;  ///< 6 a node, mass-normalised: shape' M shape = 1
};

struct Modes {
  std::vector<Mode> modes;  ///< ascending; rigid-body motions of a free model first
  bool complete = false;    ///< none below the last one is missing (Sturm count)
};

/// The lowest modes: `count` elastic ones and, where nothing holds the model, its rigid-body
/// motions, those that `ground` leaves it. Cables count as taut. A model with massless DOFs has
/// fewer modes than DOFs.
Outcome<Modes, Mechanism> natural_modes(const Model& model, const std::vector<AddedMass>& added,
                                        int count, const std::vector<GroundStiffness>& ground = {});

/// M u of the whole model, six entries a node.
Eigen::VectorXd apply_mass(const Model& model, const std::vector<AddedMass>& added,
                           const Eigen::VectorXd& u);

}  // namespace tubewright
