// A structure driven along the paths of its wheels, step by step.
//
// Each mode goes by the exact recurrence for a force that is linear over the step
// (modal_recurrence.h): no error of period, no numerical damping. The forces at the end of a step
// depend on where it ends: dampers and tyres are solved with it, which tyres touch included
// (contact_forces.h). Displacements and rates at the force coordinates:
//   w = modes q + residual_flexibility f + weight_displacement,
//   w' = modes q' + residual_flexibility (f - f of the step before)/dt.
// Paths are followed at constant speed: what the structure moves along the road does not change
// the place of its wheels. The displacements are small, rotations too.
//
// Choose the step below a twentieth of the shortest period of the masses on tyres and springs of
// dampers, and so that a step goes at most 2 mm. Elastic modes need some damping (1 %): without it
// they ring as long as wheels are in the air, and the peaks of contact do not converge.
#pragma once

#include <Eigen/Core>
#include <cstdint>
#include <functional>
#include <optional>

#include "solver/dynamics/ride_start.h"
#include "solver/dynamics/ride_system.h"
#include "solver/model/outcome.h"

namespace tubewright {

/// Fills in height z_c (m) and slope dz_c/dx of each wheel's path, tyres x steps, at the steps from
/// `first` on. Called block after block, without gaps; first for step 0 alone, and again from 0.
using WheelPaths = std::function<void(std::int64_t first, Eigen::Ref<Eigen::MatrixXd> height,
                                      Eigen::Ref<Eigen::MatrixXd> slope)>;

struct RideOptions {
  double time_step = 2.5e-4;        ///< s, above 0
  double duration = 0;              ///< s, not negative: steps 0 .. ceil(duration/time_step)
  double speed = 0;                 ///< m/s: z_c' = speed dz_c/dx
  bool bilateral = false;           ///< tyres also pull, F = k d + c d': for linear theory
  int block = 256;                  ///< steps handed over together, above 0
  std::optional<ModalState> start;  ///< else standing_ride() at the heights of step 0
};

/// Columns are steps; time of column j is (first + j) * time_step. Valid during the call only.
struct RideBlock {
  std::int64_t first = 0;        ///< step of the first column
  Eigen::MatrixXd displacement;  ///< modal, modes x steps
  Eigen::MatrixXd rate;
  Eigen::MatrixXd acceleration;
  Eigen::MatrixXd forces;        ///< at the force coordinates, of tyres and dampers; N
  Eigen::MatrixXd tyre_force;    ///< F, tyres x steps, N
  Eigen::MatrixXd deflection;    ///< d, tyres x steps, m
  Eigen::MatrixXd longitudinal;  ///< -F dz_c/dx, tyres x steps, N: what slows the vehicle
};

using RideSink = std::function<void(const RideBlock&)>;

struct RideEnd {
  std::int64_t steps = 0;  ///< made and handed over; step 0 is not counted
  bool stopped = false;    ///< `should_stop` said so
  bool diverged = false;   ///< numbers grew beyond all bounds (too long a step); the block in which
                           ///< they did was not handed over
  ModalState state;        ///< at the end of the last step that was handed over
};

/// Drives. `should_stop` is asked before each block. The same input gives the same bits. No history
/// is kept. Requires: is_ride_system(), as many paths as tyres, sizes of the start.
Outcome<RideEnd, NoEquilibrium> ride(const RideSystem& system, const WheelPaths& paths,
                                     const RideOptions& options, const RideSink& sink,
                                     const std::function<bool()>& should_stop = {});

}  // namespace tubewright
