#include "cases/joints/chord_face.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace tubewright {

double chord_stress_factor(double n, double beta) {
  return n <= 0 ? 1 : std::clamp(1.3 - 0.4 * n / beta, least_stress_factor, 1.0);
}

double plate_stress_factor(double n) {
  return n <= 0 ? 1 : std::clamp(1.3 * (1 - n), least_stress_factor, 1.0);
}

double chord_face_resistance(double fy0, double t0, double beta, double eta, double theta,
                             double k_n) {
  const double sine = std::sin(theta);
  return k_n * fy0 * t0 * t0 / ((1 - beta) * sine) * (2 * eta / sine + 4 * std::sqrt(1 - beta)) /
         gamma_M5;
}

double side_wall_buckling(double fy0, double E, double h0_over_t0, double theta,
                          BucklingCurve curve) {
  const double lambda_bar = 3.46 * std::max(0.0, h0_over_t0 - 2) * std::sqrt(1 / std::sin(theta)) /
                            (std::numbers::pi * std::sqrt(E / fy0));
  return reduction_factor(lambda_bar, curve);
}

double side_wall_resistance(double f_b, double t0, double h1, double theta) {
  const double sine = std::sin(theta);
  return f_b * t0 / sine * (2 * h1 / sine + 10 * t0) / gamma_M5;
}

double effective_width(double fy0, double b0, double t0, double fy1, double t1, double b1) {
  return std::min(1.0, 10 / (b0 / t0) * fy0 * t0 / (fy1 * t1)) * b1;
}

double punching_resistance(double fy0, double t0, double h1, double widths, double theta) {
  const double sine = std::sin(theta);
  return fy0 * t0 / (std::numbers::sqrt3 * sine) * (2 * h1 / sine + widths) / gamma_M5;
}

double punching_width(double b0, double t0, double b1) {
  return std::min(1.0, 10 / (b0 / t0)) * b1;
}

double chord_shear_resistance(double fy0, double shear_area, double theta) {
  return fy0 * shear_area / (std::numbers::sqrt3 * std::sin(theta)) / gamma_M5;
}

double gap_shear_area(double b0, double h0, double t0, double gap, bool round_braces) {
  const double alpha = round_braces ? 0 : 1 / std::sqrt(1 + 4 * gap * gap / (3 * t0 * t0));
  return (2 * h0 + alpha * b0) * t0;
}

double gap_joint_resistance(double fy0, double b0, double t0, double beta, double theta,
                            double k_n) {
  const double gamma = b0 / (2 * t0);
  return 8.9 * std::sqrt(gamma) * k_n * fy0 * t0 * t0 / std::sin(theta) * beta / gamma_M5;
}

double in_plane_moment_resistance(double fy0, double t0, double h1, double beta, double eta,
                                  double k_n) {
  return k_n * fy0 * t0 * t0 * h1 * (1 / (2 * eta) + 2 / std::sqrt(1 - beta) + eta / (1 - beta)) /
         gamma_M5;
}

double out_of_plane_moment_resistance(double fy0, double t0, double b0, double h1, double beta,
                                      double k_n) {
  const double growth = (1 + beta) / (1 - beta);
  return k_n * fy0 * t0 * t0 * (h1 * growth / 2 + std::sqrt(2 * b0 * beta * b0 * growth)) /
         gamma_M5;
}

double in_plane_side_wall_moment(double f_yk, double t0, double h1) {
  return 0.5 * f_yk * t0 * (h1 + 5 * t0) * (h1 + 5 * t0) / gamma_M5;
}

double out_of_plane_side_wall_moment(double f_yk, double b0, double t0, double h1) {
  return f_yk * t0 * (b0 - t0) * (h1 + 5 * t0) / gamma_M5;
}

double chord_distortion_resistance(double fy0, double b0, double h0, double t0, double h1) {
  return 2 * fy0 * t0 * (h1 * t0 + std::sqrt(b0 * h0 * t0 * (b0 + h0))) / gamma_M5;
}

double joint_gap(double h0, double h1, double h2, double theta1, double theta2,
                 double eccentricity) {
  const double sine1 = std::sin(theta1), sine2 = std::sin(theta2);
  return (eccentricity + h0 / 2) * std::sin(theta1 + theta2) / (sine1 * sine2) - h1 / (2 * sine1) -
         h2 / (2 * sine2);
}

}  // namespace tubewright
