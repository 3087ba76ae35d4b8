#include "cases/pieces/saw_angles.h"

#include <cmath>
#include <numbers>

namespace tubewright {

namespace {

/// Where the long point of an end lies, as an angle from y toward z; nothing for a square or
/// notched end.
std::optional<double> long_point_of(const TubeEnd& end) {
  constexpr double square_within = 1e-3;  // a slope, 0.06 degrees
  if (end.cuts.empty()) return std::nullopt;
  std::optional<CutPlane> slant;
  for (const CutPlane& p : end.cuts.front().planes) {
    if (only_divides(p)) continue;
    if (slant) return std::nullopt;
    slant = p;
  }
  if (!slant || std::hypot(slant->mitre, slant->bevel) < square_within) return std::nullopt;
  return std::atan2(-slant->bevel, -slant->mitre);  // there the tube begins first
}

}  // namespace

SawAngles saw_angles(const CutPlane& p) {
  // The blade stands square to the table along y turned by the mitre, then tilts.
  return {std::atan(p.mitre), std::atan(p.bevel / std::sqrt(1 + p.mitre * p.mitre))};
}

std::optional<double> turn_between_ends(const CutPiece& piece) {
  const auto first = long_point_of(piece.ends[0]), second = long_point_of(piece.ends[1]);
  if (!first || !second) return std::nullopt;
  const double turn = std::remainder(*second - *first, 2 * std::numbers::pi);
  return turn < -std::numbers::pi + 1e-6 ? turn + 2 * std::numbers::pi : turn;
}

}  // namespace tubewright
