// Wheel loads of a rigid vehicle on a plane road.
//
// Axes ISO 8855 fixed to the vehicle: x forward, y left, z up, the road being a plane z = constant.
// The vehicle is loaded by one specific body force b = gravity less acceleration (m/s2) at its
// centre of mass: standing b = (0, 0, -g), braking at a: b_x = +a, a left turn at a: b_y = -a.
//
// Three wheels are determinate. With four, equilibrium leaves one free amount, the cross-weight; it
// is settled by how the axles share the roll moment. A wheel that would have to pull down has
// lifted: it is dropped, the rest solved again.
#pragma once

#include <Eigen/Core>
#include <optional>
#include <vector>

#include "cases/frame/frame.h"

namespace tubewright {

struct RigidVehicle {
  double mass = 0;                                     ///< kg
  Eigen::Vector3d centre = Eigen::Vector3d::Zero();    ///< of mass, m
  std::vector<Eigen::Vector3d> contact;                ///< of each wheel, m
  std::vector<Axle> axle;                              ///< of each wheel; one or two wheels an axle
  double front_roll_share = 0.5;                       ///< of the elastic roll moment, 0..1
  double front_roll_centre = 0, rear_roll_centre = 0;  ///< above the road, m
};

/// Mean of the axle's contacts in the road plane, m; below the centre of mass if it has none.
Eigen::Vector2d axle_middle(const RigidVehicle& vehicle, Axle axle);

/// Mean height of the contacts, m.
double road_height(const RigidVehicle& vehicle);

struct WheelLoads {
  std::vector<double> normal;  ///< N a wheel, never negative
  std::vector<bool> lifted;    ///< has left the ground, or was held off it
  bool tips = false;  ///< what stays on the ground cannot balance the vehicle: it turns over
  /// With four wheels on the ground: what one unit of cross-weight adds to each wheel; equilibrium
  /// does not change. +1 on the left front wheel and its diagonal, scaled. Else empty.
  std::vector<double> cross_pattern;
};

/// `held_off`: wheels that are off the ground from the start (empty: none). `cross_weight` is added
/// times cross_pattern before lifting is looked for (see above). `brake_yaw`: see side_forces().
///
/// Four wheels: with N_f, N_r the axles' loads and F_yf, F_yr their side forces, an axle's roll
/// moment is -F_y h_rc (through the links) plus its share of the rest (through the springs). The
/// axles' side forces by yaw equilibrium, without brakes F_yf : F_yr = b : a.
/// Source: Barton & Fieldhouse, Automotive Chassis Engineering (2018), p. 174, the same split.
WheelLoads wheel_loads(const RigidVehicle& vehicle, const Eigen::Vector3d& body_force,
                       const std::vector<bool>& held_off = {}, double cross_weight = 0,
                       double brake_yaw = 0);

/// Yaw moment of brake forces (N a wheel, positive backward) about the centre of mass, N m about
/// +z: sum B (y - y of the centre). In a turn the outer wheels are braked harder.
double brake_yaw_moment(const RigidVehicle& vehicle, const std::vector<double>& brake);

/// Side force of each wheel, N, + to the left: the axles' shares by yaw equilibrium, sum x F_y +
/// `brake_yaw` = 0 about the centre of mass, split within the axle in proportion to the wheels'
/// loads (common practice, no source). Sums to -m b_y as long as some wheel of each axle is on the
/// ground; what a lifted axle cannot give the other one gives, and the vehicle yaws.
std::vector<double> side_forces(const RigidVehicle& vehicle, const WheelLoads& loads,
                                const Eigen::Vector3d& body_force, double brake_yaw = 0);

}  // namespace tubewright
