// A road of one or several tracks, held a window at a time.
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "solver/road/profile.h"
#include "solver/road/random_road.h"

namespace tubewright {

/// Tracks given as profiles, or those of a random road as polylines of evenly spaced vertices, of
/// which only a window is kept: its memory does not grow with the length of the ride.
class Road {
 public:
  /// Requires: is_ground_profile() for each.
  explicit Road(std::vector<GroundProfile> tracks);
  /// Requires: spacing > 0, m.
  explicit Road(RandomRoad road, double spacing = 0.01);

  int tracks() const { return static_cast<int>(window_.size()); }

  /// Makes the window hold the ground of from .. to and a vertex on either side. What lies before
  /// `from` may be dropped: a later call may not reach back behind it. Requires: from <= to, both
  /// less than 1e9 m away.
  void cover(double from, double to);

  /// The ground between `from` and `to` of the last cover().
  const GroundProfile& window(int track) const { return window_[static_cast<size_t>(track)]; }

 private:
  void drop(double from);

  std::vector<GroundProfile> window_;
  std::optional<RoadSampler> sampler_;
  Eigen::MatrixXd samples_;
  std::int64_t next_ = 0;  ///< block to be sampled
};

}  // namespace tubewright
