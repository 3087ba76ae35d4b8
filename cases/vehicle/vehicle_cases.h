// Load cases of kind vehicle, solved by inertia relief.
#pragma once

#include <string>
#include <vector>

#include "cases/frame/frame.h"
#include "cases/model/build_model.h"
#include "cases/vehicle/free_vehicle.h"
#include "solver/model/outcome.h"
#include "solver/statics/statics.h"

namespace tubewright {

/// What the wheels do and how the vehicle answers, in one case.
struct DrivingState {
  std::vector<TyreForce> wheels;  ///< in the order of Vehicle::wheels
  Balance balance;
  std::vector<int> restrained;  ///< nodes of the determinate restraint
  bool tips = false;            ///< the vehicle turns over: loads of the first moment
  bool pulls = false;           ///< of a combination: a wheel would have to pull the road up
};

struct VehicleSolution {
  DrivingState state;
  StaticSolution solution;
  Actions actions;  ///< wheels, weight and inertia, in balance
};

/// What the vehicle can do at all, and how it stands.
struct VehicleFacts {
  MassProperties mass;
  RigidVehicle rigid;
  std::vector<double> standing;  ///< load of each wheel on the level, N
  TippingLimits tipping;         ///< m/s2
  Deceleration braking;          ///< on the level, with the tyres' friction
  double friction = 0;           ///< of the tyres: given or 0.8
  bool sprung = false;           ///< the frame has spring members
};

/// Friction of a bicycle-type tyre on a dry road where the file says nothing (common practice).
constexpr double usual_friction = 0.8;

Outcome<VehicleFacts, StaticFailure> vehicle_facts(const Frame& frame,
                                                   const NumberedFrame& numbered);

/// The facts and the cases, in the order asked for.
struct VehicleResults {
  VehicleFacts facts;
  std::vector<VehicleSolution> solutions;
};

using VehicleOutcome = Outcome<VehicleResults, StaticFailure>;

/// Solves cases that come down to cases of kind vehicle only. A combination stands on its wheels
/// once: to the loads at rest it adds what each of its parts has more than those, times its factor.
///
/// With four wheels down and no `roll_stiffness_front_share` the cross-weight follows from the
/// elastic vehicle itself, springs, tyres and frame: the four contacts stay in the plane of the
/// road.
///
/// `extra`: acts in every one of the cases besides, balanced by inertia; null: nothing. `standing`:
/// wheel loads of the standing vehicle where they are known already. `bases`: see StaticSolver.
VehicleOutcome solve_vehicle_cases(const Frame& frame, const NumberedFrame& numbered,
                                   const std::vector<const Case*>& cases,
                                   const Actions* extra = nullptr,
                                   const std::vector<double>& standing = {},
                                   const BaseStiffnesses* bases = nullptr);

}  // namespace tubewright
