// Welded joints of braces on a square chord: EN 1993-1-8:2005 Table 7.10, with brace moments of
// Table 7.14 (formulas of 7.10 seen in an extract of the standard, all else from memory).
//
// Within the ranges of Tables 7.8 and 7.9 the face of the chord governs. Outside them no number is
// given but the reason in words: many frames of thin tube are outside, as walls must be 2.5 mm or
// more and braces narrower than 0.85 of the chord. The welds must be as strong as the brace's wall
// (7.3.1(4)). SI units, angles in rad; loads are design loads. gamma_M5 = 1.0 (recommended).
#pragma once

#include <array>

#include "cases/checks/check_result.h"
#include "solver/model/section.h"

namespace tubewright {

constexpr double gamma_M5 = 1.0;  // EN 1993-1-8 Table 2.1, recommended value

enum class JointKind { T, Y, X };

struct JointChord {
  Profile profile;
  double fy = 0;
  double stress = 0;  ///< sigma_0,Ed: greatest compression at the joint from N and M, + compression
};

struct JointBrace {
  Profile profile;  ///< square or round tube; its side lies along the chord
  double fy = 0;
  double angle = 0;  ///< theta, to the chord
  double N = 0;      ///< tension positive
  double M_ip = 0;   ///< in the plane of brace and chord
  double M_op = 0;   ///< out of it
};

/// k_n of Table 7.10: 1.3 - 0.4 n/beta <= 1 for a chord in compression (n > 0), else 1. Not below
/// 0. n = sigma_0,Ed/f_y0/gamma_M5.
double chord_stress_factor(double n, double beta);

/// N_1,Rd of T, Y, X joints, beta <= 0.85: k_n f_y0 t_0^2/((1 - beta) sin theta) (2 beta/sin theta
/// + 4 sqrt(1 - beta))/gamma_M5, N.
double chord_face_resistance(double fy0, double t0, double beta, double theta, double k_n);

/// N_i,Rd of K and N joints with a gap: 8.9 gamma^0.5 k_n f_y0 t_0^2/sin theta beta/gamma_M5 with
/// gamma = b_0/(2 t_0), beta = (b_1 + b_2)/(2 b_0), N.
double gap_joint_resistance(double fy0, double b0, double t0, double beta, double theta,
                            double k_n);

/// M_ip,1,Rd of a square brace h_1 = b_1 at 90 degrees, Table 7.14, beta <= 0.85: k_n f_y0 t_0^2
/// h_1 (1/(2 eta) + 2/sqrt(1 - beta) + eta/(1 - beta)), eta = h_1/b_0, N m.
double in_plane_moment_resistance(double fy0, double b0, double t0, double b1, double k_n);

/// M_op,1,Rd likewise: k_n f_y0 t_0^2 (h_1 (1 + beta)/(2 (1 - beta)) + sqrt(2 b_0 b_1 (1 + beta)/(1
/// - beta))), N m.
double out_of_plane_moment_resistance(double fy0, double b0, double t0, double b1, double k_n);

/// M_op,1,Rd of a T joint whose chord distorts into a lozenge: 2 f_y0 t_0 (h_1 t_0 + sqrt(b_0 h_0
/// t_0 (b_0 + h_0))), square chord, N m.
double chord_distortion_resistance(double fy0, double b0, double t0, double b1);

/// Clear distance of two braces along the chord's face whose axes meet `eccentricity` beyond the
/// chord's axis (+ away from them): (e + h_0/2) sin(theta_1 + theta_2)/(sin theta_1 sin theta_2) -
/// h_1/(2 sin theta_1) - h_2/(2 sin theta_2) (geometry). Below zero they overlap.
double joint_gap(double h0, double h1, double h2, double theta1, double theta2,
                 double eccentricity);

struct JointResistance {
  double N_Rd = 0;  ///< zero when the joint is not covered
  double Mip_Rd = 0;
  double Mop_Rd = 0;
};

struct TubeJoint {
  double beta = 0;
  double n = 0;
  double k_n = 0;
  std::array<JointResistance, 2>
      brace;  ///< the second of a gap joint only; moments of T and X joints only
  CheckResult result;
};

/// N/N_Rd + M_ip/M_ip,Rd + M_op/M_op,Rd (7.5.2). Moments are covered for square braces at 90
/// degrees. Above S355 resistances are multiplied by 0.9 (7.1.1(4)); above S460 not covered. Forces
/// of zero use nothing.
TubeJoint tube_joint(JointKind kind, const JointChord& chord, const JointBrace& brace);

/// K and N joints with a gap g, m. Brace moments are not covered: leave them out where 5.1.5(3)
/// allows (eccentricity -0.55 to 0.25 h_0, members six times as long as deep).
TubeJoint gap_joint(const JointChord& chord, const JointBrace& first, const JointBrace& second,
                    double gap);

}  // namespace tubewright
