// Stiffness of welded joints of square and rectangular tube over their proportions.
//
// DERIVED by independent solids for this project (tests/joint_models: 10-node tetrahedra, real
// corner radii, a fillet round the brace); no physical test stands behind them. The numbers of
// joint_table.cpp are made by make_table.py there. Moments: k/(E t0^3); along the brace's axis
// k/(E t0); t0 the chord's wall. A brace on a chord has local stiffness here: from its end on the
// chord's face to the chord's axis, in which no part of the brace is. tube_on_tube.h reads them.
#pragma once

#include <array>

namespace tubewright {

/// beta = b1/b0, brace's width over that of the face it stands on, and b0/t0.
constexpr std::array<double, 8> table_betas = {0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 1.0};
constexpr std::array<double, 5> table_slenderness = {10, 13.333, 16.667, 20, 30};
/// Where what multiplies the base is given.
constexpr std::array<double, 6> factor_betas = {0.3, 0.5, 0.7, 0.8, 0.9, 1.0};
/// Depth over width of tubes that make a corner.
constexpr std::array<double, 3> corner_aspects = {0.5, 1, 2};

/// At and above this a corner does not give more than one of beams, k/(E t0^3).
constexpr double rigid_corner = 1000;

/// For each slenderness a row over beta.
using BaseGrid = std::array<std::array<double, 8>, 5>;

/// What a change of the base joint multiplies its springs by.
struct Influence {
  std::array<double, 6> out_of_plane, in_plane, axial;
};

/// For each aspect a row over slenderness.
using CornerGrid = std::array<std::array<double, 5>, 3>;
struct CornerTable {
  CornerGrid out_of_plane, in_plane, torsion;
};

/// Local flexibility of two equal braces on neighbouring faces, turned against each other and
/// together about the chord's axis, over that of one alone on a through chord.
struct PairTable {
  std::array<double, 6> against, together;
};

struct JointTable {
  /// Square brace on a square through chord, walls equal, 90 degrees.
  BaseGrid base_out_of_plane, base_in_plane, base_axial;
  Influence thin_brace, thick_brace;               ///< t1/t0 = 0.667, 1.5
  Influence flat_chord, deep_chord;                ///< h0/b0 = 0.5, 2
  Influence short_brace, long_brace;               ///< h1/b1 = 0.5, 2; h1 along the chord
  Influence open_end, capped_end;                  ///< brace flush with the chord's end
  Influence angle_60, angle_45;                    ///< degrees
  CornerTable mitred, butted_open, butted_capped;  ///< of equal tubes
  PairTable pair_through, pair_open;
};

extern const JointTable joint_table;

}  // namespace tubewright
