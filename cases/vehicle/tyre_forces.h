// A vehicle load case as forces on its wheels.
//
// Where a force enters the structure: side forces, the static load and the force of a brake on the
// upright at the contact patch; bumps, steps and the force of an inboard brake at the wheel centre,
// since an axle's bearings pass no torque. An inboard brake's couple R B goes to what it is mounted
// on. Common practice, no source.
#pragma once

#include <Eigen/Core>
#include <vector>

#include "cases/frame/frame.h"
#include "cases/model/mass_distribution.h"
#include "cases/vehicle/braking.h"
#include "cases/vehicle/wheel_loads.h"

namespace tubewright {

/// What the road does to one wheel, N and N m, vehicle axes.
struct TyreForce {
  Eigen::Vector3d at_contact = Eigen::Vector3d::Zero();
  Eigen::Vector3d at_centre = Eigen::Vector3d::Zero();
  double mount_couple = 0;  ///< about +y, on the mount of an inboard brake
  bool lifted = false;
  double friction_used = 0;  ///< friction that brake and side force need; 0 without load
  /// Of the above, what an edge does: of a step, of a kerb. It asks no friction of the tyre.
  Eigen::Vector3d by_edge = Eigen::Vector3d::Zero();

  Eigen::Vector3d total() const { return at_contact + at_centre; }
};

/// A force on nodes of the frame from elsewhere than the road: a rope, a jack, a lashing.
struct HandlingForce {
  std::vector<std::string> on;
  Eigen::Vector3d at = Eigen::Vector3d::Zero();
  Eigen::Vector3d force = Eigen::Vector3d::Zero();
};

struct TyreForces {
  std::vector<TyreForce> wheels;  ///< in the order of Vehicle::wheels
  std::vector<HandlingForce> handling;
  Eigen::Vector3d gravity =
      Eigen::Vector3d::Zero();        ///< in vehicle axes, m/s2: turned by slope and bank
  bool tips = false;                  ///< see WheelLoads
  std::vector<double> cross_pattern;  ///< see WheelLoads
};

/// Requires: the vehicle is sound. Where no roll share is given it is 0.5 without roll centres: the
/// state that the elastic vehicle then corrects by a cross-weight.
RigidVehicle rigid_vehicle(const Vehicle& vehicle, const MassProperties& mass);

/// Friction that an axle needs as a whole: its forces in the road plane, but for an edge's, over
/// its load; 0 without load.
double axle_friction(const Vehicle& vehicle, Axle axle, const std::vector<TyreForce>& wheels);

/// The force on a roll bar: down, tilted backward, and sideways.
Eigen::Vector3d roll_bar_force(const RollOver& roll);

/// The brakes of the vehicle. A share that is not given follows from which axles have brakes.
Brakes brakes_of(const Vehicle& vehicle);

/// Loads of the wheels of the vehicle at rest on the level.
std::vector<double> standing_loads(const RigidVehicle& body, double g, double cross_weight);

/// The forces of a case of kind vehicle. `standing` from standing_loads(); `cross_weight` in N, see
/// WheelLoads::cross_pattern.
TyreForces tyre_forces(const Frame& frame, const RigidVehicle& body, const Case& load_case,
                       const std::vector<double>& standing, double cross_weight);

}  // namespace tubewright
