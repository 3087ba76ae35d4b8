// How far the face of a tube gives way under what stands on it, on plain data.
//
// DERIVED for this project: the tube's four walls unfolded as a Kirchhoff plate on rigid corner
// lines, bicubic elements, the foot rigid; mesh error about 1 %; held against the clamped and the
// simply supported infinite strip under a point load (Timoshenko). No physical test stands behind
// it. b = b0 - t0 is the width of the face between the middles of its walls, D = E t0^3/(12 (1 -
// nu^2)). A push N gives way by N b^2/(C_N D), a moment M turns its foot by M/(C_M D). Coefficients
// are interpolated by their logarithms. Outside the sizes that were computed the nearest counts:
// feet shorter than half the face come out too stiff by that, longer ones too soft.
#pragma once

namespace tubewright {

/// C_N of a tab along the tube, 0.08 b thick, by length/b from 0.5 to 2.
double tab_push_coefficient(double length_over_b);

/// C_M of it, turned about the axis across the tube.
double tab_turn_coefficient(double length_over_b);

/// C_M of it, turned about its own foot, along the tube: two strips of the face beside it, hinged
/// at the corners, 3 D a length/(b/2) each: 12 length/b (derived; what the face has beyond the
/// tab's ends is left out).
double tab_twist_coefficient(double length_over_b);

/// C_N of a plate across the tube by width/b from 0.3 to 0.7.
double cross_push_coefficient(double width_over_b);

/// C_N and C_M of a square foot by side/b from 0.3 to 0.8.
double square_push_coefficient(double side_over_b);
double square_turn_coefficient(double side_over_b);

/// The face of a tube.
struct TubeWall {
  double width = 0;  ///< outside, b0
  double wall = 0;   ///< t0
  double E = 0;
  double nu = 0.3;
};

double clear_width(const TubeWall& face);                 ///< b
double plate_rigidity(const TubeWall& face);              ///< D, N m
double push_stiffness(const TubeWall& face, double C_N);  ///< N/m
double turn_stiffness(const TubeWall& face, double C_M);  ///< N m/rad

}  // namespace tubewright
