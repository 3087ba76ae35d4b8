#include "cases/joints/tube_joint.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <initializer_list>
#include <limits>
#include <numbers>
#include <string>

#include "cases/checks/section_class.h"
#include "solver/model/angle.h"

namespace tubewright {

namespace {

std::string number(double value) {
  char text[32];
  std::snprintf(text, sizeof text, "%.3g", value);
  return text;
}

std::string below(const std::string& what, double value, double limit, const std::string& unit) {
  return "outside the scope: " + what + " " + number(value) + unit + " is below " + number(limit) +
         unit;
}

std::string above(const std::string& what, double value, double limit, const std::string& unit) {
  return "outside the scope: " + what + " " + number(value) + unit + " is above " + number(limit) +
         unit;
}

/// The first text that is not empty.
template <size_t n>
std::string first_of(const std::array<std::string, n>& reasons) {
  for (const std::string& reason : reasons) {
    if (!reason.empty()) return reason;
  }
  return "";
}

/// Empty within [least, greatest]; a limit reached by rounding is kept. NaN is not within.
std::string range_reason(const std::string& what, double value, double least, double greatest,
                         const std::string& unit = "") {
  constexpr double rounding = 1e-9;  // of the limit
  if (std::isnan(value)) return "outside the scope: " + what + " is not known";
  if (value < least - rounding * std::abs(least)) return below(what, value, least, unit);
  if (value > greatest + rounding * std::abs(greatest)) return above(what, value, greatest, unit);
  return "";
}

constexpr double no_limit = std::numeric_limits<double>::infinity();

bool is_square_tube(const Profile& p) {
  return p.kind == ProfileKind::hollow_rectangle && std::abs(p.height - p.width) <= 1e-9 * p.height;
}

bool is_round_tube(const Profile& p) { return p.kind == ProfileKind::round && p.wall > 0; }

/// 7.1.1(5): walls; 7.1.1(4) and (1): strength.
std::string tube_reason(const std::string& who, const Profile& p, double fy) {
  constexpr double mm = 1e-3, MPa = 1e6;
  if (!(fy > 0)) return "the material has no yield strength";
  return first_of<2>({range_reason("the " + who + "'s wall", p.wall / mm, 2.5, 25, " mm"),
                      range_reason("the " + who + "'s yield strength", fy / MPa, 0, 460, " MPa")});
}

int compressed_class(const Profile& p, double fy) {
  return class_of_compressed_wall(p.height / p.wall - 3, yield_epsilon(fy));
}

/// Tables 7.8 and 7.9 for the chord. `least` and 35: b_0/t_0.
std::string chord_reason(const JointChord& c, double least) {
  if (!is_square_tube(c.profile)) return "outside the scope: the chord is not a square tube";
  std::string tube = tube_reason("chord", c.profile, c.fy);
  if (!tube.empty()) return tube;
  if (!std::isfinite(c.stress)) return "the chord's stress is not finite";
  if (c.stress > 0 && compressed_class(c.profile, c.fy) > 2) {
    return "outside the scope: the compressed chord is not of class 1 or 2";
  }
  return range_reason("the chord's b0/t0", c.profile.width / c.profile.wall, least, 35);
}

/// Table 7.8 for a brace; `least`: b_i/b_0 of a square one.
std::string brace_reason(const JointBrace& b, const JointChord& chord, double least) {
  const bool round = is_round_tube(b.profile);
  if (!round && !is_square_tube(b.profile)) {
    return "outside the scope: the brace is not a square or round tube";
  }
  std::string tube = tube_reason("brace", b.profile, b.fy);
  if (!tube.empty()) return tube;
  for (double x : {b.N, b.M_ip, b.M_op}) {
    if (!std::isfinite(x)) return "the brace's forces are not finite";
  }
  const double slenderness = b.profile.width / b.profile.wall;
  const double ratio = b.profile.width / chord.profile.width;
  const std::string angle =
      range_reason("the angle of brace and chord", b.angle / degree, 30, 90, " degrees");
  if (round) {
    const bool stocky = class_of_round_tube(slenderness, yield_epsilon(b.fy)) == 1;
    if (b.N < 0 && !stocky) return "outside the scope: the compressed brace is not of class 1";
    return first_of<3>({angle, range_reason("the brace's d/t", slenderness, 0, 50),
                        range_reason("d1/b0", ratio, 0.4, 0.8)});
  }
  if (b.N < 0 && compressed_class(b.profile, b.fy) > 2) {
    return "outside the scope: the compressed brace is not of class 1 or 2";
  }
  return first_of<3>({angle, range_reason("the brace's b/t", slenderness, 0, 35),
                      range_reason("b1/b0", ratio, least, no_limit)});
}

/// 7.1.1(4): 0.9 above S355.
double strength_factor(const JointChord& chord, std::initializer_list<const JointBrace*> braces) {
  constexpr double S355 = 355e6;  // Pa
  double fy = chord.fy;
  for (const JointBrace* b : braces) fy = std::max(fy, b->fy);
  return fy > S355 ? 0.9 : 1;
}

/// Table 7.10: pi/4 for round braces.
double shape_factor(const JointBrace& b) {
  return is_round_tube(b.profile) ? std::numbers::pi / 4 : 1;
}

/// Force over resistance; a force of 0 needs none.
double share(double force, double resistance) {
  return force == 0 ? 0 : std::abs(force) / resistance;
}

bool has_moment(const JointBrace& b) { return b.M_ip != 0 || b.M_op != 0; }

std::string moment_reason(JointKind kind, const JointBrace& b) {
  constexpr double square_on = 1 * degree;  // taken as 90 degrees (judgement)
  if (!has_moment(b)) return "";
  if (is_round_tube(b.profile)) return "outside the scope: Table 7.14 has no round braces";
  if (kind == JointKind::Y || b.angle < 90 * degree - square_on) {
    return "outside the scope: Table 7.14 has brace moments of T and X joints at 90 degrees only";
  }
  return "";
}

std::string stress_reason(double k_n) {
  return k_n > 0 ? "" : "the chord's compression leaves its face no strength (k_n = 0)";
}

}  // namespace

double chord_stress_factor(double n, double beta) {
  return n <= 0 ? 1 : std::clamp(1.3 - 0.4 * n / beta, 0.0, 1.0);
}

double chord_face_resistance(double fy0, double t0, double beta, double theta, double k_n) {
  const double sine = std::sin(theta);
  return k_n * fy0 * t0 * t0 / ((1 - beta) * sine) * (2 * beta / sine + 4 * std::sqrt(1 - beta)) /
         gamma_M5;
}

double gap_joint_resistance(double fy0, double b0, double t0, double beta, double theta,
                            double k_n) {
  const double gamma = b0 / (2 * t0);
  return 8.9 * std::sqrt(gamma) * k_n * fy0 * t0 * t0 / std::sin(theta) * beta / gamma_M5;
}

double in_plane_moment_resistance(double fy0, double b0, double t0, double b1, double k_n) {
  const double beta = b1 / b0, eta = b1 / b0;
  return k_n * fy0 * t0 * t0 * b1 * (1 / (2 * eta) + 2 / std::sqrt(1 - beta) + eta / (1 - beta)) /
         gamma_M5;
}

double out_of_plane_moment_resistance(double fy0, double b0, double t0, double b1, double k_n) {
  const double beta = b1 / b0;
  const double growth = (1 + beta) / (1 - beta);
  return k_n * fy0 * t0 * t0 * (b1 * growth / 2 + std::sqrt(2 * b0 * b1 * growth)) / gamma_M5;
}

double chord_distortion_resistance(double fy0, double b0, double t0, double b1) {
  return 2 * fy0 * t0 * (b1 * t0 + std::sqrt(b0 * b0 * t0 * 2 * b0)) / gamma_M5;
}

double joint_gap(double h0, double h1, double h2, double theta1, double theta2,
                 double eccentricity) {
  const double sine1 = std::sin(theta1), sine2 = std::sin(theta2);
  return (eccentricity + h0 / 2) * std::sin(theta1 + theta2) / (sine1 * sine2) - h1 / (2 * sine1) -
         h2 / (2 * sine2);
}

TubeJoint tube_joint(JointKind kind, const JointChord& chord, const JointBrace& brace) {
  TubeJoint r;
  r.result.clause = "EN 1993-1-8 7.5, Tables 7.10 and 7.14";
  r.result.reason = chord_reason(chord, 10);  // Table 7.9
  if (r.result.reason.empty()) r.result.reason = brace_reason(brace, chord, 0.25);
  if (!r.result.reason.empty()) return r;

  const double b0 = chord.profile.width, t0 = chord.profile.wall, b1 = brace.profile.width;
  r.beta = b1 / b0;
  r.n = chord.stress / chord.fy / gamma_M5;
  r.k_n = chord_stress_factor(r.n, r.beta);
  r.result.reason = first_of<3>({range_reason("beta = b1/b0", r.beta, 0, 0.85),
                                 moment_reason(kind, brace), stress_reason(r.k_n)});
  if (!r.result.reason.empty()) return r;

  const double strength = strength_factor(chord, {&brace});
  JointResistance& R = r.brace[0];
  R.N_Rd = strength * shape_factor(brace) *
           chord_face_resistance(chord.fy, t0, r.beta, brace.angle, r.k_n);
  const bool moments_covered =
      kind != JointKind::Y && moment_reason(kind, brace).empty() && !is_round_tube(brace.profile);
  if (moments_covered) {
    R.Mip_Rd = strength * in_plane_moment_resistance(chord.fy, b0, t0, b1, r.k_n);
    R.Mop_Rd = strength * out_of_plane_moment_resistance(chord.fy, b0, t0, b1, r.k_n);
    if (kind == JointKind::T) {
      R.Mop_Rd = std::min(R.Mop_Rd, strength * chord_distortion_resistance(chord.fy, b0, t0, b1));
    }
  }
  r.result.utilisation =
      share(brace.N, R.N_Rd) + share(brace.M_ip, R.Mip_Rd) + share(brace.M_op, R.Mop_Rd);
  return r;
}

TubeJoint gap_joint(const JointChord& chord, const JointBrace& first, const JointBrace& second,
                    double gap) {
  TubeJoint r;
  r.result.clause = "EN 1993-1-8 7.5, Table 7.10";
  r.result.reason = chord_reason(chord, 15);  // Table 7.9
  if (!r.result.reason.empty()) return r;

  const double b0 = chord.profile.width, t0 = chord.profile.wall;
  const double least = std::max(0.35, 0.1 + 0.01 * b0 / t0);  // Table 7.8
  r.result.reason =
      first_of<2>({brace_reason(first, chord, least), brace_reason(second, chord, least)});
  if (!r.result.reason.empty()) return r;
  if (is_round_tube(first.profile) != is_round_tube(second.profile)) {
    r.result.reason = "outside the scope: one brace is square and one round";
    return r;
  }
  if (has_moment(first) || has_moment(second)) {
    r.result.reason = "outside the scope: there is no rule for brace moments at a gap joint";
    return r;
  }

  const double b1 = first.profile.width, b2 = second.profile.width, mm = 1e-3;
  r.beta = (b1 + b2) / (2 * b0);
  r.n = chord.stress / chord.fy / gamma_M5;
  r.k_n = chord_stress_factor(r.n, r.beta);
  const double least_gap =
      std::max(0.5 * (1 - r.beta) * b0, first.profile.wall + second.profile.wall);
  const double mean = (b1 + b2) / 2;
  r.result.reason = first_of<5>(
      {range_reason("beta = (b1 + b2)/(2 b0)", r.beta, 0, 1),
       range_reason("(b1 + b2)/(2 b1)", mean / b1, 0.6, 1.3),
       range_reason("(b1 + b2)/(2 b2)", mean / b2, 0.6, 1.3),
       range_reason("the gap", gap / mm, least_gap / mm, 1.5 * (1 - r.beta) * b0 / mm, " mm"),
       stress_reason(r.k_n)});
  if (!r.result.reason.empty()) return r;

  const double strength = strength_factor(chord, {&first, &second});
  double worst = 0;
  for (size_t i = 0; i < 2; ++i) {
    const JointBrace& b = i == 0 ? first : second;
    r.brace[i].N_Rd =
        strength * shape_factor(b) * gap_joint_resistance(chord.fy, b0, t0, r.beta, b.angle, r.k_n);
    worst = std::max(worst, share(b.N, r.brace[i].N_Rd));
  }
  r.result.utilisation = worst;
  return r;
}

}  // namespace tubewright
