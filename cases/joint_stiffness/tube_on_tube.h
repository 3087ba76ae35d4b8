// Springs of welded joints of square and rectangular tube: plain numbers in, plain numbers out.
//
// A spring is what the joint gives more than beams that meet rigidly where their axes cross: it
// stands between the brace's end and the node. From joint_table.h, between whose points the
// logarithm of the stiffness is interpolated; influences multiply each other. DERIVED by
// independent solids for this project, no physical test stands behind them;
// tests/joint_models/README.md says how far they hold: within 10 % of joints kept back (one in
// plane 26 %), 50 % for a brace at an angle at a chord's end; out of plane up to 15 % and more too
// stiff where the chord is thin (b0/t0 30). Welds: a fillet whose throat is the brace's wall, where
// the chord's face is flat. Lengths m, angles rad, stiffness N m/rad and N/m; `rigid` where the
// solid is stiffer than the beams.
#pragma once

#include "solver/model/model.h"
#include "solver/model/outcome.h"

namespace tubewright {

/// What the chord does beyond the brace.
enum class ChordEnd {
  through,  ///< runs on
  open,     ///< ends flush with the brace, open
  capped    ///< ends flush with the brace, closed by a plate of the chord's wall
};

/// A brace welded with its end on a face of a chord.
struct TubeOnTube {
  double chord_width = 0;  ///< of the face stood on, across the chord
  double chord_depth = 0;  ///< of the faces beside it
  double chord_wall = 0;
  double brace_width = 0;  ///< across the chord
  double brace_depth = 0;  ///< the other side, in the plane of brace and chord
  double brace_wall = 0;
  double angle = 1.5707963267948966;  ///< between the axes, the lesser one
  ChordEnd end = ChordEnd::through;
};

struct JointSprings {
  double out_of_plane = rigid;  ///< about the axis across the brace in the plane of both axes
  double in_plane = rigid;      ///< about the normal of that plane
  double torsion = rigid;       ///< about the brace's axis
  double axial = rigid;         ///< along the brace's axis
};

/// Why the table has no answer.
enum class OutsideTable {
  chord_slenderness,  ///< b0/t0
  width_ratio,        ///< b1/b0
  wall_ratio,         ///< t1/t0
  chord_aspect,       ///< h0/b0
  brace_aspect,       ///< h1/b1
  brace_wall,         ///< sides of the brace too small for the round corners of its wall
  angle,
  unequal_tubes  ///< pairs on a chord that is not square
};

/// Where the table ends. A rounding of 1e-6 beyond is let pass.
constexpr double least_slenderness = 10, most_slenderness = 30;    ///< b0/t0
constexpr double least_width_ratio = 0.3, most_width_ratio = 1;    ///< b1/b0
constexpr double least_wall_ratio = 0.667, most_wall_ratio = 1.5;  ///< t1/t0
constexpr double least_aspect = 0.5, most_aspect = 2;              ///< h0/b0, h1/b1
constexpr double least_brace_sides = 5;                            ///< b1/t1 and h1/t1
constexpr double least_joint_angle = 0.78539816339744831;          ///< 45 degrees

/// `E`: modulus of elasticity, Pa.
Outcome<JointSprings, OutsideTable> springs_of_tube_on_tube(const TubeOnTube& joint, double E);

/// Two equal tubes that end at each other at a right angle.
enum class CornerKind {
  mitred,        ///< both cut at 45 degrees and welded all round
  butted_open,   ///< one stands on the other's face, flush with its open end
  butted_capped  ///< the same, that end closed by a plate
};
struct CornerOfTubes {
  double width = 0;  ///< across the plane of the corner
  double depth = 0;  ///< in it
  double wall = 0;
  CornerKind kind = CornerKind::mitred;
};

/// At the end of one of the two (where butted, of the one that stands): the other has none.
Outcome<JointSprings, OutsideTable> springs_of_corner(const CornerOfTubes& corner, double E);

/// Two equal braces on neighbouring faces of a square chord, at one node, both at right angles.
/// Their springs about the chord's axis are not independent: a moment that one hands to the other
/// shears the chord's section to a rhombus. With moments M1, M2 of the chord on the ends and turns
/// r1, r2 of the ends against the node, all about the chord's axis in one sense:
///   r1 - r2 = (M1 - M2)/against,  r1 + r2 = (M1 + M2)/together.
/// The other springs are those of one brace alone.
struct PairSprings {
  double against = rigid;   ///< N m/rad
  double together = rigid;  ///< N m/rad
};

/// `brace`: one of them. Capped ends: as open (on the soft side).
Outcome<PairSprings, OutsideTable> springs_of_pair(const TubeOnTube& brace, double E);

}  // namespace tubewright
