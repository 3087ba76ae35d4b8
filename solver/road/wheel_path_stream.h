// The paths of all wheels of a vehicle that goes along a road at constant speed.
#pragma once

#include <Eigen/Core>
#include <cstdint>
#include <vector>

#include "solver/road/road.h"
#include "solver/road/wheel_path.h"

namespace tubewright {

struct RoadWheel {
  int track = 0;  ///< of the road
  double x = 0;   ///< of its centre on the road at time 0, m
  WheelContact contact;
};

/// Time of step k is k * time_step.
class WheelPathStream {
 public:
  /// Requires: every wheel's track is one of the road, speed >= 0 (m/s), time_step > 0 (s).
  WheelPathStream(Road road, std::vector<RoadWheel> wheels, double speed, double time_step);

  /// Heights (m) and slopes of the wheel centres' paths (wheel_path.h), wheels x steps, at the
  /// steps from `first` on. Requires: `first` does not decrease from call to call.
  void operator()(std::int64_t first, Eigen::Ref<Eigen::MatrixXd> height,
                  Eigen::Ref<Eigen::MatrixXd> slope);

 private:
  Road road_;
  std::vector<RoadWheel> wheels_;
  double speed_, time_step_;
  std::vector<double> x_, height_, slope_;
};

}  // namespace tubewright
