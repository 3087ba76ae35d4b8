// Ways in which a model can move without resistance, named by node and direction.
#pragma once

#include <Eigen/Core>
#include <vector>

#include "solver/linear_algebra/factorisation.h"
#include "solver/model/model.h"
#include "solver/statics/assembly.h"

namespace tubewright {

/// One independent free motion.
struct FreeMotion {
  int node = 0;
  int direction = 0;        ///< 0..5 = ux uy uz rx ry rz: where the motion shows most
  bool rigid_body = false;  ///< the whole connected part moves as one piece
  std::vector<int> moving;  ///< nodes that take part, most first
};

/// Empty = none.
struct Mechanism {
  std::vector<FreeMotion> motions;

  bool empty() const { return motions.empty(); }
};

/// A pivot below this share of its own diagonal entry is no stiffness but rounding: sound frames,
/// however finely divided, stay many decades above it, mechanisms come out near 1e-16.
constexpr double least_pivot_ratio = 1e-10;

/// True if the factorised matrix resists every motion.
bool is_stable(const Factorisation& K);

/// The free motions of the lower triangle `K`, which is known to be unstable: the null vectors of K
/// scaled to a unit diagonal, reduced so that each has a node and direction of its own. At least
/// one is returned; at most twelve are looked for.
Mechanism find_mechanism(const Model& model, const FreeDofs& free, const SparseMatrix& K,
                         const std::vector<bool>& slack);

}  // namespace tubewright
