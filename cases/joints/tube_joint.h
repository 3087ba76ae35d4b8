// Resistance of T, Y and X joints of a brace on the face of a rectangular tube: which of the
// formulas of chord_face.h governs, EN 1993-1-8:2005 Tables 7.11 and 7.14 (MEMORY; the face of a
// square chord SEEN).
//
// beta <= 0.85: the face. beta = 1: the side walls, the brace's own walls, punching. Between them
// by a straight line. The brace's own walls and punching, which Table 7.11 asks for above 0.85
// only, count for the axial force of any brace, so that nothing jumps there. The tables are used
// beyond their ranges as well, on the safe side, and joint_scope.h says which they have left:
// - a brace that leans below 30 degrees counts as at 30, where the formula gives less;
// - moments of a leaning brace count as at 90 degrees, those of a round one as of a square, times
//   pi/4;
// - flat bars are plates (Table 7.13: the pattern of the T joint with k_m), round bars round tubes;
// - a brace wider than the chord touches it with its two walls across only.
// SI units, angles in rad; loads are design loads. The welds must be as strong as the brace's wall
// (7.3.1(4)).
#pragma once

#include "cases/joints/chord_face.h"
#include "solver/model/section.h"

namespace tubewright {

enum class JointKind { T, Y, X };

struct JointChord {
  double b0 = 0;  ///< width of the face
  double h0 = 0;  ///< depth behind it
  double t0 = 0;
  double fy = 0;
  double E = 210e9;
  BucklingCurve curve = BucklingCurve::c;
  double stress = 0;  ///< sigma_0,Ed: greatest compression at the joint from N and M, + compression
};

enum class BraceShape { rectangle, round, bar, plate };

struct JointBrace {
  BraceShape shape = BraceShape::rectangle;
  double b1 = 0;  ///< across the chord
  double h1 = 0;  ///< along it
  double t1 = 0;  ///< 0: solid
  double fy = 0;
  double angle = 0;   ///< theta, to the chord
  double Wpl_ip = 0;  ///< plastic modulus for bending in the plane of brace and chord
  double Wpl_op = 0;
  double N = 0;  ///< tension positive
  double M_ip = 0;
  double M_op = 0;
};

inline bool is_round(const JointBrace& b) {
  return b.shape == BraceShape::round || b.shape == BraceShape::bar;
}

/// The angle the formulas are used with: not below 30 degrees.
double rule_angle(double angle);

struct JointResistance {
  double pull = 0;  ///< N
  double push = 0;
  double M_ip = 0;  ///< N m
  double M_op = 0;  ///< of face, walls and brace
  double distortion =
      0;  ///< M_op that turns the chord into a lozenge, where nothing opposite holds
  double stress_factor = 1;  ///< k_n or k_m of the face
};

/// Requires: what joint_obstacle() of joint_scope.h finds nothing against.
JointResistance joint_resistance(JointKind kind, const JointChord& chord, const JointBrace& brace);

/// pi/4 for round braces, else 1 (Tables 7.10 to 7.12).
double shape_factor(const JointBrace& brace);

/// Steel up to S355 1, up to S460 0.9 (7.1.1(4)), beyond 0.8 (EN 1993-1-12, MEMORY).
double strength_factor(double fy);

}  // namespace tubewright
