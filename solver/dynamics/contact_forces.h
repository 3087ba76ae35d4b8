// Which tyres touch, and with what force.
#pragma once

#include <Eigen/Core>

#include "solver/dynamics/ride_system.h"

namespace tubewright {

using TyreVector = Eigen::Matrix<double, Eigen::Dynamic, 1, 0, most_tyres, 1>;
using TyreMatrix = Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, 0, most_tyres, most_tyres>;

/// Finds F >= 0 with, for each tyre, y = r - (A F) <= 0 where F = 0 and y = 0 where F > 0
/// (a linear complementarity problem). A is the identity and what the structure gives way, which is
/// small or near symmetric: every principal minor is positive, so there is one solution.
///
/// `touching` is the set to try first and becomes the one found. Single exchanges in Murty's order
/// (Math. Programming 7 (1974), from memory), which end for such matrices; for others all sets, for
/// more than four tyres projected sweeps, the least wrong answer counts. Always ends.
/// Requires: finite numbers, sizes agree.
TyreVector contact_forces(const TyreMatrix& A, const TyreVector& r, unsigned& touching);

/// The same among tyres of the set `eligible`, the others without force.
TyreVector contact_forces(const TyreMatrix& A, const TyreVector& r, unsigned eligible,
                          unsigned& touching);

}  // namespace tubewright
