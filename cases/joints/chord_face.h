// What the face and the side walls of a rectangular tube hold under a tube welded onto them: EN
// 1993-1-8:2005 Tables 7.10 to 7.14, one formula a function (square chords SEEN in an extract of
// the standard, the rest MEMORY). Which of them governs: cases/joints/tube_joint.h and
// lattice_joint.h.
//
// b_0: width of the face, h_0: the depth behind it, t_0: the wall; b_1, h_1: the brace across and
// along the chord; beta = b_1/b_0, eta = h_1/b_0; theta: brace to chord. SI units, rad, design
// values. gamma_M5 = 1.0 (recommended).
#pragma once

#include "cases/checks/member_buckling.h"

namespace tubewright {

constexpr double gamma_M5 = 1.0;  // EN 1993-1-8 Table 2.1, recommended value

/// k_n and k_m are not let below this: a joint used to less than it needs no face, any other fails,
/// and no number is infinite.
constexpr double least_stress_factor = 0.01;

/// k_n of Table 7.10: 1.3 - 0.4 n/beta <= 1 for a chord in compression (n > 0), else 1. n =
/// sigma_0,Ed/f_y0/gamma_M5.
double chord_stress_factor(double n, double beta);

/// k_m of Table 7.13, plates: 1.3 (1 - n) <= 1 for n > 0, else 1.
double plate_stress_factor(double n);

/// Whether compression leaves the face no strength: k_n = 0.
constexpr bool is_spent(double stress_factor) { return stress_factor <= least_stress_factor; }

/// N_1,Rd of T, Y, X joints, beta <= 0.85: k_n f_y0 t_0^2/((1 - beta) sin theta) (2 eta/sin theta +
/// 4 sqrt(1 - beta)), N.
double chord_face_resistance(double fy0, double t0, double beta, double eta, double theta,
                             double k_n);

/// chi of Table 7.11 for the side wall of T, Y and X joints, beta = 1, by EN 1993-1-1 6.3.1.2 with
/// lambda_bar = 3.46 (h_0/t_0 - 2) sqrt(1/sin theta)/(pi sqrt(E/f_y0)).
double side_wall_buckling(double fy0, double E, double h0_over_t0, double theta,
                          BucklingCurve curve);

/// N_1,Rd of both side walls, beta = 1: f_b t_0/sin theta (2 h_1/sin theta + 10 t_0), N.
double side_wall_resistance(double f_b, double t0, double h1, double theta);

/// 10/(b_0/t_0) f_y0 t_0/(f_y1 t_1) b_1 <= b_1: what counts of a brace's wall across the chord.
/// With the overlapped brace's wall and strength for those of the chord b_e,ov.
double effective_width(double fy0, double b0, double t0, double fy1, double t1, double b1);

/// Punching: f_y0 t_0/(sqrt(3) sin theta) (2 h_1/sin theta + widths), N; `widths` across the chord:
/// 2 b_e,p in T, Y, X joints, b_1 + b_e,p in gap joints, b_e,p = 10/(b_0/t_0) b_1 <= b_1.
double punching_resistance(double fy0, double t0, double h1, double widths, double theta);
double punching_width(double b0, double t0, double b1);

/// f_y0 A_v/(sqrt(3) sin theta), N.
double chord_shear_resistance(double fy0, double shear_area, double theta);

/// A_v of a gap joint: (2 h_0 + alpha b_0) t_0, alpha^2 = 1/(1 + 4 g^2/(3 t_0^2)); alpha = 0 for
/// round braces.
double gap_shear_area(double b0, double h0, double t0, double gap, bool round_braces);

/// N_i,Rd of K and N joints with a gap: 8.9 gamma^0.5 k_n f_y0 t_0^2/sin theta beta with gamma =
/// b_0/(2 t_0), beta = (b_1 + b_2 + h_1 + h_2)/(4 b_0), N.
double gap_joint_resistance(double fy0, double b0, double t0, double beta, double theta,
                            double k_n);

/// M_ip,1,Rd at 90 degrees, Table 7.14, beta <= 0.85: k_n f_y0 t_0^2 h_1 (1/(2 eta) + 2/sqrt(1 -
/// beta) + eta/(1 - beta)), N m.
double in_plane_moment_resistance(double fy0, double t0, double h1, double beta, double eta,
                                  double k_n);

/// M_op,1,Rd likewise: k_n f_y0 t_0^2 (h_1 (1 + beta)/(2 (1 - beta)) + sqrt(2 b_0 b_1 (1 + beta)/(1
/// - beta))), N m.
double out_of_plane_moment_resistance(double fy0, double t0, double b0, double h1, double beta,
                                      double k_n);

/// Side walls under M_ip, beta = 1: 0.5 f_yk t_0 (h_1 + 5 t_0)^2, and under M_op: f_yk t_0 (b_0 -
/// t_0)(h_1 + 5 t_0), N m.
double in_plane_side_wall_moment(double f_yk, double t0, double h1);
double out_of_plane_side_wall_moment(double f_yk, double b0, double t0, double h1);

/// M_op,1,Rd of a T joint whose chord distorts into a lozenge: 2 f_y0 t_0 (h_1 t_0 + sqrt(b_0 h_0
/// t_0 (b_0 + h_0))), N m.
double chord_distortion_resistance(double fy0, double b0, double h0, double t0, double h1);

/// Clear distance of two braces along the chord's face whose axes meet `eccentricity` beyond the
/// chord's axis (+ away from them): (e + h_0/2) sin(theta_1 + theta_2)/(sin theta_1 sin theta_2) -
/// h_1/(2 sin theta_1) - h_2/(2 sin theta_2) (geometry). Below zero they overlap.
double joint_gap(double h0, double h1, double h2, double theta1, double theta2,
                 double eccentricity);

}  // namespace tubewright
