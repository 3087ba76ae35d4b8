#include "cases/vehicle/wheel_lift.h"

#include <algorithm>
#include <cmath>

namespace tubewright {

double lifting_couple(double front_load, double front_track, double rear_load, double rear_track) {
  return std::min(front_load * front_track, rear_load * rear_track) / 2;
}

double lifting_bump(double couple, double front_track, double frame_stiffness,
                    double front_roll_stiffness, double rear_roll_stiffness) {
  const double twist =
      couple * (1 / frame_stiffness + 1 / front_roll_stiffness + 1 / rear_roll_stiffness);
  return front_track * std::tan(twist);
}

double roll_stiffness(double rate, double track) { return rate * track * track / 2; }

}  // namespace tubewright
