#include "solver/elements/stress.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <utility>

#include "solver/linear_algebra/golden_section.h"

namespace tubewright {

namespace {

constexpr int round_points = 32;

/// Wall centres and corners of a rectangle as signs of y and z.
constexpr std::array<std::pair<int, int>, 8> rectangle_ring = {
    {{1, 0}, {1, 1}, {0, 1}, {-1, 1}, {-1, 0}, {-1, -1}, {0, -1}, {1, -1}}};

// Thin-walled box on its mid-line (w wide, h high, wall t). A force V_z makes shear flow
// q = V_z Q/I_y that is zero in the middle of the walls parallel to y, grows linearly to the corner
// (Q = t (w/2)(h/2)) and as a parabola to the middle of the webs (Q + t (h/2)^2/2). It runs upward
// in both webs, so anticlockwise on the +y side and clockwise on the -y side.
std::vector<StressPoint> hollow_rectangle_outline(const Section& s) {
  const Profile& p = s.profile;
  const double w = p.width - p.wall, h = p.height - p.wall;
  const double corner_z = w * h / (4 * s.Iy), web_z = corner_z + h * h / (8 * s.Iy);
  const double corner_y = w * h / (4 * s.Iz), web_y = corner_y + w * w / (8 * s.Iz);
  std::vector<StressPoint> ring;
  for (const auto& [i, j] : rectangle_ring) {
    StressPoint point;
    point.y = i * p.width / 2;
    point.z = j * p.height / 2;
    point.shear_per_Vz = i * (j == 0 ? web_z : corner_z);
    point.shear_per_Vy = -j * (i == 0 ? web_y : corner_y);
    point.shear_per_T = 1 / s.Wt;
    ring.push_back(point);
  }
  return ring;
}

// Solid rectangle: transverse shear is 1.5 V/A along the middle and zero at the faces it acts
// towards; torsion is greatest at the middle of the long sides, zero in the corners, and is taken
// at its greatest on the short sides too.
std::vector<StressPoint> solid_rectangle_outline(const Section& s) {
  const Profile& p = s.profile;
  std::vector<StressPoint> ring;
  for (const auto& [i, j] : rectangle_ring) {
    StressPoint point;
    point.y = i * p.width / 2;
    point.z = j * p.height / 2;
    const bool corner = i != 0 && j != 0;
    if (!corner) point.shear_per_T = 1 / s.Wt;
    if (j == 0) point.shear_per_Vz = i * 1.5 / s.A;
    if (i == 0) point.shear_per_Vy = -j * 1.5 / s.A;
    ring.push_back(point);
  }
  return ring;
}

// V Q/(I b) at the neutral axis of a ring (b = 2 wall) or disc (b = diameter), Q = 2/3 (R^3 - r^3),
// falling with the cosine of the angle from there, as for a thin tube.
StressPoint round_point(const Section& s, double angle) {
  const double R = s.profile.height / 2;
  const bool solid = s.profile.wall == 0;
  const double r = solid ? 0 : R - s.profile.wall;
  const double Q = 2.0 / 3 * (R * R * R - r * r * r);
  const double peak = Q / (s.Iy * (solid ? 2 * R : 2 * s.profile.wall));
  return {R * std::cos(angle), R * std::sin(angle), -peak * std::sin(angle), peak * std::cos(angle),
          1 / s.Wt};
}

/// Every part at its greatest at once. For the transverse force: over its shear area, or over half
/// the area where the section is shear-rigid.
Stress unknown_profile_stress(const Section& s, const SectionForces& f) {
  const auto area = [&](double shear_area) {
    return std::isinf(shear_area) ? s.A / 2 : shear_area;
  };
  Stress r;
  r.axial = f.N / s.A;
  r.bending = std::abs(f.My) / s.Wy + std::abs(f.Mz) / s.Wz;
  r.shear = std::abs(f.T) / s.Wt + std::hypot(f.Vy / area(s.Ay), f.Vz / area(s.Az));
  r.von_mises = std::hypot(std::abs(r.axial) + r.bending, std::sqrt(3.0) * r.shear);
  return r;
}

/// Calls visit(point) for every point that may be the worst.
template <class Visit>
void each_candidate(const Section& s, const std::vector<StressPoint>& ring, const SectionForces& f,
                    Visit visit) {
  for (const StressPoint& p : ring) visit(p);
  if (s.profile.kind == ProfileKind::round && (f.My != 0 || f.Mz != 0)) {
    const double steepest = std::atan2(f.My, -f.Mz);  // sigma ~ My sin - Mz cos
    visit(round_point(s, steepest));
    visit(round_point(s, steepest + std::numbers::pi));
  }
}

Stress worst_on_ring(const Section& s, const std::vector<StressPoint>& ring,
                     const SectionForces& f) {
  if (ring.empty()) return unknown_profile_stress(s, f);
  Stress worst;
  worst.axial = f.N / s.A;
  worst.von_mises = -1;
  each_candidate(s, ring, f, [&](const StressPoint& p) {
    const PointStress here = stress_at(s, p, f);
    if (here.von_mises <= worst.von_mises) return;
    worst.von_mises = here.von_mises;
    worst.shear = std::abs(here.shear);
    worst.bending = std::abs(here.normal - worst.axial);
  });
  return worst;
}

}  // namespace

std::vector<StressPoint> outline(const Section& section) {
  switch (section.profile.kind) {
    case ProfileKind::hollow_rectangle:
      return hollow_rectangle_outline(section);
    case ProfileKind::solid_rectangle:
      return solid_rectangle_outline(section);
    case ProfileKind::round: {
      std::vector<StressPoint> ring;
      for (int i = 0; i < round_points; ++i) {
        ring.push_back(round_point(section, 2 * std::numbers::pi * i / round_points));
      }
      return ring;
    }
    case ProfileKind::unknown:
      break;
  }
  return {};
}

PointStress stress_at(const Section& s, const StressPoint& p, const SectionForces& f) {
  PointStress r;
  r.normal = f.N / s.A + f.My * p.z / s.Iy - f.Mz * p.y / s.Iz;
  r.shear = f.T * p.shear_per_T + f.Vy * p.shear_per_Vy + f.Vz * p.shear_per_Vz;
  r.von_mises = std::hypot(r.normal, std::sqrt(3.0) * r.shear);
  return r;
}

Stress worst_stress(const Section& section, const SectionForces& f) {
  return worst_on_ring(section, outline(section), f);
}

MemberStress worst_along(const BeamState& beam) {
  const Section& section = beam.element.section;
  const std::vector<StressPoint> ring = outline(section);
  MemberStress worst;
  worst.stress.von_mises = -1;
  const auto consider = [&](double s, bool before) {
    const Stress here = worst_on_ring(section, ring, section_forces(beam, s, before));
    if (here.von_mises > worst.stress.von_mises) worst = {here, s};
    return here.von_mises;
  };

  const std::vector<double> at = smooth_intervals(beam);
  // With axial line loads only the section forces are linear, and their worst stress is at an end.
  const Eigen::Vector3d line = beam.element.axes * beam.actions.line;
  const bool loaded_along = line.tail<2>().norm() > 1e-9 * line.norm();
  constexpr int pieces = 16;  // sigma^2 + 3 tau^2 has at most three stationary points an interval
  for (size_t i = 0; i + 1 < at.size(); ++i) {
    const double a = at[i], b = at[i + 1];
    consider(a, false);
    consider(b, true);
    if (!loaded_along) continue;
    const auto value = [&](double s) {
      return worst_on_ring(section, ring, section_forces(beam, s)).von_mises;
    };
    double best = a, best_value = -1;
    for (int k = 1; k < pieces; ++k) {
      const double s = a + (b - a) * k / pieces;
      const double v = value(s);
      if (v > best_value) {
        best = s;
        best_value = v;
      }
    }
    const double step = (b - a) / pieces;
    const auto minus_value = [&](double s) { return -value(s); };
    consider(golden_section_minimum(best - step, best + step, minus_value), false);
  }
  return worst;
}

}  // namespace tubewright
