// A vehicle in its modes, on its tyres: what solver/dynamics drives, and the way back from its
// numbers to what acts on the frame.
//
// The vehicle is free: rigid-body motions and the elastic modes up to some frequency, what the
// modes above answer to the forces of tyres and dampers as static correction. Cables count as taut,
// sheets as flat, joints as welded (joint_springs.h). The forces of a wheel act on its upright: up
// at the contact, along at its centre, since the wheel rolls freely.
#pragma once

#include <Eigen/Core>
#include <string>
#include <vector>

#include "cases/frame/diagnostic.h"
#include "cases/frame/frame.h"
#include "cases/model/build_model.h"
#include "cases/vehicle/free_vehicle.h"
#include "solver/dynamics/ride_system.h"
#include "solver/model/actions.h"
#include "solver/stability/refine.h"

namespace tubewright {

/// Frequency up to which elastic modes are followed, Hz, and the most that are: five times what
/// masses of such vehicles bounce with on their tyres (test M1 of road_model_test.cpp).
struct RideModes {
  double up_to = 250;
  int most = 40;
};

/// Columns x = [f; c]: forces at the force coordinates, N, and what each elastic mode has beyond
/// its static answer to them, c_j = q_j - phi_j' b f/omega_j^2.
struct RideModel {
  FreeVehicle vehicle;  ///< held by determinate restraints
  RefinedModel fine;    ///< cut as the modes ask for
  RideSystem system;
  int rigid = 0;                     ///< modes of no frequency, first
  Eigen::MatrixXd loads;             ///< 6 a node of `fine` x columns of x: loads in balance
  Eigen::MatrixXd rigid_shapes;      ///< 6 a node of `fine` x rigid modes
  Eigen::MatrixXd give;              ///< 6 a node of `fine` x columns of x: what it gives way
  Eigen::MatrixXd static_answer;     ///< elastic modes x force coordinates: phi_j' b/omega_j^2
  std::vector<double> standing;      ///< load of each wheel at rest on level ground, N
  std::vector<std::string> carried;  ///< names of the carried masses
  Eigen::MatrixXd carried_up;        ///< upward displacement of each x modes
  double highest_mode = 0;           ///< Hz
  bool all_modes = false;            ///< up to RideModes::up_to
};

/// Requires: the frame is sound, with a vehicle whose wheels have tyres, and weighs something.
/// Diagnostics: it can move without resistance, or a wheel carries nothing at rest.
Result<RideModel> ride_model(const Frame& frame, const NumberedFrame& numbered,
                             const RideModes& modes = {});

/// What acts on the frame's model: loads of `fine` times x.
Actions ride_actions(const RideModel& model, const Eigen::VectorXd& x);

}  // namespace tubewright
