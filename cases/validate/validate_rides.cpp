// Rides: what they ask of the vehicle, and what no wheel can follow.
#include <algorithm>
#include <cmath>

#include "cases/frame/sensible_ranges.h"
#include "cases/validate/ride_errors.h"
#include "cases/validate/validate_parts.h"
#include "cases/wheels/rolling.h"

namespace tubewright {
namespace {

constexpr Range ride_speed{1e-3, 100, "a speed above 0 and at most 360 km/h"};
constexpr Range ride_time{1e-3, 1e5, "a time above 0 and at most 100 000 s"};
constexpr Range ride_length{1e-4, 1e3, "a length above 0 (at least 0.1 mm) and at most 1 km"};
constexpr Range edge_height{-1, 1, "at most 1 m"};
constexpr Range road_roughness{1e-12, 1, "a value above 0 and at most 1 m3"};
constexpr Range tyre_damper{0, 1e9, "at most 1e6 N s/mm"};

/// The highest edge up that the ride meets.
double highest_edge(const RideEntry& ride) {
  if (ride.ground == Ground::step) return ride.height;
  if (ride.ground == Ground::pothole) return ride.height;
  double highest = 0;
  for (size_t i = 1; i < ride.profile.size(); ++i) {
    const ProfileRow &a = ride.profile[i - 1], &b = ride.profile[i];
    if (b.x > a.x) continue;
    highest = std::max({highest, b.left - a.left, b.right - a.right});
  }
  return highest;
}

/// What every wheel needs to ride at all, told by the first ride that asks for it.
void check_wheels(const Frame& frame, Diagnostics& diagnostics) {
  if (frame.rides.empty() || !frame.vehicle) return;
  const auto rolls =
      std::find_if(frame.rides.begin(), frame.rides.end(),
                   [](const RideEntry& ride) { return ride.follower == Follower::circle; });
  for (const Wheel& w : frame.vehicle->wheels) {
    if (!w.tyre_rate && !frame.vehicle->tyre_rate) {
      add_error(diagnostics, w.place, wheel_without_tyre(w.name, frame.rides.front().name));
    }
    if (!w.radius && rolls != frame.rides.end()) {
      add_error(diagnostics, w.place, wheel_without_radius(w.name, rolls->name));
    }
  }
}

/// An edge that the smallest wheel cannot climb.
void check_edge(const Frame& frame, const RideEntry& ride, Diagnostics& diagnostics) {
  if (ride.follower != Follower::circle) return;
  const Wheel* smallest = nullptr;
  for (const Wheel& w : frame.vehicle->wheels) {
    if (w.radius && (smallest == nullptr || *w.radius < *smallest->radius)) smallest = &w;
  }
  const double edge = highest_edge(ride);
  if (smallest == nullptr || edge < *smallest->radius) return;
  add_error(diagnostics, ride.place,
            unclimbable(ride.name, edge, smallest->name, *smallest->radius));
}

void check_ride(const Frame& frame, const RideEntry& ride, Diagnostics& diagnostics) {
  const std::string subject = "ride " + quoted(ride.name);
  const size_t before = diagnostics.size();
  const auto check = [&](double value, const Range& range, const char* key) {
    check_range(value, range, subject, key, ride.place, diagnostics);
  };
  check(ride.speed, ride_speed, "speed");
  if (ride.duration) check(*ride.duration, ride_time, "duration");
  check(ride.height, edge_height, "height");
  if (ride.length != 0) check(ride.length, ride_length, "length");
  if (ride.ground == Ground::random_road) check(ride.roughness, road_roughness, "Gd");
  if (ride.follower == Follower::patch) check(ride.patch, sensible::size, "patch");
  check(ride.repeat, sensible::positive_factor, "repeat");
  if (diagnostics.size() > before) return;
  if (!frame.vehicle) {
    add_error(diagnostics, ride.place, ride_without_vehicle(ride.name));
    return;
  }
  check_edge(frame, ride, diagnostics);
  if (ride.side != RideSide::both && wheels_on_side(*frame.vehicle, ride.side).empty()) {
    add_error(diagnostics, ride.place,
              no_wheel_on_side(ride.name, ride.side == RideSide::left ? "left" : "right"));
  }
  if (ride.ground == Ground::random_road || !ride.duration) return;
  const double needed = time_until_over(*frame.vehicle, ride);
  if (*ride.duration < needed) {
    add_error(diagnostics, ride.place, ride_too_short(ride.name, *ride.duration, needed));
  }
}

}  // namespace

void validate_rides(const Frame& frame, Diagnostics& diagnostics) {
  if (frame.vehicle) {
    const auto check = [&](const std::optional<double>& value, const Range& range,
                           const std::string& subject, const char* key,
                           const SourceLocation& place) {
      if (value) check_range(*value, range, subject, key, place, diagnostics);
    };
    const Vehicle& v = *frame.vehicle;
    check(v.tyre_damping, tyre_damper, "the vehicle", "tyre_damping", v.place);
    for (const Wheel& w : v.wheels) {
      const std::string subject = "wheel " + quoted(w.name);
      check(w.radius, sensible::size, subject, "radius", w.place);
      check(w.tyre_rate, sensible::stiffness, subject, "tyre_rate", w.place);
      check(w.tyre_damping, tyre_damper, subject, "tyre_damping", w.place);
    }
  }
  for (const Member& m : frame.members) {
    check_range(m.damping, tyre_damper, "member " + quoted(m.name), "damping", m.place,
                diagnostics);
  }
  check_wheels(frame, diagnostics);
  for (const RideEntry& ride : frame.rides) check_ride(frame, ride, diagnostics);
}

}  // namespace tubewright
