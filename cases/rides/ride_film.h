// A ride around one instant in pictures: how the whole vehicle moves, and the forces in its tubes.
//
// It is driven once more, up to the last picture; only what the pictures show is kept.
#pragma once

#include <Eigen/Core>
#include <cstddef>
#include <vector>

#include "cases/frame/frame.h"
#include "cases/rides/ride_model.h"
#include "solver/elements/beam_field.h"

namespace tubewright {

/// A cross-section along a member.
struct FilmStation {
  double at = 0;                 ///< fraction of the length from `from`
  Eigen::Vector3d point;         ///< on the undeformed axis, global, m
  Eigen::Vector3d displacement;  ///< from where it is at rest on level ground, global, m
  Eigen::Vector3d rotation;      ///< likewise, rad
  SectionForces forces;          ///< all of them, those at rest included
};

struct FilmWheel {
  Eigen::Vector3d displacement;  ///< of its centre, as of a station
  double force = 0;              ///< on the tyre, N
  double squeezed = 0;           ///< deflection of the tyre, m; negative: off the ground
  double road = 0;               ///< height of the wheel's path, m
};

struct FilmImage {
  double time = 0;                                ///< s
  std::vector<std::vector<FilmStation>> members;  ///< in the order of Frame::members
  std::vector<FilmWheel> wheels;                  ///< in the order of Vehicle::wheels
};

struct RideFilm {
  std::vector<FilmImage> images;
};

/// Images are 10 ms apart, a tenth of the period of a wheel that hops at 10 Hz: 15 before the
/// instant and 25 after it, those that lie within the ride.
constexpr double image_interval = 0.01;  // s
constexpr int images_before = 15, images_after = 25;

struct FilmTimes {
  double time_step = 0;  ///< of the ride, s
  double duration = 0;   ///< of the ride, s
  double around = 0;     ///< the instant, s
};

/// What the vehicle drifts along the road, across it and about the upright is left out: its speed
/// is constant. Requires: the ride can be driven.
RideFilm ride_film(const Frame& frame, const NumberedFrame& numbered, const RideModel& model,
                   const RideEntry& ride, const FilmTimes& times);

}  // namespace tubewright
