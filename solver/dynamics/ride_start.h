// How a ride starts: standing on its tyres.
#pragma once

#include <Eigen/Core>

#include "solver/dynamics/ride_system.h"
#include "solver/model/outcome.h"

namespace tubewright {

/// Modal displacements and their rates, one a mode.
struct ModalState {
  Eigen::VectorXd displacement, rate;
};

enum class NoEquilibrium {
  unsupported,  ///< gravity moves a rigid-body mode that no tyre resists
  tips          ///< a tyre would have to pull
};

struct StandingRide {
  Eigen::VectorXd displacement;  ///< modal
  Eigen::VectorXd tyre_forces;   ///< N, one a tyre
  Eigen::VectorXd deflections;   ///< of the tyres, m; negative: off the ground
};

/// Equilibrium of gravity on the tyres over ground of `heights` (m, one a tyre), level under each.
/// Rigid-body modes that no tyre resists (along, across, yaw) stay where they are. `bilateral`:
/// tyres may pull. Without weight the structure touches the ground where it can.
Outcome<StandingRide, NoEquilibrium> standing_ride(const RideSystem& system,
                                                   const Eigen::VectorXd& heights, bool bilateral);

}  // namespace tubewright
