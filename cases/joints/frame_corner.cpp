#include "cases/joints/frame_corner.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "cases/checks/section_class.h"
#include "cases/checks/section_resistance.h"
#include "cases/joints/joint_scope.h"
#include "cases/joints/tube_joint.h"
#include "solver/model/angle.h"

namespace tubewright {

namespace {

constexpr double right_angle = 90 * degree, straight = 180 * degree;
constexpr double angle_rounding = 0.5 * degree;  // as drawn (judgement)

bool all_finite(const SectionForces& f) {
  return std::isfinite(f.N + f.Vy + f.Vz + f.T + f.My + f.Mz);
}

std::string corner_obstacle(const CornerTube& c, const SectionForces& f, const SectionClass& k) {
  const Profile& p = c.section.profile;
  if (p.kind == ProfileKind::unknown) return "the tube's shape is not known";
  if (k.value == 0) return k.reason;
  if (k.value == 4 && p.kind == ProfileKind::round) return "a round tube of class 4";
  return all_finite(f) ? "" : "the forces are not finite";
}

}  // namespace

double corner_efficiency(double b0, double h0, double t0, double angle) {
  const double square =
      std::min(1.0, 3 * std::sqrt(b0 / h0) / std::pow(b0 / t0, 0.8) + 1 / (1 + 2 * b0 / h0));
  const double theta = std::clamp(angle, right_angle, straight);
  return 1 - std::numbers::sqrt2 * std::cos(theta / 2) * (1 - square);
}

double corner_axial_limit(double angle) {
  constexpr double limit = 0.2, nearly_straight = 150 * degree;
  const double part =
      std::clamp((angle - nearly_straight) / (straight - nearly_straight), 0.0, 1.0);
  return std::lerp(limit, 1, part);
}

CheckResult corner_check(const CornerTube& c, const SectionForces& f) {
  CheckResult r;
  r.clause = "CIDECT Design Guide 3, frame corners";
  const Profile& p = c.section.profile;
  if (p.kind == ProfileKind::solid_rectangle || (p.kind == ProfileKind::round && p.wall == 0)) {
    r.needed = false;
    r.reason = "a solid bar: it has no walls that give way";
    return r;
  }
  const SectionClass section_is = section_class(c.section, c.fy, f);
  r.reason = corner_obstacle(c, f, section_is);
  if (!r.reason.empty()) return r;

  const double b0 = c.bends_about_y ? p.width : p.height;
  const double h0 = c.bends_about_y ? p.height : p.width;
  const double alpha = corner_efficiency(b0, h0, p.wall, c.angle);
  const SectionResistance R = section_resistance(c.section, c.fy, section_is.value);
  const double factor = strength_factor(c.fy);
  const double n = std::abs(f.N) / R.N_Rd;
  const double m_in = c.bends_about_y ? std::abs(f.My) / R.My_Rd : std::abs(f.Mz) / R.Mz_Rd;
  const double m_out = c.bends_about_y ? std::abs(f.Mz) / R.Mz_Rd : std::abs(f.My) / R.My_Rd;
  const double t = std::abs(f.T) / R.T_Rd;
  const double v = std::max(std::abs(f.Vy) / R.Vy_Rd, std::abs(f.Vz) / R.Vz_Rd);
  constexpr double shear_limit = 0.5;
  r.utilisation =
      std::max({(n + m_in + m_out + t) / alpha, v / shear_limit, n / corner_axial_limit(c.angle)}) /
      factor;

  constexpr double hardly_used = 0.01, rounding = 1 + 1e-9, basic_limit = 0.2;
  RangesLeft left;
  left.note(m_out + t > hardly_used, "a corner bent out of its plane");
  left.note(p.kind == ProfileKind::round, "a corner of round tubes");
  left.note(c.angle < right_angle - angle_rounding, "a corner sharper than 90 degrees");
  left.note(n > basic_limit * factor * rounding && c.angle > right_angle,
            "more than a fifth of N_pl through a corner");
  note_tube_ranges(left, p.wall, c.fy);
  left.note(section_is.value > 2, "compressed walls of class 3 or 4");
  r.comparison = !left.none();
  r.reason = left.text();
  return r;
}

}  // namespace tubewright
