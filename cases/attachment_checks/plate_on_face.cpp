#include "cases/attachment_checks/plate_on_face.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

#include "cases/joints/chord_face.h"
#include "cases/joints/joint_scope.h"

namespace tubewright {
namespace {

constexpr double upright = std::numbers::pi / 2;
constexpr double no_limit = std::numeric_limits<double>::infinity();
constexpr const char* clause = "EN 1993-1-8 Table 7.13";

double end_factor(const PlatedTube& t) { return t.open_end ? 0.5 : 1; }

/// `turned`: what a moment uses of its resistance.
void note_ranges(RangesLeft& left, const PlatedTube& t, double turned) {
  JointChord chord;
  chord.b0 = t.b0;
  chord.h0 = t.h0;
  chord.t0 = t.t0;
  chord.fy = t.fy;
  chord.stress = t.n * t.fy;
  note_chord_ranges(left, chord, JointRange::single);
  constexpr double rounding = 1e-6;
  left.note(turned > rounding, "a moment on a plate, by the pattern of a T joint");
  left.note(t.open_end, "near an open end, where half is counted");
}

bool unknown(double value) { return !(value > 0) || !std::isfinite(value); }

CheckResult of_shares(const PlatedTube& t, double share, const RangesLeft& left) {
  CheckResult r;
  r.clause = clause;
  r.utilisation = share;
  r.comparison = !left.none();
  r.reason = left.text();
  if (t.n >= 1) r.utilisation = std::max(share, t.n);
  return r;
}

CheckResult without_number(const std::string& reason) {
  CheckResult r;
  r.clause = clause;
  r.reason = reason;
  return r;
}

}  // namespace

double along_plate_resistance(const PlatedTube& t, const FacePlate& p) {
  return end_factor(t) * chord_face_resistance(t.fy, t.t0, p.thickness / t.b0, p.size / t.b0,
                                               upright, plate_stress_factor(t.n));
}

double along_plate_moment(const PlatedTube& t, const FacePlate& p) {
  return end_factor(t) * in_plane_moment_resistance(t.fy, t.t0, p.size, p.thickness / t.b0,
                                                    p.size / t.b0, plate_stress_factor(t.n));
}

double AcrossPlate::least() const { return std::min({plate, side_wall, punching, face}); }

AcrossPlate across_plate_resistance(const PlatedTube& t, const FacePlate& p) {
  constexpr double folds_up_to = 0.85, rounding = 1e-9;
  const double beta = p.size / t.b0, k_m = plate_stress_factor(t.n), factor = end_factor(t);
  const double clear = t.b0 - 2 * t.t0;
  AcrossPlate r;
  r.effective = effective_width(t.fy, t.b0, t.t0, p.fy, p.thickness, p.size);
  r.plate = p.fy * p.thickness * r.effective / gamma_M5;
  r.side_wall = p.size >= clear - rounding
                    ? factor * side_wall_resistance(k_m * t.fy, t.t0, p.thickness, upright)
                    : no_limit;
  r.punching = p.size <= clear + rounding
                   ? factor * punching_resistance(t.fy, t.t0, p.thickness,
                                                  2 * punching_width(t.b0, t.t0, p.size), upright)
                   : no_limit;
  r.face = beta <= folds_up_to
               ? factor * chord_face_resistance(t.fy, t.t0, beta, p.thickness / t.b0, upright, k_m)
               : no_limit;
  return r;
}

double across_plate_moment(const PlatedTube& t, const FacePlate& p) {
  constexpr double folds_up_to = 0.85;
  const double half = across_plate_resistance(t, p).effective / 2;
  const double beta = p.size / t.b0, k_m = plate_stress_factor(t.n), factor = end_factor(t);
  double least = p.fy * p.thickness * half * (p.size - half) / gamma_M5;
  if (beta <= folds_up_to) {
    least = std::min(
        least, factor * out_of_plane_moment_resistance(t.fy, t.t0, t.b0, p.thickness, beta, k_m));
  }
  if (p.size >= t.b0 - 2 * t.t0) {
    least = std::min({least,
                      factor * out_of_plane_side_wall_moment(k_m * t.fy, t.b0, t.t0, p.thickness),
                      factor * chord_distortion_resistance(t.fy, t.b0, t.h0, t.t0, p.thickness)});
  }
  return least;
}

CheckResult along_plate_check(const PlatedTube& t, const FacePlate& p, double N, double M,
                              int faces) {
  if (unknown(t.fy)) return without_number("the tube's yield strength is not known");
  if (!(p.thickness < t.b0)) return without_number("the plate is thicker than the face is wide");
  constexpr double thin_plate = 0.2;
  const double turned = std::abs(M) / (faces * along_plate_moment(t, p));
  RangesLeft left;
  note_ranges(left, t, turned);
  left.note(p.thickness / t.b0 > thin_plate, "a plate thicker than a fifth of the face");
  return of_shares(t, std::abs(N) / (faces * along_plate_resistance(t, p)) + turned, left);
}

CheckResult across_plate_check(const PlatedTube& t, const FacePlate& p, double N, double M) {
  if (unknown(t.fy) || unknown(p.fy)) return without_number("a yield strength is not known");
  constexpr double least_width = 0.5, stocky = 30, rounding = 1e-9;
  const double turned = std::abs(M) / across_plate_moment(t, p);
  RangesLeft left;
  note_ranges(left, t, turned);
  left.note(p.size / t.b0 < least_width - rounding, "a plate narrower than half the face");
  left.note(p.size / t.b0 > 1 + rounding, "a plate wider than the face");
  left.note(t.b0 / t.t0 > stocky + rounding, "a tube with b0/t0 over 30");
  return of_shares(t, std::abs(N) / across_plate_resistance(t, p).least() + turned, left);
}

CheckResult walls_beside_check(const PlatedTube& t, double E, double h1, double N, double M_ip,
                               double M_op, const char* what) {
  if (unknown(t.fy)) return without_number("the tube's yield strength is not known");
  const double f_k = plate_stress_factor(t.n) * t.fy, factor = end_factor(t);
  const double chi = side_wall_buckling(t.fy, E, t.h0 / t.t0, upright, BucklingCurve::c);
  const double N_Rd = factor * side_wall_resistance(chi * f_k, t.t0, h1, upright);
  const double ip = factor * in_plane_side_wall_moment(f_k, t.t0, h1);
  const double op = factor * std::min(out_of_plane_side_wall_moment(f_k, t.b0, t.t0, h1),
                                      chord_distortion_resistance(t.fy, t.b0, t.h0, t.t0, h1));
  RangesLeft left;
  note_ranges(left, t, 0);
  left.note(true, what + std::string(", taken as a brace as wide as the tube"));
  CheckResult r =
      of_shares(t, std::abs(N) / N_Rd + std::abs(M_ip) / ip + std::abs(M_op) / op, left);
  r.clause = "EN 1993-1-8 Tables 7.11, 7.14";
  return r;
}

CheckResult weak_way_check(double M, double beside, const char* advice) {
  constexpr double hardly = 0.02;
  CheckResult r;
  r.clause = clause;
  r.needed = !(std::abs(M) <= hardly * beside);
  r.reason = r.needed ? std::string(
                            "the face has next to nothing against a plate that is turned "
                            "about its own foot; ") +
                            advice
                      : "hardly any load that way";
  return r;
}

}  // namespace tubewright
