// Whether two pieces of one size are cut alike: one can stand in for the other, turned about its
// axis or end for end.
#pragma once

#include <array>
#include <vector>

#include "cases/frame/frame.h"
#include "cases/pieces/cut_geometry.h"

namespace tubewright {

/// Cut alike: nowhere round the section farther apart, m. A tenth of a millimetre is below what a
/// saw keeps (common practice, no source).
constexpr double cut_alike_within = 1e-4;

/// A bend as the outline has it: along the centre line as it was before bending, m.
struct OutlineBend {
  double begin = 0, end = 0;
  double radius = 0;
  double towards = 0;  ///< rad, from +y to the side of its centre, right hand about x
};

/// Where a piece begins and ends along the corners of its section and the middles between them,
/// m from its first node: round from (+y, +z) over (0, +z), (-y, +z), (-y, 0) and so on.
struct PieceOutline {
  std::array<double, 8> begin{}, end{};
  std::vector<OutlineBend> bends;
};

PieceOutline outline_of(const CutPiece& piece, const SectionEntry& section);

/// Along the corners and the middles of the sides: of a thin wall with plane cuts it is exact.
double mean_length(const PieceOutline& outline);

/// In a plane along the axis, square to the section's y.
PieceOutline mirrored(const PieceOutline& outline);

/// Whether one can be laid on the other, within cut_alike_within. A rectangle takes half turns
/// about its axis, a section as wide as high quarter turns.
bool cut_alike(const PieceOutline& a, const PieceOutline& b, const SectionEntry& section);

}  // namespace tubewright
