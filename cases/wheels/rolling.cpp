#include "cases/wheels/rolling.h"

#include <algorithm>
#include <cmath>

namespace tubewright {

std::vector<const Wheel*> wheels_on_side(const Vehicle& vehicle, RideSide side) {
  constexpr double middle = 0.01;
  std::vector<const Wheel*> wheels;
  for (const Wheel& w : vehicle.wheels) {
    const double y = w.contact.y();
    const bool there =
        side == RideSide::both || std::abs(y) < middle || (side == RideSide::left ? y > 0 : y < 0);
    if (there) wheels.push_back(&w);
  }
  return wheels;
}

double wheelbase(const Vehicle& vehicle) {
  double front = -INFINITY, rear = INFINITY;
  for (const Wheel& w : vehicle.wheels) {
    front = std::max(front, w.contact.x());
    rear = std::min(rear, w.contact.x());
  }
  return vehicle.wheels.empty() ? 0 : front - rear;
}

double obstacle_length(const RideEntry& ride) {
  if (ride.ground == Ground::profile && !ride.profile.empty()) {
    return ride.profile.back().x - ride.profile.front().x;
  }
  return ride.length;
}

double time_until_over(const Vehicle& vehicle, const RideEntry& ride) {
  double reach = 0;
  for (const Wheel& w : vehicle.wheels) reach = std::max(reach, w.radius.value_or(0));
  return (run_up + obstacle_length(ride) + wheelbase(vehicle) + reach) / ride.speed;
}

double duration_of(const Vehicle& vehicle, const RideEntry& ride) {
  constexpr double on_random_road = 60, to_calm_down = 2;
  if (ride.duration) return *ride.duration;
  if (ride.ground == Ground::random_road) return on_random_road;
  return time_until_over(vehicle, ride) + to_calm_down;
}

bool has_tyre_rates(const Vehicle& vehicle) {
  return vehicle.tyre_rate || std::all_of(vehicle.wheels.begin(), vehicle.wheels.end(),
                                          [](const Wheel& w) { return w.tyre_rate.has_value(); });
}

double tyre_rate(const Vehicle& vehicle, const Wheel& wheel) {
  return wheel.tyre_rate ? *wheel.tyre_rate : vehicle.tyre_rate.value();
}

double tyre_damping(const Vehicle& vehicle, const Wheel& wheel, double carried) {
  if (wheel.tyre_damping) return *wheel.tyre_damping;
  if (vehicle.tyre_damping) return *vehicle.tyre_damping;
  return 2 * vehicle.tyre_damping_ratio * std::sqrt(tyre_rate(vehicle, wheel) * carried);
}

}  // namespace tubewright
