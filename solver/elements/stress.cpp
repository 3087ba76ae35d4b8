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
StressPoint hollow_rectangle_point(const Section& s, double y, double z) {
  const Profile& p = s.profile;
  const double w = p.width - p.wall, h = p.height - p.wall;
  const double corner_z = w * h / (4 * s.Iy), web_z = h * h / (8 * s.Iy);
  const double corner_y = w * h / (4 * s.Iz), web_y = w * w / (8 * s.Iz);
  StressPoint point;
  // On a web y is +-1: its corners' flow and the parabola; on a flange the parabola is nothing.
  point.shear_per_Vz = y * (corner_z + (std::abs(y) == 1 ? web_z * (1 - z * z) : 0));
  point.shear_per_Vy = -z * (corner_y + (std::abs(z) == 1 ? web_y * (1 - y * y) : 0));
  point.shear_per_T = 1 / s.Wt;
  return point;
}

// Solid rectangle: transverse shear goes as a parabola from 1.5 V/A along the middle to zero at the
// faces it acts towards; torsion likewise from its greatest at the middle of the long sides to zero
// in the corners, and is taken at its greatest on the short sides too.
StressPoint solid_rectangle_point(const Section& s, double y, double z) {
  StressPoint point;
  const double along_web = 1 - z * z, along_flange = 1 - y * y;
  point.shear_per_T = (std::abs(y) == 1 ? along_web : along_flange) / s.Wt;
  point.shear_per_Vz = (std::abs(y) == 1 ? y : 0) * 1.5 / s.A * along_web;
  point.shear_per_Vy = -(std::abs(z) == 1 ? z : 0) * 1.5 / s.A * along_flange;
  return point;
}

/// `y`, `z`: -1 to 1 across the section, one of them +-1: on the outline.
StressPoint rectangle_point(const Section& s, double y, double z) {
  StressPoint point = s.profile.kind == ProfileKind::hollow_rectangle
                          ? hollow_rectangle_point(s, y, z)
                          : solid_rectangle_point(s, y, z);
  point.y = y * s.profile.width / 2;
  point.z = z * s.profile.height / 2;
  return point;
}

bool is_rectangle(const Section& s) {
  return s.profile.kind == ProfileKind::hollow_rectangle ||
         s.profile.kind == ProfileKind::solid_rectangle;
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

/// sigma^2 + 3 tau^2, what von Mises' stress is the root of.
double mises_square(const PointStress& at) {
  return at.normal * at.normal + 3 * at.shear * at.shear;
}

/// Normal and shear stress, without von Mises' that takes a root.
PointStress normal_and_shear(const Section& s, const StressPoint& p, const SectionForces& f) {
  PointStress r;
  r.normal = f.N / s.A + f.My * p.z / s.Iy - f.Mz * p.y / s.Iz;
  r.shear = f.T * p.shear_per_T + f.Vy * p.shear_per_Vy + f.Vz * p.shear_per_Vz;
  return r;
}

/// The greatest size of a parabola between two places, from its values there and halfway.
double greatest_of_parabola(double first, double middle, double last) {
  const double slope = (last - first) / 2, bend = (first + last) / 2 - middle;
  double greatest = std::max(std::abs(first), std::abs(last));
  if (std::abs(slope) < 2 * std::abs(bend)) {  // it turns between them
    greatest = std::max(greatest, std::abs(middle - slope * slope / (4 * bend)));
  }
  return greatest;
}

/// sigma^2 + 3 tau^2 along a wall from -1 to 1, where sigma is linear and tau at most quadratic:
/// known from its ends and its middle.
class WallSquare {
 public:
  template <class Point>
  WallSquare(const Section& s, const SectionForces& f, const Point& point) {
    const PointStress first = normal_and_shear(s, point(-1.0), f),
                      middle = normal_and_shear(s, point(0.0), f),
                      last = normal_and_shear(s, point(1.0), f);
    normal_ = middle.normal;
    normal_slope_ = (last.normal - first.normal) / 2;
    shear_ = middle.shear;
    shear_slope_ = (last.shear - first.shear) / 2;
    shear_bend_ = (first.shear + last.shear) / 2 - middle.shear;
  }

  /// None is higher: the greatest of both parts, as if at one place.
  double bound() const {
    const double normal = std::abs(normal_) + std::abs(normal_slope_);
    const double shear = greatest_of_parabola(shear_ - shear_slope_ + shear_bend_, shear_,
                                              shear_ + shear_slope_ + shear_bend_);
    return normal * normal + 3 * shear * shear;
  }

  /// Half the derivative along the wall.
  double half_slope(double at) const {
    const double shear = shear_ + (shear_slope_ + shear_bend_ * at) * at;
    return (normal_ + normal_slope_ * at) * normal_slope_ +
           3 * shear * (shear_slope_ + 2 * shear_bend_ * at);
  }

  double operator()(double at) const {
    PointStress here;
    here.normal = normal_ + normal_slope_ * at;
    here.shear = shear_ + (shear_slope_ + shear_bend_ * at) * at;
    return mises_square(here);
  }

 private:
  double normal_, normal_slope_, shear_, shear_slope_, shear_bend_;
};

/// The peak between a place from which it goes up towards `beyond`, and that, by halving.
double peak_towards(const WallSquare& square, double at, double beyond) {
  constexpr int halvings = 26;  // of an eighth of a wall: the peak's height is exact by then
  const double up = beyond > at ? 1 : -1;
  for (int i = 0; i < halvings; ++i) {
    const double middle = (at + beyond) / 2;
    (up * square.half_slope(middle) > 0 ? at : beyond) = middle;
  }
  return at;
}

/// The peaks among a few places along a wall, each closed in on.
template <class Point>
StressPoint worst_on_wall(const WallSquare& square, const Point& point) {
  constexpr int steps = 16;
  const auto place = [&](int k) { return -1 + 2.0 * std::clamp(k, 0, steps) / steps; };
  std::array<double, steps + 1> at_place;
  for (int k = 0; k <= steps; ++k) at_place[static_cast<size_t>(k)] = square(place(k));
  const auto height = [&](int k) { return at_place[static_cast<size_t>(std::clamp(k, 0, steps))]; };
  double best = height(steps) > height(0) ? 1 : -1, best_height = square(best);
  for (int k = 0; k <= steps; ++k) {
    if (height(k) < height(k - 1) || height(k) < height(k + 1)) continue;
    const double slope = square.half_slope(place(k));
    const double beyond = slope == 0 ? place(k) : place(slope > 0 ? k + 1 : k - 1);
    const double peak = beyond == place(k) ? beyond : peak_towards(square, place(k), beyond);
    if (const double found = square(peak); found > best_height) {
      best = peak;
      best_height = found;
    }
  }
  return point(best);
}

/// Calls visit(point), which returns the greatest square met, for every point that may be the
/// worst.
template <class Visit>
void each_candidate(const Section& s, const std::vector<StressPoint>& ring, const SectionForces& f,
                    Visit visit) {
  double greatest = 0;
  for (const StressPoint& p : ring) greatest = visit(p);
  if (is_rectangle(s)) {
    const auto search = [&](const auto& point) {
      const WallSquare square(s, f, point);
      if (square.bound() > greatest) greatest = visit(worst_on_wall(square, point));
    };
    for (const int side : {1, -1}) {
      search([&](double at) { return rectangle_point(s, side, at); });
      search([&](double at) { return rectangle_point(s, at, side); });
    }
  }
  if (s.profile.kind == ProfileKind::round && (f.My != 0 || f.Mz != 0)) {
    const double steepest = std::atan2(f.My, -f.Mz);  // sigma ~ My sin - Mz cos
    visit(round_point(s, steepest));
    visit(round_point(s, steepest + std::numbers::pi));
  }
}

Stress worst_on_ring(const Section& s, const std::vector<StressPoint>& ring,
                     const SectionForces& f) {
  if (ring.empty()) return unknown_profile_stress(s, f);
  PointStress worst;
  double greatest = -1;
  each_candidate(s, ring, f, [&](const StressPoint& p) {
    const PointStress here = normal_and_shear(s, p, f);
    const double square = mises_square(here);
    if (square > greatest) {
      greatest = square;
      worst = here;
    }
    return greatest;
  });
  Stress stress;
  stress.axial = f.N / s.A;
  stress.bending = std::abs(worst.normal - stress.axial);
  stress.shear = std::abs(worst.shear);
  stress.von_mises = std::hypot(worst.normal, std::sqrt(3.0) * worst.shear);
  return stress;
}

/// The greatest that each section force can do to any point of the outline.
struct Reach {
  double y = 0, z = 0;
  double shear_per_Vy = 0, shear_per_Vz = 0, shear_per_T = 0;
};

Reach reach_of(const std::vector<StressPoint>& ring) {
  Reach r;
  for (const StressPoint& p : ring) {
    r.y = std::max(r.y, std::abs(p.y));
    r.z = std::max(r.z, std::abs(p.z));
    r.shear_per_Vy = std::max(r.shear_per_Vy, std::abs(p.shear_per_Vy));
    r.shear_per_Vz = std::max(r.shear_per_Vz, std::abs(p.shear_per_Vz));
    r.shear_per_T = std::max(r.shear_per_T, std::abs(p.shear_per_T));
  }
  return r;
}

/// No von Mises stress between two cuts of a smooth interval is higher: all forces at their
/// greatest there (moments are parabolas, the others linear), all stresses as if at one point.
double bound_between(const BeamState& beam, const std::vector<StressPoint>& ring,
                     const Reach& reach, double from, double to) {
  const Section& s = beam.element.section;
  const SectionForces first = section_forces(beam, from),
                      middle = section_forces(beam, (from + to) / 2),
                      last = section_forces(beam, to, true);
  SectionForces greatest;
  for (double SectionForces::*part : {&SectionForces::N, &SectionForces::Vy, &SectionForces::Vz,
                                      &SectionForces::T, &SectionForces::My, &SectionForces::Mz}) {
    greatest.*part = greatest_of_parabola(first.*part, middle.*part, last.*part);
  }
  if (ring.empty()) return unknown_profile_stress(s, greatest).von_mises;
  const double normal =
      greatest.N / s.A + greatest.My * reach.z / s.Iy + greatest.Mz * reach.y / s.Iz;
  const double shear = greatest.T * reach.shear_per_T + greatest.Vy * reach.shear_per_Vy +
                       greatest.Vz * reach.shear_per_Vz;
  return std::hypot(normal, std::sqrt(3.0) * shear);
}

}  // namespace

std::vector<StressPoint> outline(const Section& section) {
  switch (section.profile.kind) {
    case ProfileKind::hollow_rectangle:
    case ProfileKind::solid_rectangle: {
      std::vector<StressPoint> ring;
      for (const auto& [y, z] : rectangle_ring) ring.push_back(rectangle_point(section, y, z));
      return ring;
    }
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
  PointStress r = normal_and_shear(s, p, f);
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
  const Reach reach = loaded_along ? reach_of(ring) : Reach{};
  for (size_t i = 0; i + 1 < at.size(); ++i) {
    const double a = at[i], b = at[i + 1];
    consider(a, false);
    consider(b, true);
    if (!loaded_along) continue;
    const auto value = [&](double s) {
      return worst_on_ring(section, ring, section_forces(beam, s)).von_mises;
    };
    const auto place = [&](int k) { return a + (b - a) * k / pieces; };
    std::array<bool, pieces> may_be_worse;
    for (int k = 0; k < pieces; ++k) {
      may_be_worse[static_cast<size_t>(k)] =
          bound_between(beam, ring, reach, place(k), place(k + 1)) > worst.stress.von_mises;
    }
    double best = a, best_value = -1;
    for (int k = 1; k < pieces; ++k) {
      if (!may_be_worse[static_cast<size_t>(k) - 1] && !may_be_worse[static_cast<size_t>(k)])
        continue;
      const double s = place(k);
      const double v = value(s);
      if (v > best_value) {
        best = s;
        best_value = v;
      }
    }
    if (best_value < 0) continue;
    const double step = (b - a) / pieces;
    const auto minus_value = [&](double s) { return -value(s); };
    consider(golden_section_minimum(best - step, best + step, minus_value), false);
  }
  return worst;
}

bool may_exceed(const BeamState& beam, double least) {
  const std::vector<StressPoint> ring = outline(beam.element.section);
  const Reach reach = reach_of(ring);
  const std::vector<double> at = smooth_intervals(beam);
  for (size_t i = 0; i + 1 < at.size(); ++i) {
    if (!(bound_between(beam, ring, reach, at[i], at[i + 1]) <= least)) return true;
  }
  return false;
}

}  // namespace tubewright
