#include "cases/rides/standard_obstacles.h"

#include <algorithm>
#include <array>

#include "cases/analysis/in_parallel.h"
#include "cases/frame/wording.h"
#include "cases/rides/ride_drive.h"
#include "cases/rides/ride_model.h"
#include "cases/wheels/rolling.h"

namespace tubewright {

namespace {

constexpr double m_per_s = 1 / 3.6;  // of km/h
constexpr double step_speed = 10;    // km/h
constexpr double hump_speed = 15;
constexpr double hump_height = 0.025;  // m
constexpr double hump_length = 0.150;
constexpr double after = 0.5;  // s that are driven on

bool can_ride(const Vehicle& vehicle) {
  return has_tyre_rates(vehicle) &&
         std::all_of(vehicle.wheels.begin(), vehicle.wheels.end(),
                     [](const Wheel& w) { return w.radius.has_value(); });
}

/// The set's step; no higher than half the smallest wheel, which has to climb it too.
double step_height_of(const Vehicle& vehicle) {
  double height = 1;
  for (const Wheel& w : vehicle.wheels) {
    if (w.axle == Axle::front) height = std::min(height, standard_step(vehicle, w));
    height = std::min(height, *w.radius / 2);
  }
  return height;
}

RideEntry ride_over(const Vehicle& vehicle, Ground ground, RideSide side) {
  RideEntry ride;
  ride.name = "standard";
  ride.ground = ground;
  ride.side = side;
  ride.place = vehicle.place;
  if (ground == Ground::step) {
    ride.height = step_height_of(vehicle);
    ride.speed = step_speed * m_per_s;
  } else {
    ride.height = hump_height;
    ride.length = hump_length;
    ride.speed = hump_speed * m_per_s;
  }
  ride.duration = time_until_over(vehicle, ride) + after;
  return ride;
}

/// Of the wheels that meet the obstacle; the greater where one in the middle meets both.
void take_factors(const Vehicle& vehicle, RideSide side, const RideResult& driven,
                  std::vector<double>& factors) {
  for (const Wheel* wheel : wheels_on_side(vehicle, side)) {
    const auto w = static_cast<size_t>(wheel - vehicle.wheels.data());
    factors[w] = std::max(factors[w], driven.wheels[w].factor);
  }
}

}  // namespace

std::optional<DrivenFactors> driven_factors(const Frame& frame, const NumberedFrame& numbered) {
  const Vehicle& vehicle = *frame.vehicle;
  if (!can_ride(vehicle)) return std::nullopt;
  DrivenFactors factors;
  factors.step.assign(vehicle.wheels.size(), 0);
  factors.bump = factors.axle_bump = factors.step;
  factors.step_words = "a step of " + decimals(1e3 * step_height_of(vehicle), 0) + " mm at " +
                       decimals(step_speed, 0) + " km/h on its side";
  factors.bump_words = "a hump of " + decimals(1e3 * hump_height, 0) + " x " +
                       decimals(1e3 * hump_length, 0) + " mm at " + decimals(hump_speed, 0) +
                       " km/h";
  const auto not_driven = [&](const Diagnostics& why) {
    factors.doubts.push_back("the standard obstacles cannot be driven over: " +
                             why.front().message);
    return factors;
  };
  const Result<RideModel> model = ride_model(frame, numbered);
  if (const auto* why = model.error()) return not_driven(*why);

  struct Obstacle {
    Ground ground;
    RideSide side;
    std::vector<double>* factors;
  };
  const std::array<Obstacle, 5> obstacles = {
      {{Ground::step, RideSide::left, &factors.step},
       {Ground::step, RideSide::right, &factors.step},
       {Ground::half_sine, RideSide::left, &factors.bump},
       {Ground::half_sine, RideSide::right, &factors.bump},
       {Ground::half_sine, RideSide::both, &factors.axle_bump}}};
  std::vector<Result<RideResult>> driven(obstacles.size(), Diagnostics{});
  in_parallel(obstacles.size(), [&](size_t i) {
    const RideEntry ride = ride_over(vehicle, obstacles[i].ground, obstacles[i].side);
    driven[i] = drive_ride(vehicle, *model, ride, [](const RideSamples&) {});
  });
  double change = 0;
  for (size_t i = 0; i < obstacles.size(); ++i) {
    if (const auto* why = driven[i].error()) return not_driven(*why);
    take_factors(vehicle, obstacles[i].side, *driven[i], *obstacles[i].factors);
    if (!driven[i]->converged) change = std::max(change, driven[i]->change_by_halving);
  }
  if (change > 0) {
    factors.doubts.push_back("driven over the standard obstacles the peaks change by " +
                             decimals(100 * change, 0) + " % when the time step is halved");
  }
  return factors;
}

}  // namespace tubewright
