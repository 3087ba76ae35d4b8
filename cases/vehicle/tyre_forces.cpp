#include "cases/vehicle/tyre_forces.h"

#include <algorithm>
#include <cmath>

#include "cases/vehicle/road_events.h"

namespace tubewright {

namespace {

size_t wheel_number(const Vehicle& vehicle, const std::string& name) {
  const auto found = std::find_if(vehicle.wheels.begin(), vehicle.wheels.end(),
                                  [&](const Wheel& w) { return w.name == name; });
  return static_cast<size_t>(found - vehicle.wheels.begin());
}

RoadState road_of(const Case& c) { return {c.brake, c.corner, c.grade, c.bank, c.vertical}; }

/// What the road plane puts on the wheels, N a wheel.
struct RoadForces {
  WheelLoads loads;
  std::vector<double> brake, side;
};

/// Wheels are braked by their loads, brakes turn the vehicle, side forces hold against that, and
/// through the roll centres go into the loads: repeated until it stays.
RoadForces road_forces(const RigidVehicle& body, const Brakes& brakes, const Eigen::Vector3d& b,
                       const std::vector<bool>& held_off, double cross_weight) {
  constexpr int most_rounds = 50;
  constexpr double agreement = 1e-12;  // of weight times a metre
  RoadForces f;
  double yaw = 0;
  for (int round = 0; round < most_rounds; ++round) {
    f.loads = wheel_loads(body, b, held_off, cross_weight, yaw);
    f.brake = brake_forces(body, brakes, f.loads, body.mass * b.x());
    const double next = brake_yaw_moment(body, f.brake);
    const bool stays = std::abs(next - yaw) <= agreement * body.mass * b.norm();
    yaw = next;
    if (stays) break;
  }
  f.side = side_forces(body, f.loads, b, yaw);
  return f;
}

/// Steady driving: what the road puts on the wheels while the vehicle brakes, turns, climbs.
TyreForces steady_forces(const Vehicle& vehicle, const RigidVehicle& body, const Case& c, double g,
                         double cross_weight) {
  const Brakes brakes = brakes_of(vehicle);
  const bool can_brake = std::count(brakes.braked.begin(), brakes.braked.end(), true) > 0;
  Eigen::Vector3d b = body_force(road_of(c), g);
  if (!can_brake) b.x() = 0;  // it rolls: nothing holds it back

  std::vector<bool> held_off(vehicle.wheels.size(), false);
  if (!c.lift.empty()) held_off[wheel_number(vehicle, c.lift)] = true;
  const auto [loads, brake, side] = road_forces(body, brakes, b, held_off, cross_weight);
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

/// The normal loads while a kerb pushes with `force` to the left: as in a turn, no more than up to
/// the push that tips the vehicle, when the far wheels have no load left.
std::vector<double> loads_at_kerb(const RigidVehicle& body, double force, double g,
                                  double cross_weight) {
  const auto loads = [&](double share) {
    return wheel_loads(body, {0, -share * force / body.mass, -g}, {}, cross_weight);
  };
  WheelLoads found = loads(1);
  if (!found.tips) return found.normal;
  double stands = 0, tips = 1;
  constexpr int halvings = 40;
  for (int i = 0; i < halvings; ++i) {
    const double middle = (stands + tips) / 2;
    (loads(middle).tips ? tips : stands) = middle;
  }
  return loads(stands).normal;
}

/// All on the wheels that lead towards the kerb, split between the axles by yaw equilibrium, and
/// the weight goes over to that side.
void add_nudge(const RigidVehicle& body, const KerbNudge& nudge, double g, double cross_weight,
               TyreForces& forces) {
  const auto [right, left] = std::minmax_element(
      body.contact.begin(), body.contact.end(),
      [](const Eigen::Vector3d& p, const Eigen::Vector3d& q) { return p.y() < q.y(); });
  const double track = left->y() - right->y(), middle = (left->y() + right->y()) / 2;
  std::vector<size_t> struck;
  for (size_t i = 0; i < body.contact.size(); ++i) {
    const double y = body.contact[i].y() - middle;
    // A single wheel in the middle meets the kerb too.
    if (nudge.left ? y >= -1e-6 : y <= 1e-6) struck.push_back(i);
  }
  const double height = body.centre.z() - road_height(body);
  const double force = kerb_nudge(body.mass * g, track, height, nudge.factor);
  const double towards = nudge.left ? -1 : 1;  // a kerb on the left pushes to the right
  WheelLoads share;
  share.normal.assign(body.contact.size(), 0);
  share.lifted.assign(body.contact.size(), true);
  for (const size_t i : struck) {
    share.normal[i] = 1;
    share.lifted[i] = false;
  }
  const std::vector<double> side = side_forces(body, share, {0, -towards * force / body.mass, 0});
  for (const size_t i : struck) {
    forces.wheels[i].at_contact.y() += side[i];
    forces.wheels[i].by_edge.y() += side[i];
  }
  const std::vector<double> before = standing_loads(body, g, cross_weight);
  const std::vector<double> after = loads_at_kerb(body, towards * force, g, cross_weight);
  for (size_t i = 0; i < after.size(); ++i) {
    TyreForce& wheel = forces.wheels[i];
    wheel.at_contact.z() = std::max(0.0, wheel.at_contact.z() + after[i] - before[i]);
    wheel.lifted = wheel.at_contact.z() == 0;
  }
}

Eigen::Vector3d middle_of(const Frame& frame, const std::vector<std::string>& names) {
  Eigen::Vector3d middle = Eigen::Vector3d::Zero();
  for (const Node& n : frame.nodes) {
    if (std::find(names.begin(), names.end(), n.name) != names.end()) {
      middle += n.at / static_cast<double>(names.size());
    }
  }
  return middle;
}

/// To the wheels, a weight held from above is a vehicle without it: m' = m - J/g, m' c' = m c - J/g
/// p.
TyreForces jacked(const Frame& frame, const RigidVehicle& body, const Case& c,
                  double cross_weight) {
  const Eigen::Vector3d p = middle_of(frame, c.jack->at);
  RigidVehicle rest = body;
  rest.mass = (1 - c.jack->share) * body.mass;
  rest.centre = (body.centre - c.jack->share * p) / (1 - c.jack->share);
  TyreForces forces = steady_forces(*frame.vehicle, rest, c, frame.gravity, cross_weight);
  const double lift = c.jack->share * body.mass * frame.gravity * c.vertical;
  forces.handling.push_back({c.jack->at, p, {0, 0, lift}});
  return forces;
}

/// The lashings take what presses forward and sideways, at their own height; the wheels the weight
/// and what tips about the lashings.
TyreForces tied_down(const Frame& frame, const RigidVehicle& body, const Case& c,
                     double cross_weight) {
  const double g = frame.gravity;
  const Eigen::Vector3d b(c.tie_down->forward * g, c.tie_down->left * g, -g * c.vertical);
  const double height = middle_of(frame, c.tie_down->at).z();
  RigidVehicle above = body;
  above.centre.z() = road_height(body) + body.centre.z() - height;
  above.front_roll_centre = above.rear_roll_centre = 0;
  const WheelLoads loads = wheel_loads(above, b, {}, cross_weight);
  TyreForces forces;
  forces.gravity = {0, 0, -g};
  forces.tips = loads.tips;
  forces.cross_pattern = loads.cross_pattern;
  for (size_t i = 0; i < loads.normal.size(); ++i) {
    forces.wheels.emplace_back();
    forces.wheels.back().at_contact.z() = loads.normal[i];
    forces.wheels.back().lifted = loads.lifted[i];
  }
  const Eigen::Vector3d at(body.centre.x(), body.centre.y(), height);
  forces.handling.push_back({c.tie_down->at, at, -body.mass * Eigen::Vector3d(b.x(), b.y(), 0)});
  return forces;
}

/// No wheel touches the ground.
TyreForces rolled_over(const Frame& frame, const RollOver& roll) {
  TyreForces forces;
  forces.gravity = {0, 0, -frame.gravity};
  forces.wheels.resize(frame.vehicle->wheels.size());
  for (TyreForce& wheel : forces.wheels) wheel.lifted = true;
  forces.handling.push_back({roll.at, middle_of(frame, roll.at), roll_bar_force(roll)});
  return forces;
}

/// An instant of a ride: an edge, or the slope of the ground, pushes along the road.
TyreForces ridden(const Frame& frame, const Case& c) {
  TyreForces forces;
  forces.gravity = {0, 0, -frame.gravity};
  forces.wheels.resize(frame.vehicle->wheels.size());
  for (const WheelForce& f : c.wheel_forces) {
    TyreForce& wheel = forces.wheels[wheel_number(*frame.vehicle, f.wheel)];
    wheel.at_contact.z() = f.up;
    wheel.at_centre.x() = f.along;
    wheel.by_edge.x() = f.along;
    wheel.lifted = f.up <= 0;
  }
  return forces;
}

}  // namespace

double axle_friction(const Vehicle& vehicle, Axle axle, const std::vector<TyreForce>& wheels) {
  Eigen::Vector3d sum = Eigen::Vector3d::Zero();
  for (size_t i = 0; i < wheels.size(); ++i) {
    if (vehicle.wheels[i].axle == axle) sum += wheels[i].total() - wheels[i].by_edge;
  }
  return sum.z() > 0 ? sum.head<2>().norm() / sum.z() : 0;
}

Eigen::Vector3d roll_bar_force(const RollOver& roll) {
  return {-roll.force * std::sin(roll.angle), roll.side, -roll.force * std::cos(roll.angle)};
}

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

TyreForces tyre_forces(const Frame& frame, const RigidVehicle& body, const Case& c,
                       const std::vector<double>& standing, double cross_weight) {
  const Vehicle& vehicle = *frame.vehicle;
  const double g = frame.gravity, weight = body.mass * g;
  if (!c.wheel_forces.empty()) return ridden(frame, c);
  if (c.jack) return jacked(frame, body, c, cross_weight);
  if (c.roll_over) return rolled_over(frame, *c.roll_over);
  if (c.tie_down) return tied_down(frame, body, c, cross_weight);
  TyreForces forces = steady_forces(vehicle, body, c, g, cross_weight);
  if (c.tow) {
    const Eigen::Vector3d pull(c.tow->pull * weight, 0, 0);
    forces.handling.push_back({c.tow->at, middle_of(frame, c.tow->at), pull});
  }
  for (const WheelFactor& bump : c.bump) {
    const size_t i = wheel_number(vehicle, bump.wheel);
    forces.wheels[i].at_centre.z() += (bump.factor - 1) * standing[i];
  }
  if (c.step) {
    const size_t i = wheel_number(vehicle, c.step->wheel);
    const double radius = wheel_radius(vehicle.wheels[i]);
    TyreForce& wheel = forces.wheels[i];
    const double push = step_force(wheel.total().z(), c.step->height, radius, c.step->factor);
    wheel.at_centre.x() -= push;
    wheel.by_edge.x() -= push;
  }
  if (c.nudge) add_nudge(body, *c.nudge, g, cross_weight, forces);
  return forces;
}

}  // namespace tubewright
