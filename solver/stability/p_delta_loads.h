// Second-order effects as loads: what axial forces do on the displaced frame (P-Delta), and along
// each deflected member (P-delta).
//
// On the deflected axis an axial force N adds couples N u' x e_x per length, which this header puts
// on the undeflected member as point couples; a pin-ended bar pushes its joints sideways by N
// times its slope. Solving again with them until they stay the same gives the second-order elastic
// answer for small rotations (S. P. Timoshenko, J. M. Gere, Theory of Elastic Stability (1961),
// ch. 1; from memory). Panels have none. The iteration converges if the loads are below the
// critical ones, by the factor 1/alpha_cr a round.
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
  /// False: no equilibrium found, the loads are beyond the critical ones or a percent below.
  bool converged = false;
  int rounds = 0;
  StaticSolution solution;  ///< of the last round
};

/// `first`: the first-order solution. `solve` gives the answer of the case with extra actions, or
/// nothing on failure.
SecondOrder iterate_p_delta(
    const Model& model, double safety_factor, StaticSolution first,
    const std::function<std::optional<StaticSolution>(const Actions& extra)>& solve);

}  // namespace tubewright
