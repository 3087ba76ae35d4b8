// How redundant each element of a model is: how much of what it would have to give up comes back
// from the rest.
//
// The redundancy matrix of an element (J. Linkwitz; M. v. Scheven, E. Ramm, M. Bischoff, Int. J.
// Solids Struct. 213 (2021) 41-49) is rho = I - B' K^-1 B D, with K_e = B D B' of full rank r; its
// trace r - tr(K^-1 K_e) is what is returned: 0 for an element that equilibrium alone determines, r
// for one that the rest holds as rigidly as if it were fast. Over all elements the traces sum to
// the degree of static indeterminacy, exactly: sum r - n for n free DOFs.
#pragma once

#include <vector>

#include "solver/model/model.h"
#include "solver/statics/stiffness_update.h"

namespace tubewright {

struct Redundancies {
  std::vector<double> beams;   ///< 0 to 6 less what is released
  std::vector<double> bars;    ///< 0 to 1
  std::vector<double> panels;  ///< 0 to 1
  /// Of all of them: the degree of static indeterminacy. Rotations that nothing resists, such as
  /// that of a node where only links meet, ask for nothing.
  double sum = 0;
};

/// Cables count as taut. Requires: `base` is of this model and sound.
Redundancies redundancies(const Model& model, const BaseStiffness& base);

}  // namespace tubewright
