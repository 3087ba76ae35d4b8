// Tubes on a round tube: EN 1993-1-8:2005 Tables 7.2, 7.4 and 7.5 (MEMORY), on plain data.
//
// T, Y and X joints of round and rectangular braces. Several tubes there are a comparison: all that
// push (or pull) within 90 degrees round the chord count as one, by how far they do, each
// resistance 0.9 times (Table 7.7). K joints are counted so too, which leaves out what their forces
// take off each other (safe). At an open end half, see face_joint.h. SI units, angles in rad.
#pragma once

#include <vector>

#include "cases/checks/check_result.h"
#include "cases/joints/face_joint.h"
#include "cases/joints/tube_joint.h"

namespace tubewright {

/// k_p of Table 7.2: 1 - 0.3 n (1 + n) for a chord in compression (n > 0), else 1; not below
/// `least_stress_factor`.
double round_chord_stress_factor(double n);

/// Of a brace on a chord of diameter d_0, beta = b_1/d_0, eta = h_1/d_0, gamma = d_0/(2 t_0), the
/// least of the chord's face and, where b_1 <= d_0 - 2 t_0, of punching:
/// - round, T and Y: gamma^0.2 k_p f_y0 t_0^2/sin theta (2.8 + 14.2 beta^2), X: 5.2/(1 - 0.81 beta)
///   for the bracket and without gamma; M_ip 4.85 f_y0 t_0^2 sqrt(gamma) beta k_p d_1/sin theta,
///   M_op f_y0 t_0^2 k_p d_1/sin theta 2.7/(1 - 0.81 beta);
/// - rectangular, T and Y: k_p f_y0 t_0^2 (4 + 20 beta^2)(1 + 0.25 eta)/sin theta, X: 5 (1 + 0.25
///   eta)/(1 - 0.81 beta); M_ip = h_1 N, M_op = 0.5 b_1 N.
JointResistance round_chord_resistance(JointKind kind, double d0, double t0, double fy0, double n,
                                       const JointBrace& brace);

/// Of `tubes[which]`; N/N_Rd + (M_ip/M_ip,Rd)^2 + M_op/M_op,Rd <= 1 (7.4.2), taken without the
/// square so that it grows with the load (safe). Flat bars have no number.
CheckResult round_chord_check(const ChordTube& chord, const std::vector<StandingTube>& tubes,
                              size_t which);

}  // namespace tubewright
