// Ways in which a model can move without resistance, named by node and direction.
#pragma once

#include <Eigen/Core>
#include <vector>

#include "solver/linear_algebra/factorisation.h"
#include "solver/model/model.h"

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

/// The free motions of a model, by its geometry alone: how stiff its members are plays no part,
/// so slender and badly scaled frames are judged as well as stocky ones. Every element is given the
/// stiffness of a stocky one (unit_stiffness.h); of the vectors that strain such a model least
/// those count whose energy, summed over the elements, is no more than rounding. Each is reduced so
/// that it has a node and direction of its own; at most twelve are found. `slack`: cables left out,
/// one flag a bar.
Mechanism find_mechanism(const Model& model, const std::vector<bool>& slack);

/// Whether a factorised K resists every motion without a doubt: the least eigenvalue of K scaled to
/// a unit diagonal stands far above rounding. Quick. False in a slender frame too, so ask
/// find_mechanism() then. `lower`: what was factorised.
bool surely_resists(const Factorisation& factor, const SparseMatrix& lower);

}  // namespace tubewright
