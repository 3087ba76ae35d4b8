#include "cases/vehicle/braking.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace tubewright {

namespace {

constexpr double infinite = std::numeric_limits<double>::infinity();

/// The vehicle from the side.
struct SideView {
  double a = 0;  ///< centre of mass behind the front axle, m
  double b = 0;  ///< and ahead of the rear axle
  double h = 0;  ///< above the road
  double L = 0;  ///< wheelbase
};

SideView side_view(const RigidVehicle& v) {
  SideView s;
  s.a = axle_middle(v, Axle::front).x() - v.centre.x();
  s.b = v.centre.x() - axle_middle(v, Axle::rear).x();
  s.h = v.centre.z() - road_height(v);
  s.L = s.a + s.b;
  return s;
}

/// The part of the axle's wheels that is braked: straight ahead they are taken as loaded alike.
double braked_part(const RigidVehicle& v, const Brakes& brakes, Axle axle) {
  double braked = 0, all = 0;
  for (size_t i = 0; i < v.axle.size(); ++i) {
    if (v.axle[i] != axle) continue;
    all += 1;
    braked += brakes.braked[i] ? 1 : 0;
  }
  return all > 0 ? braked / all : 0;
}

/// The greatest F with p F <= q; without bound if p is not positive: grip grows faster than it is
/// used.
double bound(double p, double q) { return p > 0 ? q / p : infinite; }

struct Bound {
  double force;  // N per kg of vehicle
  Deceleration::Limit limit;
};

/// With N_f = (w b + F h)/L, N_r = (w a - F h)/L, w = g cos(th), and the parts k_f, k_r of the
/// axles' wheels that are braked. Shares s_f, s_r of F: s_f F <= mu k_f N_f, s_r F <= mu k_r N_r.
/// Shares in proportion to load: F <= mu (k_f N_f + k_r N_r), both axles at once.
std::vector<Bound> grip_bounds(const SideView& v, const Brakes& brakes, double kf, double kr,
                               double mu, double w) {
  using enum Deceleration::Limit;
  if (!brakes.front_share) {
    return {{bound(v.L - mu * (kf - kr) * v.h, mu * w * (kf * v.b + kr * v.a)),
             kf > 0 ? front_grip : rear_grip}};
  }
  const double front_share = kr == 0 ? 1 : kf == 0 ? 0 : *brakes.front_share;
  const double rear_share = 1 - front_share;
  std::vector<Bound> bounds;
  if (front_share > 0) {
    bounds.push_back({bound(front_share * v.L - mu * kf * v.h, mu * kf * w * v.b), front_grip});
  }
  if (rear_share > 0) {
    bounds.push_back({bound(rear_share * v.L + mu * kr * v.h, mu * kr * w * v.a), rear_grip});
  }
  return bounds;
}

/// The contact of the axle that is furthest to one side (+1 left, -1 right).
Eigen::Vector3d outer_contact(const RigidVehicle& v, Axle axle, double side) {
  Eigen::Vector3d outer = v.centre;
  double furthest = -infinite;
  for (size_t i = 0; i < v.contact.size(); ++i) {
    if (v.axle[i] != axle || side * v.contact[i].y() <= furthest) continue;
    outer = v.contact[i];
    furthest = side * outer.y();
  }
  return outer;
}

/// Distance in y from the centre of mass to the line through the outer contacts of one side.
double to_outer_line(const RigidVehicle& v, double side) {
  const Eigen::Vector3d front = outer_contact(v, Axle::front, side);
  const Eigen::Vector3d rear = outer_contact(v, Axle::rear, side);
  const double length = front.x() - rear.x();
  const double part = length != 0 ? (v.centre.x() - rear.x()) / length : 0.5;
  return side * (rear.y() + part * (front.y() - rear.y()) - v.centre.y());
}

}  // namespace

std::vector<double> brake_forces(const RigidVehicle& vehicle, const Brakes& brakes,
                                 const WheelLoads& loads, double total) {
  double front = 0, rear = 0;
  for (size_t i = 0; i < loads.normal.size(); ++i) {
    if (brakes.braked[i]) (vehicle.axle[i] == Axle::front ? front : rear) += loads.normal[i];
  }
  std::vector<double> force(loads.normal.size(), 0);
  if (!(front + rear > 0)) return force;
  // Each from its own load: a rear axle about to lift would lose its digits in 1 - front share.
  double front_part = total * brakes.front_share.value_or(front / (front + rear));
  double rear_part = total * (brakes.front_share ? 1 - *brakes.front_share : rear / (front + rear));
  if (!(front > 0)) rear_part = total;
  if (!(rear > 0)) front_part = total;
  for (size_t i = 0; i < force.size(); ++i) {
    const bool is_front = vehicle.axle[i] == Axle::front;
    const double axle_load = is_front ? front : rear;
    if (!brakes.braked[i] || !(axle_load > 0)) continue;
    force[i] = (is_front ? front_part : rear_part) * (loads.normal[i] / axle_load);
  }
  return force;
}

std::vector<double> friction_needed(const WheelLoads& loads, const std::vector<double>& brake,
                                    const std::vector<double>& side) {
  std::vector<double> friction;
  for (size_t i = 0; i < loads.normal.size(); ++i) {
    const double N = loads.normal[i];
    friction.push_back(N > 0 ? std::hypot(brake[i], side[i]) / N : 0);
  }
  return friction;
}

// Along the slope d = F/m - g sin(th).
Deceleration reachable_deceleration(const RigidVehicle& vehicle, const Brakes& brakes, double mu,
                                    double slope, double g) {
  const SideView v = side_view(vehicle);
  const double cosine = 1 / std::sqrt(1 + slope * slope);
  const double downhill = g * slope * cosine;
  const double w = g * cosine;
  const double kf = braked_part(vehicle, brakes, Axle::front);
  const double kr = braked_part(vehicle, brakes, Axle::rear);
  if (kf == 0 && kr == 0) return {0 - downhill, Deceleration::Limit::none};

  std::vector<Bound> bounds = grip_bounds(v, brakes, kf, kr, mu, w);
  bounds.push_back({bound(v.h, w * v.a), Deceleration::Limit::nose_over});  // N_r = 0
  const Bound& least =
      *std::min_element(bounds.begin(), bounds.end(),
                        [](const Bound& l, const Bound& r) { return l.force < r.force; });
  return {std::max(0.0, least.force) - downhill, least.limit};
}

TippingLimits tipping_limits(const RigidVehicle& vehicle, double g) {
  const SideView v = side_view(vehicle);
  const auto limit = [&](double arm) { return bound(v.h, g * arm); };  // m a h = m g arm
  return {limit(v.a), limit(v.b), limit(to_outer_line(vehicle, -1)),
          limit(to_outer_line(vehicle, 1))};
}

}  // namespace tubewright
