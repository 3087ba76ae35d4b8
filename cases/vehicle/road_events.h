// Single events on the road as equivalent forces.
#pragma once

#include <Eigen/Core>

namespace tubewright {

/// Specific body force (gravity less acceleration, m/s2) in the road plane's axes.
/// `brake` and `corner`: deceleration along the road and acceleration to the left, horizontal in a
/// banked turn, multiples of g. `grade`: tangent of the slope, + nose down. `bank`: angle of the
/// road across the vehicle, rad, + leaning into a left turn (left side lower). `vertical`: factor
/// on the part of gravity normal to the road, for a dip, a crest or a dynamic factor.
struct RoadState {
  double brake = 0;
  double corner = 0;
  double grade = 0;
  double bank = 0;
  double vertical = 1;
};
Eigen::Vector3d body_force(const RoadState& road, double g);

/// Load factor normal to the road at the bottom of a dip of radius R: 1 + v^2/(g R).
double dip_factor(double speed, double radius, double g);

/// Backward force on a wheel of radius R that meets a step of height H: K P / tan(th), where
/// sin(th) = 1 - H/R, P the wheel's load; K = 4.5 after Garrett (1953), in Brown, Robertson &
/// Serpento, Motor Vehicle Structures (2002), p. 22. Requires 0 < H < R. Acts at the wheel centre.
double step_force(double load, double height, double radius, double factor);

/// Side force of sliding against a kerb, all on the wheels of one side: K W B/(2h), B the track, h
/// the height of the centre of mass; K = 1.75 after Garrett (1953), others 1.4; same book, p. 24.
double kerb_nudge(double weight, double track, double height, double factor);

/// Factor on the static load when a mass on a spring is dropped: 1 + sqrt(1 + 2 s k/(m g)).
double drop_factor(double drop, double rate, double mass, double g);

}  // namespace tubewright
