#include "cases/joints/tube_joint.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "solver/model/angle.h"

namespace tubewright {

namespace {

constexpr double face_ends = 0.85, walls_begin = 1;  // beta, Table 7.11

/// Rounding of a ratio that is meant to be at its limit.
constexpr double at_limit = 1e-9;

/// What governs between face and side walls; `face(beta)`.
template <class Face>
double between(double beta, const Face& face, double side_walls) {
  if (beta <= face_ends + at_limit) return face(std::min(beta, face_ends));
  const double part = std::min(1.0, (beta - face_ends) / (walls_begin - face_ends));
  return std::lerp(face(face_ends), side_walls, part);
}

/// The brace as it touches the chord: of one wider than the face only the walls across.
struct Footprint {
  double beta = 0;
  double eta = 0;
  double b1 = 0;
  double h1 = 0;
};

Footprint footprint(const JointChord& c, const JointBrace& b) {
  if (b.b1 <= c.b0 * (1 + at_limit)) return {std::min(1.0, b.b1 / c.b0), b.h1 / c.b0, b.b1, b.h1};
  const double wall = b.t1 > 0 ? b.t1 : b.h1 / 2;
  const double h1 = std::min(b.h1, 2 * wall + 5 * c.t0);
  return {1, h1 / c.b0, c.b0, h1};
}

/// Own failure of the brace and punching, the smaller; infinite where they do not govern.
double local_resistance(const JointChord& c, const JointBrace& b, const Footprint& f,
                        double theta) {
  double least = std::numeric_limits<double>::infinity();
  const bool plate = b.shape == BraceShape::plate;
  const double wall = plate ? f.h1 : b.t1;
  const bool across = !plate || f.b1 > f.h1;  // a plate along the tube has no wall across
  if (wall > 0 && across) {
    const double width = effective_width(c.fy, c.b0, c.t0, b.fy, wall, f.b1);
    const double walls = plate ? b.fy * wall * width
                               : b.fy * wall * (std::max(0.0, 2 * f.h1 - 4 * wall) + 2 * width);
    least = std::min(least, walls / gamma_M5);
  }
  const double gamma = c.b0 / (2 * c.t0);
  if (f.beta <= (1 - 1 / gamma) * (1 + at_limit)) {
    const double widths = 2 * punching_width(c.b0, c.t0, f.b1);
    least = std::min(least, punching_resistance(c.fy, c.t0, f.h1, widths, theta));
  }
  return least;
}

/// Strength of the side walls under push, Table 7.11.
double wall_strength(JointKind kind, const JointChord& c, double theta) {
  const double chi = side_wall_buckling(c.fy, c.E, c.h0 / c.t0, theta, c.curve);
  return kind == JointKind::X ? 0.8 * chi * c.fy * std::sin(theta) : chi * c.fy;
}

double axial_resistance(JointKind kind, const JointChord& c, const JointBrace& b,
                        const Footprint& f, double k, bool push) {
  const double theta = rule_angle(b.angle);
  const double f_b = push ? wall_strength(kind, c, theta) : c.fy;
  const double face_or_walls = between(
      f.beta, [&](double beta) { return chord_face_resistance(c.fy, c.t0, beta, f.eta, theta, k); },
      side_wall_resistance(f_b, c.t0, f.h1, theta));
  double least = shape_factor(b) * std::min(face_or_walls, local_resistance(c, b, f, theta));
  // The chord sheared between the two braces, note to Table 7.11.
  if (kind == JointKind::X && std::cos(theta) > f.h1 / c.h0) {
    least = std::min(least, chord_shear_resistance(c.fy, 2 * c.h0 * c.t0, theta));
  }
  return least;
}

double in_plane_moment(JointKind kind, const JointChord& c, const JointBrace& b, const Footprint& f,
                       double k) {
  const double f_yk = kind == JointKind::X ? 0.8 * c.fy : c.fy;
  double least = between(
      f.beta,
      [&](double beta) { return in_plane_moment_resistance(c.fy, c.t0, f.h1, beta, f.eta, k); },
      in_plane_side_wall_moment(f_yk, c.t0, f.h1));
  if (f.beta > face_ends + at_limit && b.t1 > 0 && b.Wpl_ip > 0) {
    const double lost = f.b1 - effective_width(c.fy, c.b0, c.t0, b.fy, b.t1, f.b1);
    least = std::min(least, b.fy * (b.Wpl_ip - lost * f.h1 * b.t1));
  }
  return shape_factor(b) * least;
}

double out_of_plane_moment(JointKind kind, const JointChord& c, const JointBrace& b,
                           const Footprint& f, double k) {
  const double f_yk = kind == JointKind::X ? 0.8 * c.fy : c.fy;
  double least = between(
      f.beta,
      [&](double beta) { return out_of_plane_moment_resistance(c.fy, c.t0, c.b0, f.h1, beta, k); },
      out_of_plane_side_wall_moment(f_yk, c.b0, c.t0, f.h1));
  if (f.beta > face_ends + at_limit && b.t1 > 0 && b.Wpl_op > 0) {
    const double lost = f.b1 - effective_width(c.fy, c.b0, c.t0, b.fy, b.t1, f.b1);
    least = std::min(least, b.fy * (b.Wpl_op - 0.5 * lost * lost * b.t1));
  }
  return shape_factor(b) * least;
}

}  // namespace

double rule_angle(double angle) {
  constexpr double least = 30 * degree;
  return std::clamp(angle, least, 90 * degree);
}

double shape_factor(const JointBrace& b) { return is_round(b) ? std::numbers::pi / 4 : 1; }

double strength_factor(double fy) {
  constexpr double S355 = 355e6, S460 = 460e6;  // Pa
  constexpr double rounding = 1 + 1e-9;
  if (fy <= S355 * rounding) return 1;
  return fy <= S460 * rounding ? 0.9 : 0.8;
}

JointResistance joint_resistance(JointKind kind, const JointChord& c, const JointBrace& b) {
  const Footprint f = footprint(c, b);
  const double n = c.stress / c.fy / gamma_M5;
  const double k =
      b.shape == BraceShape::plate ? plate_stress_factor(n) : chord_stress_factor(n, f.beta);
  const double factor = strength_factor(std::max(c.fy, b.fy));
  JointResistance r;
  r.stress_factor = k;
  r.pull = factor * axial_resistance(kind, c, b, f, k, false);
  r.push = factor * axial_resistance(kind, c, b, f, k, true);
  r.M_ip = factor * std::max(0.0, in_plane_moment(kind, c, b, f, k));
  r.M_op = factor * std::max(0.0, out_of_plane_moment(kind, c, b, f, k));
  r.distortion = factor * chord_distortion_resistance(c.fy, c.b0, c.h0, c.t0, f.h1);
  return r;
}

}  // namespace tubewright
