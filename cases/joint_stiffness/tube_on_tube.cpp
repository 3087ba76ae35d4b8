#include "cases/joint_stiffness/tube_on_tube.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <optional>

#include "cases/joint_stiffness/joint_table.h"
#include "cases/joint_stiffness/monotone_curve.h"
#include "solver/model/section_shapes.h"

namespace tubewright {

namespace {

constexpr double slack = 1e-6;  // so that ratios of rounded lengths count as what they are meant

bool within(double value, double least, double most) {
  return value >= least * (1 - slack) && value <= most * (1 + slack);
}

template <std::size_t n>
std::array<double, n> logarithms(const std::array<double, n>& values) {
  std::array<double, n> logs;
  std::transform(values.begin(), values.end(), logs.begin(), [](double v) { return std::log(v); });
  return logs;
}

/// Between rows of a table: straight over the logarithm of the slenderness.
template <std::size_t n>
double between_rows(const std::array<double, n>& slenderness, double at, auto row) {
  const double clipped = std::clamp(at, slenderness.front(), slenderness.back());
  std::size_t i = 0;
  while (i + 2 < n && clipped > slenderness[i + 1]) ++i;
  const double share =
      std::log(clipped / slenderness[i]) / std::log(slenderness[i + 1] / slenderness[i]);
  return (1 - share) * row(i) + share * row(i + 1);
}

double on_betas(const std::array<double, 8>& values, double beta) {
  return monotone_curve(table_betas, logarithms(values), beta);
}

double on_factor_betas(const std::array<double, 6>& values, double beta) {
  return monotone_curve(factor_betas, logarithms(values), beta);
}

/// Parabola through (x1, y1), (0, 0), (x2, y2).
double parabola(double x, double x1, double y1, double x2, double y2) {
  const double a = (y1 / x1 - y2 / x2) / (x1 - x2);
  return x * (y1 / x1 + a * (x - x1));
}

std::optional<OutsideTable> outside(const TubeOnTube& j) {
  if (!within(j.chord_width / j.chord_wall, least_slenderness, most_slenderness)) {
    return OutsideTable::chord_slenderness;
  }
  if (!within(j.brace_width / j.chord_width, least_width_ratio, most_width_ratio)) {
    return OutsideTable::width_ratio;
  }
  if (!within(j.brace_wall / j.chord_wall, least_wall_ratio, most_wall_ratio)) {
    return OutsideTable::wall_ratio;
  }
  if (!within(j.chord_depth / j.chord_width, least_aspect, most_aspect)) {
    return OutsideTable::chord_aspect;
  }
  if (!within(j.brace_depth / j.brace_width, least_aspect, most_aspect)) {
    return OutsideTable::brace_aspect;
  }
  const double side = std::min(j.brace_width, j.brace_depth);
  if (!(side >= least_brace_sides * j.brace_wall * (1 - slack))) return OutsideTable::brace_wall;
  if (!within(j.angle, least_joint_angle, std::numbers::pi / 2)) return OutsideTable::angle;
  return std::nullopt;
}

using Curve = std::array<double, 6> Influence::*;

/// Logarithm of what multiplies the base: each influence as if alone.
double influences(const TubeOnTube& j, double beta, Curve curve) {
  const JointTable& t = joint_table;
  const auto log_of = [&](const Influence& i) { return on_factor_betas(i.*curve, beta); };
  double sum = parabola(std::log(j.brace_wall / j.chord_wall), std::log(0.667),
                        log_of(t.thin_brace), std::log(1.5), log_of(t.thick_brace));
  sum += parabola(std::log(j.chord_depth / j.chord_width), std::log(0.5), log_of(t.flat_chord),
                  std::log(2.0), log_of(t.deep_chord));
  sum += parabola(std::log(j.brace_depth / j.brace_width), std::log(0.5), log_of(t.short_brace),
                  std::log(2.0), log_of(t.long_brace));
  const double lean = 90 - j.angle * 180 / std::numbers::pi;
  sum += parabola(lean, 30, log_of(t.angle_60), 45, log_of(t.angle_45));
  if (j.end == ChordEnd::open) sum += log_of(t.open_end);
  if (j.end == ChordEnd::capped) sum += log_of(t.capped_end);
  return sum;
}

/// Local flexibility of the joint, without unit.
double local_flexibility(const TubeOnTube& j, const BaseGrid& base, Curve curve) {
  const double beta =
      std::clamp(j.brace_width / j.chord_width, least_width_ratio, most_width_ratio);
  const double log_base = between_rows(table_slenderness, j.chord_width / j.chord_wall,
                                       [&](std::size_t row) { return on_betas(base[row], beta); });
  return std::exp(-log_base - influences(j, beta, curve));
}

/// What the beams have from the chord's axis to its face and the solid has not, in the units of the
/// local flexibilities: L t0^3/I, L t0^3 E/(G It), L t0/A.
struct Stub {
  double out_of_plane, in_plane, torsion, axial;
};
Stub stub_of(const TubeOnTube& j) {
  constexpr double nu = 0.3;
  const double t = j.brace_wall, t0 = j.chord_wall;
  const Section brace = hollow_rectangle(j.brace_depth, j.brace_width, t, {2 * t, t}, nu);
  const double length = j.chord_depth / 2 / std::sin(j.angle), cubed = t0 * t0 * t0;
  return {length * cubed / brace.Iz, length * cubed / brace.Iy,
          length * cubed * 2 * (1 + nu) / brace.It, length * t0 / brace.A};
}

/// Of the signed flexibility; `rigid` where the solid gives no more than the beams.
double spring_of(double unit, double flexibility) {
  return flexibility > 0 ? unit / flexibility : rigid;
}

double corner_spring(const CornerOfTubes& c, const CornerGrid& grid) {
  const auto at_aspect = [&](std::size_t a) {
    return between_rows(table_slenderness, c.width / c.wall,
                        [&](std::size_t m) { return std::log(grid[a][m]); });
  };
  const double middle = at_aspect(1);
  const double k = std::exp(middle + parabola(std::log(c.depth / c.width),
                                              std::log(corner_aspects[0]), at_aspect(0) - middle,
                                              std::log(corner_aspects[2]), at_aspect(2) - middle));
  return k < rigid_corner * (1 - slack) ? k : rigid;
}

}  // namespace

Outcome<JointSprings, OutsideTable> springs_of_tube_on_tube(const TubeOnTube& joint, double E) {
  if (const auto why = outside(joint)) return *why;
  const double t0 = joint.chord_wall;
  const double moment = E * t0 * t0 * t0;
  const JointTable& t = joint_table;
  JointSprings k;
  const Stub stub = stub_of(joint);
  const auto local = [&](const BaseGrid& base, Curve curve) {
    return local_flexibility(joint, base, curve);
  };
  k.out_of_plane =
      spring_of(moment, local(t.base_out_of_plane, &Influence::out_of_plane) - stub.out_of_plane);
  // What gives is the turn about the chord's axis: of it a brace at an angle has a part in torsion.
  const double about_chord =
      local(t.base_out_of_plane, &Influence::out_of_plane) / std::pow(std::sin(joint.angle), 2);
  k.torsion = spring_of(moment, about_chord * std::pow(std::cos(joint.angle), 2) - stub.torsion);
  k.in_plane = spring_of(moment, local(t.base_in_plane, &Influence::in_plane) - stub.in_plane);
  k.axial = spring_of(E * t0, local(t.base_axial, &Influence::axial) - stub.axial);
  return k;
}

Outcome<JointSprings, OutsideTable> springs_of_corner(const CornerOfTubes& corner, double E) {
  if (!within(corner.width / corner.wall, least_slenderness, most_slenderness)) {
    return OutsideTable::chord_slenderness;
  }
  if (!within(corner.depth / corner.width, least_aspect, most_aspect)) {
    return OutsideTable::chord_aspect;
  }
  const CornerTable& table = corner.kind == CornerKind::mitred        ? joint_table.mitred
                             : corner.kind == CornerKind::butted_open ? joint_table.butted_open
                                                                      : joint_table.butted_capped;
  const double moment = E * std::pow(corner.wall, 3);
  JointSprings k;
  k.out_of_plane = moment * corner_spring(corner, table.out_of_plane);
  k.in_plane = moment * corner_spring(corner, table.in_plane);
  k.torsion = moment * corner_spring(corner, table.torsion);
  return k;
}

Outcome<PairSprings, OutsideTable> springs_of_pair(const TubeOnTube& brace, double E) {
  TubeOnTube alone = brace;
  alone.end = ChordEnd::through;
  if (const auto why = outside(alone)) return *why;
  if (!within(brace.chord_depth / brace.chord_width, 1, 1)) return OutsideTable::unequal_tubes;
  if (!within(brace.angle, std::numbers::pi / 2, std::numbers::pi / 2)) return OutsideTable::angle;
  const PairTable& table =
      brace.end == ChordEnd::through ? joint_table.pair_through : joint_table.pair_open;
  const double beta =
      std::clamp(brace.brace_width / brace.chord_width, least_width_ratio, most_width_ratio);
  const double local =
      local_flexibility(alone, joint_table.base_out_of_plane, &Influence::out_of_plane);
  const double stub = stub_of(alone).out_of_plane;
  const double moment = E * std::pow(brace.chord_wall, 3);
  PairSprings k;
  k.against = spring_of(moment, local * monotone_curve(factor_betas, table.against, beta) - stub);
  k.together = spring_of(moment, local * monotone_curve(factor_betas, table.together, beta) - stub);
  return k;
}

}  // namespace tubewright
