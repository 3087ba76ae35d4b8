#include "cases/rides/ride_road.h"

#include <algorithm>
#include <cmath>

#include "cases/wheels/rolling.h"
#include "solver/road/obstacles.h"
#include "solver/road/random_road.h"

namespace tubewright {

namespace {

constexpr double same_track = 1e-3;  // m

GroundProfile obstacle_of(const RideEntry& ride) {
  switch (ride.ground) {
    case Ground::step:
      return edge(ride.height);
    case Ground::drop:
      return edge(-ride.height);
    case Ground::half_sine:
      return half_sine(ride.height, ride.length);
    case Ground::versed_sine:
      return versed_sine(ride.height, ride.length);
    case Ground::pothole:
      return pothole(ride.height, ride.length);
    case Ground::random_road:
    case Ground::profile:
      break;
  }
  return {};
}

/// `share`: 1 the left track, 0 the right one.
GroundProfile measured(const RideEntry& ride, double share) {
  GroundProfile profile;
  for (const ProfileRow& row : ride.profile) {
    profile.x.push_back(row.x - ride.profile.front().x);
    profile.z.push_back(share * row.left + (1 - share) * row.right);
  }
  return profile;
}

/// Where each wheel's ground is among the tracks of `y`, which grows by those that are new.
size_t track_at(std::vector<double>& tracks, double y) {
  for (size_t t = 0; t < tracks.size(); ++t) {
    if (std::abs(tracks[t] - y) < same_track) return t;
  }
  tracks.push_back(y);
  return tracks.size() - 1;
}

double share_of_left(const Vehicle& vehicle, double y) {
  double left = -INFINITY, right = INFINITY;
  for (const Wheel& w : vehicle.wheels) {
    left = std::max(left, w.contact.y());
    right = std::min(right, w.contact.y());
  }
  return left - right < same_track ? 0.5 : (y - right) / (left - right);
}

WheelContact contact_of(const RideEntry& ride, const Wheel& wheel) {
  switch (ride.follower) {
    case Follower::circle:
      return {WheelContact::Kind::circle, wheel.radius.value()};
    case Follower::patch:
      return {WheelContact::Kind::patch, ride.patch};
    case Follower::point:
      break;
  }
  return {};
}

}  // namespace

WheelPathStream ride_paths(const Vehicle& vehicle, const RideEntry& ride, double time_step) {
  double front = -INFINITY;
  for (const Wheel& w : vehicle.wheels) front = std::max(front, w.contact.x());
  std::vector<double> tracks;
  std::vector<RoadWheel> wheels;
  for (const Wheel& w : vehicle.wheels) {
    const size_t track = track_at(tracks, w.contact.y());
    wheels.push_back(
        {static_cast<int>(track), w.contact.x() - front - run_up, contact_of(ride, w)});
  }
  if (ride.ground == Ground::random_road) {
    RoadSpectrum spectrum;
    spectrum.level = ride.roughness;
    RandomRoadOptions options;
    options.tracks = tracks;
    options.seed = ride.seed;
    return {Road(random_road(spectrum, options)), std::move(wheels), ride.speed, time_step};
  }
  const std::vector<const Wheel*> meeting = wheels_on_side(vehicle, ride.side);
  std::vector<GroundProfile> ground;
  for (const double y : tracks) {
    const bool meets = std::any_of(meeting.begin(), meeting.end(), [&](const Wheel* w) {
      return std::abs(w->contact.y() - y) < same_track;
    });
    if (ride.ground == Ground::profile) {
      ground.push_back(measured(ride, share_of_left(vehicle, y)));
    } else {
      ground.push_back(meets ? obstacle_of(ride) : GroundProfile{});
    }
  }
  return {Road(std::move(ground)), std::move(wheels), ride.speed, time_step};
}

}  // namespace tubewright
