#include "cases/tyre_forces.h"

#include <algorithm>
#include <cmath>

#include "cases/road_events.h"

namespace tubewright {

namespace {

size_t wheel_number(const Vehicle& vehicle, const std::string& name) {
  const auto found = std::find_if(vehicle.wheels.begin(), vehicle.wheels.end(),
                                  [&](const Wheel& w) { return w.name == name; });
  return static_cast<size_t>(found - vehicle.wheels.begin());
}

double wheel_radius(const Wheel& wheel) { return wheel.centre.z() - wheel.contact.z(); }

RoadState road_of(const Case& c) { return {c.brake, c.corner, c.grade, c.bank, c.vertical}; }

/// Steady driving: what the road puts on the wheels while the vehicle brakes, turns, climbs.
TyreForces steady_forces(const Vehicle& vehicle, const RigidVehicle& body, const Case& c, double g,
                         double cross_weight) {
  const Brakes brakes = brakes_of(vehicle);
  const bool can_brake = std::count(brakes.braked.begin(), brakes.braked.end(), true) > 0;
  Eigen::Vector3d b = body_force(road_of(c), g);
  if (!can_brake) b.x() = 0;  // it rolls: nothing holds it back

  std::vector<bool> held_off(vehicle.wheels.size(), false);
  if (!c.lift.empty()) held_off[wheel_number(vehicle, c.lift)] = true;
  const WheelLoads loads = wheel_loads(body, b, held_off, cross_weight);
  const std::vector<double> side = side_forces(body, loads, b);
  const std::vector<double> brake = brake_forces(body, brakes, loads, body.mass * b.x());
  const std::vector<double> friction = friction_needed(loads, brake, side);

  TyreForces forces;
  RoadState still = road_of(c);
  still.brake = still.corner = 0;
  still.vertical = 1;
  forces.gravity = body_force(still, g);
  forces.tips = loads.tips;
  forces.cross_pattern = loads.cross_pattern;
  for (size_t i = 0; i < vehicle.wheels.size(); ++i) {
    TyreForce f;
    f.lifted = loads.lifted[i];
    f.friction_used = friction[i];
    f.at_contact = {0, side[i], loads.normal[i]};
    if (vehicle.wheels[i].brake == WheelBrake::inboard) {
      f.at_centre.x() = -brake[i];
      f.mount_couple = brake[i] * wheel_radius(vehicle.wheels[i]);
    } else {
      f.at_contact.x() = -brake[i];
    }
    forces.wheels.push_back(f);
  }
  return forces;
}

/// All on the wheels that lead towards the kerb, split between the axles by yaw equilibrium.
void add_nudge(const RigidVehicle& body, const KerbNudge& nudge, double g, TyreForces& forces) {
  std::vector<size_t> struck;
  double ground = 0, low = 0, high = 0;
  for (size_t i = 0; i < body.contact.size(); ++i) {
    const double y = body.contact[i].y();
    ground += body.contact[i].z() / static_cast<double>(body.contact.size());
    low = std::min(low, y);
    high = std::max(high, y);
  }
  const double middle = (low + high) / 2;
  for (size_t i = 0; i < body.contact.size(); ++i) {
    const double y = body.contact[i].y() - middle;
    // A single wheel in the middle meets the kerb too.
    if (nudge.left ? y >= -1e-6 : y <= 1e-6) struck.push_back(i);
  }
  const double force = kerb_nudge(body.mass * g, high - low, body.centre.z() - ground, nudge.factor);
  const double towards = nudge.left ? -1 : 1;  // a kerb on the left pushes to the right
  WheelLoads share;
  share.normal.assign(body.contact.size(), 0);
  share.lifted.assign(body.contact.size(), true);
  for (const size_t i : struck) {
    share.normal[i] = 1;
    share.lifted[i] = false;
  }
  const std::vector<double> side =
      side_forces(body, share, {0, -towards * force / body.mass, 0});
  for (const size_t i : struck) forces.wheels[i].at_contact.y() += side[i];
}

}  // namespace

RigidVehicle rigid_vehicle(const Vehicle& vehicle, const MassProperties& mass) {
  RigidVehicle r;
  r.mass = mass.mass;
  r.centre = mass.centre;
  for (const Wheel& w : vehicle.wheels) {
    r.contact.push_back(w.contact);
    r.axle.push_back(w.axle);
  }
  r.front_roll_share = vehicle.roll_stiffness_front_share.value_or(0.5);
  if (vehicle.roll_stiffness_front_share) {
    r.front_roll_centre = vehicle.roll_centre_front;
    r.rear_roll_centre = vehicle.roll_centre_rear;
  }
  return r;
}

Brakes brakes_of(const Vehicle& vehicle) {
  Brakes brakes;
  for (const Wheel& w : vehicle.wheels) brakes.braked.push_back(w.brake != WheelBrake::none);
  brakes.front_share = vehicle.brake_front_share;
  return brakes;
}

std::vector<double> standing_loads(const RigidVehicle& body, double g, double cross_weight) {
  return wheel_loads(body, {0, 0, -g}, {}, cross_weight).normal;
}

TyreForces tyre_forces(const Vehicle& vehicle, const RigidVehicle& body, const Case& c, double g,
                       const std::vector<double>& standing, double cross_weight) {
  TyreForces forces = steady_forces(vehicle, body, c, g, cross_weight);
  for (const WheelFactor& bump : c.bump) {
    const size_t i = wheel_number(vehicle, bump.wheel);
    forces.wheels[i].at_centre.z() += (bump.factor - 1) * standing[i];
  }
  if (c.step) {
    const size_t i = wheel_number(vehicle, c.step->wheel);
    const double radius = wheel_radius(vehicle.wheels[i]);
    const double load = forces.wheels[i].total().z();
    forces.wheels[i].at_centre.x() -= step_force(load, c.step->height, radius, c.step->factor);
  }
  if (c.nudge) add_nudge(body, *c.nudge, g, forces);
  return forces;
}

}  // namespace tubewright
