// Linear buckling: by what factor the loads of a solved case would have to grow to make it
// unstable.
#pragma once

#include <Eigen/Core>
#include <vector>

#include "solver/model.h"
#include "solver/recovery.h"

namespace tubewright {

struct BucklingMode {
  double factor = 0;      ///< alpha_cr, above zero
  Eigen::VectorXd shape;  ///< 6 a node, greatest entry 1
};

struct Buckling {
  std::vector<BucklingMode> modes;  ///< ascending; empty: the case does not buckle at any multiple
  bool complete = false;            ///< none below the last one is missing (Sturm count)
};

/// (K + alpha K_G) x = 0 with the axial forces of `solution` (means of each beam, bars included),
/// slack cables left out. Exact enough only where beams are cut into pieces: one cubic beam finds
/// its own Euler load 22 % too high, four 0.05 % (pinned ends). Panels do not buckle here, nor lose
/// stiffness. Requires: `solution` is one of `model`.
Buckling linear_buckling(const Model& model, const StaticSolution& solution, int count);

}  // namespace tubewright
