// Second-order effects as loads: what axial forces do on the displaced frame (P-Delta), and along
// each deflected member (P-delta).
//
// On the deflected axis an axial force N adds couples N u' x e_x per length, which this header puts
// on the undeflected member as point couples; a pin-ended bar pushes its joints sideways by N
// times its slope. Solving again with them until they stay the same gives the second-order elastic
// answer for small rotations (S. P. Timoshenko, J. M. Gere, Theory of Elastic Stability (1961),
// ch. 1; from memory). Panels have none. Repeated as it stands this converges by the factor
// 1/alpha_cr a round, and not at all for a tie pulled beyond its own Euler load; so each round
// takes the combination of all before that is nearest to equilibrium (D. G. Anderson, J. ACM 12
// (1965) 547; from memory), which needs about as many rounds as there are ways to deflect, and the
// axial forces are brought up to date once the frame has come to rest under the last ones. That
// finds an equilibrium beyond the critical load too: whether the frame stands in it is told apart,
// by the inertia of the tangent with every beam cut into pieces.
#pragma once

#include <functional>
#include <optional>

#include "solver/model/actions.h"
#include "solver/model/model.h"
#include "solver/statics/recovery.h"

namespace tubewright {

/// The loads that stand for P-Delta in `solution`, with its axial forces times `safety_factor`.
/// Sized for the model; nothing but those loads is in them.
Actions p_delta_loads(const Model& model, const StaticSolution& solution, double safety_factor);

struct SecondOrder {
  /// False: no equilibrium that the frame stands in, the loads are beyond the critical ones.
  bool converged = false;
  int rounds = 0;
  StaticSolution solution;  ///< of the last round
};

/// `model`: as held, or held just enough to stand still. `first`: the first-order solution. `solve`
/// gives the answer of the case with extra actions, or nothing on failure.
SecondOrder iterate_p_delta(
    const Model& model, double safety_factor, StaticSolution first,
    const std::function<std::optional<StaticSolution>(const Actions& extra)>& solve);

}  // namespace tubewright
