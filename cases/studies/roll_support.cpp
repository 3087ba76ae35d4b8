#include "cases/studies/roll_support.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

#include "cases/joint_stiffness/joint_springs.h"
#include "cases/studies/torsion.h"
#include "cases/vehicle/free_vehicle.h"
#include "cases/vehicle/vehicle_cases.h"
#include "cases/vehicle/wheel_lift.h"
#include "cases/wheels/rolling.h"
#include "solver/elements/rigid_bodies.h"

namespace tubewright {

namespace {

struct AxleWheels {
  int left = -1;
  int right = -1;
  double track = 0;
};

std::optional<AxleWheels> wheels_of(const Vehicle& vehicle, Axle axle) {
  std::vector<int> list;
  for (size_t w = 0; w < vehicle.wheels.size(); ++w) {
    if (vehicle.wheels[w].axle == axle) list.push_back(static_cast<int>(w));
  }
  if (list.size() != 2) return std::nullopt;
  AxleWheels a{list[0], list[1], 0};
  const auto y = [&](int w) { return vehicle.wheels[static_cast<size_t>(w)].contact.y(); };
  if (y(a.left) < y(a.right)) std::swap(a.left, a.right);
  a.track = y(a.left) - y(a.right);
  if (!(a.track > 0)) return std::nullopt;
  return a;
}

/// The vehicle with its frame proper held in space.
FreeVehicle on_a_rigid_frame(const Frame& frame, const NumberedFrame& n) {
  FreeVehicle v = free_vehicle(frame, n);
  std::vector<int> seeds;
  for (const auto* pair : {&frame.torsion->front, &frame.torsion->rear}) {
    for (const std::string& name : *pair) seeds.push_back(n.node.at(name));
  }
  const std::vector<bool> body = welded_body(frame, n, seeds);
  std::vector<int> held;
  for (int node = 0; node < static_cast<int>(body.size()); ++node) {
    if (body[node]) held.push_back(node);
  }
  v.model.supports = held_fully(v.model, held);
  return v;
}

/// One newton up at the left wheel and down at the right one: the couple over the angle.
std::optional<double> axle_stiffness(const FreeVehicle& v, StaticSolver& solver,
                                     const AxleWheels& axle, const Vehicle& vehicle) {
  Actions actions = no_actions(v.model);
  add_wheel_force(v, static_cast<size_t>(axle.left), Eigen::Vector3d::UnitZ(), actions);
  add_wheel_force(v, static_cast<size_t>(axle.right), -Eigen::Vector3d::UnitZ(), actions);
  const StaticResult solved = solver.solve({actions});
  if (!solved) return std::nullopt;
  const std::vector<double> z = contact_displacements(v, solved->front().displacements);
  double apart = z[static_cast<size_t>(axle.left)] - z[static_cast<size_t>(axle.right)];
  if (has_tyre_rates(vehicle)) {
    for (const int w : {axle.left, axle.right}) {
      apart += 1 / tyre_rate(vehicle, vehicle.wheels[static_cast<size_t>(w)]);
    }
  }
  if (!(apart > 0)) return INFINITY;
  return axle.track * axle.track / apart;
}

}  // namespace

double balance_kept(double frame_stiffness, double front_roll_stiffness, double rear_roll_stiffness,
                    double front_share) {
  const double kappa = frame_stiffness / (front_roll_stiffness + rear_roll_stiffness);
  const double split = front_share * (1 - front_share);
  return kappa + split > 0 ? kappa / (kappa + split) : 1;
}

RollSupportOutcome roll_support(const Frame& frame, double frame_stiffness) {
  if (!frame.vehicle) return {std::nullopt, "the frame file describes no wheels"};
  const auto front = wheels_of(*frame.vehicle, Axle::front);
  const auto rear = wheels_of(*frame.vehicle, Axle::rear);
  if (!front || !rear) {
    return {std::nullopt, "the road can only twist a frame with two wheels on each axle"};
  }
  const NumberedFrame n = jointed_model(frame);
  const auto facts = vehicle_facts(frame, n);
  if (!facts) return {std::nullopt, "the vehicle is loose"};
  const VehicleFacts& f = *facts;

  const FreeVehicle v = on_a_rigid_frame(frame, n);
  StaticSolver solver(v.model);
  const auto k_front = axle_stiffness(v, solver, *front, *frame.vehicle);
  const auto k_rear = axle_stiffness(v, solver, *rear, *frame.vehicle);
  if (!k_front || !k_rear) {
    return {std::nullopt, "with the frame held, a wheel is loose or the suspension has no spring"};
  }
  RollSupport r;
  r.sprung = f.sprung;
  r.tyres_known = has_tyre_rates(*frame.vehicle);
  r.front = *k_front;
  r.rear = *k_rear;
  const bool finite = std::isfinite(r.front) && std::isfinite(r.rear);
  r.front_share = frame.vehicle->roll_stiffness_front_share.value_or(
      finite ? r.front / (r.front + r.rear) : 0.5);
  if (r.sprung && finite) r.kept = balance_kept(frame_stiffness, r.front, r.rear, r.front_share);
  const auto axle_load = [&](const AxleWheels& a) {
    return f.standing[static_cast<size_t>(a.left)] + f.standing[static_cast<size_t>(a.right)];
  };
  r.lifting_couple = lifting_couple(axle_load(*front), front->track, axle_load(*rear), rear->track);
  r.lifting_bump = lifting_bump(r.lifting_couple, front->track, frame_stiffness, r.front, r.rear);
  return {r, ""};
}

}  // namespace tubewright
