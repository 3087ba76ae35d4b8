// A chord and a square brace in mm, MPa and degrees, for tests of joint rules.
#pragma once

#include <numbers>

#include "cases/joints/tube_joint.h"

namespace tubewright::testing {

inline JointChord chord_in_mm(double width, double depth, double wall, double fy = 235) {
  JointChord c;
  c.b0 = width * 1e-3;
  c.h0 = depth * 1e-3;
  c.t0 = wall * 1e-3;
  c.fy = fy * 1e6;
  return c;
}

inline JointBrace brace_in_mm(double side, double wall, double angle, double fy = 235) {
  JointBrace b;
  b.b1 = b.h1 = side * 1e-3;
  b.t1 = wall * 1e-3;
  b.fy = fy * 1e6;
  b.angle = angle * std::numbers::pi / 180;
  return b;
}

}  // namespace tubewright::testing
