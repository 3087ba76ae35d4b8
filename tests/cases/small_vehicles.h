// Whole vehicles in a few lines, for tests.
#pragma once

#include <random>
#include <string>

#include "cases/frame/frame.h"
#include "tests/cases/small_frames.h"

namespace tubewright::testing {

inline Wheel& add_wheel(Frame& f, const std::string& name, const Eigen::Vector3d& contact,
                        double radius, std::vector<std::string> carrier, Axle axle) {
  Wheel w;
  w.name = name;
  w.contact = contact;
  w.centre = contact + radius * Eigen::Vector3d::UnitZ();
  w.carrier = std::move(carrier);
  w.hold = WheelHold::spread;
  w.brake = WheelBrake::outboard;
  w.axle = axle;
  f.vehicle->wheels.push_back(w);
  return f.vehicle->wheels.back();
}

inline void add_mass(Frame& f, const std::string& name, double mass, const Eigen::Vector3d& at,
                     std::vector<std::string> on) {
  CarriedMass m;
  m.name = name;
  m.mass = mass;
  m.at = at;
  m.on = std::move(on);
  f.masses.push_back(m);
}

/// An unsprung box on four wheels: 1.2 m by 0.6 m by 0.3 m, braced, a driver of 70 kg on top. Nodes
/// are named by end (f, r), side (l, r) and height (0, 1), such as `fl0`.
inline Frame box_vehicle() {
  Frame f = empty_frame();
  for (const auto& [end, x] : {std::pair{"f", 0.0}, {"r", -1.2}}) {
    for (const auto& [side, y] : {std::pair{"l", 0.3}, {"r", -0.3}}) {
      for (const auto& [level, z] : {std::pair{"0", 0.2}, {"1", 0.5}}) {
        add_node(f, std::string(end) + side + level, x, y, z);
      }
    }
  }
  const char* tubes[][2] = {{"fl0", "fl1"}, {"fr0", "fr1"}, {"rl0", "rl1"}, {"rr0", "rr1"},
                            {"fl0", "fr0"}, {"fl1", "fr1"}, {"rl0", "rr0"}, {"rl1", "rr1"},
                            {"fl0", "rl0"}, {"fr0", "rr0"}, {"fl1", "rl1"}, {"fr1", "rr1"},
                            {"fl0", "rr0"}, {"fl0", "rl1"}, {"fr0", "rr1"}, {"fl0", "fr1"},
                            {"rl0", "rr1"}};
  for (const auto& [from, to] : tubes) add_member(f, std::string(from) + "_" + to, from, to);
  add_mass(f, "driver", 70, {-0.7, 0, 0.6}, {"fl1", "fr1", "rl1", "rr1"});
  f.vehicle = Vehicle{};
  f.vehicle->roll_stiffness_front_share = 0.5;
  f.vehicle->place = {51, 1};
  add_wheel(f, "front_left", {0, 0.4, 0}, 0.2, {"fl0", "fl1", "fr0"}, Axle::front);
  add_wheel(f, "front_right", {0, -0.4, 0}, 0.2, {"fr0", "fr1", "fl0"}, Axle::front);
  add_wheel(f, "rear_left", {-1.2, 0.4, 0}, 0.2, {"rl0", "rl1", "rr0"}, Axle::rear);
  add_wheel(f, "rear_right", {-1.2, -0.4, 0}, 0.2, {"rr0", "rr1", "rl0"}, Axle::rear);
  return f;
}

inline Case& add_drive(Frame& f, const std::string& name) {
  return add_case(f, name, CaseKind::vehicle);
}

}  // namespace tubewright::testing
