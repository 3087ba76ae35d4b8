// Limits on displacements and on torsional stiffness as cuts that hold for every choice of sizes.
//
// Of a displacement u_q = q'K^-1 f under loads f that do not depend on the sizes:
//   u_q = c_p - c_m,  p = (f/s + s q)/2,  m = (f/s - s q)/2,  c_x = x'K^-1 x
// for any s > 0. For every displacement field u and all member forces F in equilibrium with m
//   c_p >= 2 p'u - u'K(z)u        (least potential energy)
//   c_m <= sum F' F_i(z) F        (least complementary energy)
// and both right-hand sides are sums over the tubes' sizes. So u_q <= most gives
//   sum_g [u'K_g(z_g)u + F'F_g(z_g)F] >= 2 p'u - most - (the same of what is not sized)
// for every choice that passes. With u and F those of a blend of sizes the cut is as good as it can
// be there. s^4 = f'K^-1 f / q'K^-1 q makes c_p and c_m small. Where q is a multiple of f, as in
// the torsion test, m = 0 and only the stiffness counts: then joints that give way do no harm,
// since they only make the frame softer than it is taken to be. (The two principles: any textbook
// on energy methods. The cut: derived.)
#pragma once

#include <Eigen/Core>
#include <vector>

#include "cases/sizing/cut_relaxation.h"
#include "cases/sizing/sized_stiffness.h"

namespace tubewright {

/// q'u <= most, under the loads of `load`.
struct ResponseLimit {
  int load = 0;
  Eigen::VectorXd q;  ///< six entries a node
  double most = 0;
};

/// A way of holding the frame, and what is asked of it there.
struct HeldLimits {
  std::vector<Support> supports;
  std::vector<Eigen::VectorXd> loads;  ///< six entries a node, of no sizes
  std::vector<ResponseLimit> limits;
  /// Greatest displacement of any node under any of the loads, m; infinite: any.
  double deflection = 0;
};

/// Those of the file that cuts can be made of: on cases with supports whose loads do not depend on
/// sizes, without cables or sheets; torsional stiffness. `frame`: with its load cases.
std::vector<HeldLimits> response_limits(const Frame& frame, const std::vector<SizedTubes>& groups,
                                        const SizedStiffness& parts);

/// Cuts by the limits that a blend does not meet, the worst of them.
std::vector<SeparableCut> response_cuts(const SizedStiffness& parts,
                                        const std::vector<HeldLimits>& held, const Shares& shares);

}  // namespace tubewright
