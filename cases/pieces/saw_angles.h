// What to set on the saw for a cut, and how to turn the tube between the cuts of its ends.
#pragma once

#include <optional>

#include "cases/pieces/cut_geometry.h"

namespace tubewright {

/// Angle of a plane cut from square, seen along local z (mitre) and the tilt of the blade that then
/// remains (bevel), rad: tan mitre and tan bevel cos-corrected for the turned tube.
struct SawAngles {
  double mitre = 0;
  double bevel = 0;
};

SawAngles saw_angles(const CutPlane& plane);

/// By how much a tube is turned about its axis between the cuts of its ends: from the long point of
/// the first to that of the second, rad, above -pi to pi, clockwise looking from the first to the
/// second. 0: both on one side; pi: on opposite sides. Nothing unless each end is mainly one
/// slanting plane.
std::optional<double> turn_between_ends(const CutPiece& piece);

}  // namespace tubewright
