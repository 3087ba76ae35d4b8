#include "cases/joints/lattice_joint.h"

#include <algorithm>
#include <cmath>

namespace tubewright {

namespace {

double shared_beta(const JointChord& c, const std::array<JointBrace, 2>& b) {
  return std::min(1.0, (b[0].b1 + b[1].b1 + b[0].h1 + b[1].h1) / (4 * c.b0));
}

bool same(double a, double b) { return std::abs(a - b) <= 1e-9 * std::max(a, b); }

bool alike(const JointBrace& a, const JointBrace& b) {
  const double mean = (a.b1 + b.b1) / 2;
  return std::min(mean / a.b1, mean / b.b1) >= 0.6 && std::max(mean / a.b1, mean / b.b1) <= 1.3;
}

/// Table 7.9: only the face of the chord is to be looked at.
bool only_the_face(const JointChord& c, const std::array<JointBrace, 2>& b) {
  return same(c.b0, c.h0) && same(b[0].b1, b[0].h1) && same(b[1].b1, b[1].h1) &&
         alike(b[0], b[1]) && c.b0 / c.t0 >= 15 * (1 - 1e-9);
}

/// Chord shear, the brace's own walls and punching, the least.
double other_modes(const JointChord& c, const JointBrace& b, double gap, double beta) {
  const double theta = rule_angle(b.angle);
  double least = chord_shear_resistance(
      c.fy, gap_shear_area(c.b0, c.h0, c.t0, std::max(0.0, gap), is_round(b)), theta);
  if (b.t1 > 0) {
    const double width = effective_width(c.fy, c.b0, c.t0, b.fy, b.t1, b.b1);
    least = std::min(
        least, shape_factor(b) * b.fy * b.t1 * (2 * b.h1 - 4 * b.t1 + b.b1 + width) / gamma_M5);
  }
  if (beta <= 1 - 2 * c.t0 / c.b0) {
    const double widths = b.b1 + punching_width(c.b0, c.t0, b.b1);
    least = std::min(least, shape_factor(b) * punching_resistance(c.fy, c.t0, b.h1, widths, theta));
  }
  return least;
}

std::array<double, 2> gap_rule(const JointChord& c, const std::array<JointBrace, 2>& braces,
                               double gap, double k_n) {
  const double beta = shared_beta(c, braces);
  std::array<double, 2> N = {};
  for (size_t i = 0; i < 2; ++i) {
    const JointBrace& b = braces[i];
    N[i] = shape_factor(b) * gap_joint_resistance(c.fy, c.b0, c.t0, beta, rule_angle(b.angle), k_n);
    if (!only_the_face(c, braces)) N[i] = std::min(N[i], other_modes(c, b, gap, beta));
  }
  return N;
}

double wall_area(const JointBrace& b) { return 2 * b.t1 * (b.b1 + b.h1 - 2 * b.t1); }

/// `over` lies on `under`, both tubes; Table 7.10.
double overlap_rule(const JointChord& c, const JointBrace& over, const JointBrace& under,
                    double share) {
  const double b_eff = effective_width(c.fy, c.b0, c.t0, over.fy, over.t1, over.b1);
  const double b_eov = effective_width(under.fy, under.b1, under.t1, over.fy, over.t1, over.b1);
  const double across = share >= 0.8 ? over.b1 : b_eff;
  const double sides = 2 * over.h1 * std::min(1.0, share / 0.5);
  return shape_factor(over) * over.fy * over.t1 * (across + b_eov + sides - 4 * over.t1) / gamma_M5;
}

/// The narrower lies on the wider; of two alike either may, and the smaller resistance counts.
std::array<double, 2> overlap_rules(const JointChord& c, const std::array<JointBrace, 2>& b,
                                    double gap) {
  std::array<double, 2> N = {0, 0};
  bool found = false;
  for (size_t i = 0; i < 2; ++i) {
    const JointBrace &over = b[i], &under = b[1 - i];
    if (over.b1 > under.b1 && !same(over.b1, under.b1)) continue;
    const double on = overlap_rule(c, over, under, overlap_share(gap, over));
    const double beneath = on * wall_area(under) * under.fy / (wall_area(over) * over.fy);
    N[i] = found ? std::min(N[i], on) : on;
    N[1 - i] = found ? std::min(N[1 - i], beneath) : beneath;
    found = true;
  }
  return N;
}

void note_pair(RangesLeft& left, const JointChord& c, const std::array<JointBrace, 2>& b,
               JointRange range) {
  note_chord_ranges(left, c, range);
  for (const JointBrace& brace : b) note_brace_ranges(left, c, brace, range);
  left.note(is_round(b[0]) != is_round(b[1]), "one tube round and one not");
}

}  // namespace

double overlap_share(double gap, const JointBrace& overlapping) {
  return std::max(0.0, -gap) * std::sin(rule_angle(overlapping.angle)) / overlapping.h1;
}

std::optional<LatticeResistance> lattice_resistance(const JointChord& c,
                                                    const std::array<JointBrace, 2>& b,
                                                    double gap) {
  constexpr double rounding = 1e-9, least_overlap = 0.25;
  if (b[0].shape == BraceShape::plate || b[1].shape == BraceShape::plate) return std::nullopt;
  const double beta = shared_beta(c, b);
  const double walls = b[0].t1 + b[1].t1;
  const double widest = std::max(1.5 * (1 - beta) * c.b0, walls);
  if (gap > widest * (1 + rounding)) return std::nullopt;

  const bool hollow = b[0].t1 > 0 && b[1].t1 > 0;
  const double overlap = std::max(overlap_share(gap, b[0]), overlap_share(gap, b[1]));
  const bool laps = hollow && overlap >= least_overlap * (1 - rounding);
  const double factor = strength_factor(std::max({c.fy, b[0].fy, b[1].fy}));
  LatticeResistance r;
  if (laps) {
    r.N = overlap_rules(c, b, gap);
    note_pair(r.left, c, b, JointRange::overlap);
    const double narrow = std::min(b[0].b1, b[1].b1) / std::max(b[0].b1, b[1].b1);
    r.left.note(narrow < 0.75 * (1 - rounding), "overlapping tubes of unlike width");
    r.left.note(overlap > 1 + rounding, "one tube wholly on the other");
  } else {
    r.stress_factor = chord_stress_factor(c.stress / c.fy / gamma_M5, beta);
    r.N = gap_rule(c, b, gap, r.stress_factor);
    note_pair(r.left, c, b, JointRange::gap);
    r.left.note(!alike(b[0], b[1]), "two tubes of unlike width");
    const double least_gap = std::max(0.5 * (1 - beta) * c.b0, walls);
    if (gap < least_gap * (1 - rounding)) {
      r.left.note(true, "neither a full gap nor an overlap of 25 %");
      if (hollow && gap < walls) {
        const std::array<double, 2> lap = overlap_rules(c, b, gap);
        for (size_t i = 0; i < 2; ++i) r.N[i] = std::min(r.N[i], lap[i]);
      }
    }
  }
  for (double& N : r.N) N *= factor;
  return r;
}

}  // namespace tubewright
