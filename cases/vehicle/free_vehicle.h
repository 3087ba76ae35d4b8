// A vehicle that nothing holds: its model, what its wheels do to it, and inertia relief.
//
// The forces of the road are balanced by accelerating every mass, so that forces and moments close;
// six statically determinate restraints only keep the frame from drifting and take nothing. The
// frame starts without angular velocity. Displacements are measured from the frame's own mean
// motion: the mass-weighted mean displacement and rotation are zero.
#pragma once

#include <Eigen/Core>
#include <variant>
#include <vector>

#include "cases/frame/frame.h"
#include "cases/model/build_model.h"
#include "cases/model/mass_distribution.h"
#include "cases/vehicle/tyre_forces.h"
#include "solver/statics/statics.h"

namespace tubewright {

struct FreeVehicle {
  Model model;  ///< as numbered, but held by determinate restraints instead of the supports
  MassDistribution distribution;
  MassProperties mass;
  RigidVehicle rigid;
  std::vector<Eigen::Vector3d> centres;        ///< of the wheels, m
  std::vector<std::vector<int>> carriers;      ///< nodes of each wheel's upright or hub
  std::vector<std::vector<int>> brake_mounts;  ///< nodes that take an inboard brake's couple
};

/// Requires: the frame is sound, has a vehicle and weighs something.
FreeVehicle free_vehicle(const Frame& frame, const NumberedFrame& numbered);

/// Nodes that take the couple of a wheel's inboard brake: those named, else where the links and
/// springs of a rigid upright meet the frame, else the carriers themselves.
std::vector<int> brake_mount(const Frame& frame, const NumberedFrame& numbered, const Wheel& wheel);

/// Accelerations of the vehicle and what is left of the balance. Vehicle axes.
struct Balance {
  Eigen::Vector3d force = Eigen::Vector3d::Zero();    ///< of all wheels and extra forces, N
  Eigen::Vector3d moment = Eigen::Vector3d::Zero();   ///< the same about the centre of mass, N m
  Eigen::Vector3d gravity = Eigen::Vector3d::Zero();  ///< in vehicle axes, m/s2
  Eigen::Vector3d acceleration = Eigen::Vector3d::Zero();  ///< of the centre of mass, m/s2
  Eigen::Vector3d angular = Eigen::Vector3d::Zero();       ///< rad/s2
  double restraint_force = 0;  ///< greatest force in the restraints: must vanish, N
};

/// Forces of the wheels and extra forces of a case as actions on the model, balanced by inertia:
/// a = gravity + F/m, angular = I^-1 M.
struct BalancedActions {
  Actions actions;
  Balance balance;
};
BalancedActions balanced_actions(const FreeVehicle& vehicle, const TyreForces& forces,
                                 const std::vector<NodeAction>& extra_forces,
                                 const std::vector<NodeAction>& extra_moments,
                                 const NumberedFrame& numbered);

/// Adds other actions, balanced by inertia as well. Of beams only point actions count here.
void add_balanced(const FreeVehicle& vehicle, const Actions& other, Actions& actions);

/// Adds a force of the road at the contact patch of wheel `w`.
void add_wheel_force(const FreeVehicle& vehicle, size_t w, const Eigen::Vector3d& force,
                     Actions& actions);

/// How far upward each contact patch is pushed in relation to the vehicle, tyres rigid, m: the
/// displacement that the wheel's load works on.
std::vector<double> contact_displacements(const FreeVehicle& vehicle,
                                          const Eigen::VectorXd& displacements);

/// Takes the mean motion out of a solution.
void centre_motion(const FreeVehicle& vehicle, StaticSolution& solution);

}  // namespace tubewright
