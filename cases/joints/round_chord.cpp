#include "cases/joints/round_chord.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <string>

#include "cases/checks/section_class.h"
#include "cases/joints/joint_scope.h"
#include "solver/model/angle.h"

namespace tubewright {

namespace {

constexpr double pi = std::numbers::pi;

/// Cosine between two tubes as seen along the chord.
double round_about(const StandingTube& a, const StandingTube& b) {
  const double ay = a.onto[0] - a.onto[1], az = a.onto[2] - a.onto[3];
  const double by = b.onto[0] - b.onto[1], bz = b.onto[2] - b.onto[3];
  const double lengths = std::hypot(ay, az) * std::hypot(by, bz);
  return lengths > 0 ? (ay * by + az * bz) / lengths : 0;
}

double share_of(double force, double resistance) {
  constexpr double greatest = 1e9;
  if (force == 0) return 0;
  return std::abs(force) < greatest * resistance ? std::abs(force) / resistance : greatest;
}

std::string round_obstacle(const ChordTube& c, const std::vector<StandingTube>& tubes,
                           const StandingTube& own) {
  JointChord chord;
  chord.b0 = chord.h0 = c.height;
  chord.t0 = c.wall;
  chord.fy = c.fy;
  chord.stress = c.stress;
  if (std::string why = joint_obstacle(chord); !why.empty()) return why;
  if (own.brace.shape == BraceShape::plate) return "a flat bar on a round tube";
  if (*std::max_element(own.onto.begin(), own.onto.end()) <= 0) {
    return "it lies along the other tube";
  }
  for (const StandingTube& t : tubes) {
    if (std::string why = joint_obstacle(t.brace); !why.empty()) return why;
  }
  return "";
}

/// Table 7.1.
void note_round_ranges(RangesLeft& left, const ChordTube& c, const StandingTube& t) {
  const JointBrace& b = t.brace;
  constexpr double rounding = 1 + 1e-9;
  note_tube_ranges(left, c.wall, c.fy);
  const double slenderness = c.height / c.wall;
  left.note(slenderness > 50 * rounding || slenderness * rounding < 10,
            "a round chord with d0/t0 not 10 to 50");
  left.note(c.stress > 0 && class_of_round_tube(slenderness, yield_epsilon(c.fy)) > 2,
            "compressed walls of class 3 or 4");
  left.note(b.angle * rounding < 30 * degree, "an angle under 30 degrees");
  left.note(b.b1 > c.height * rounding, "a tube wider than the one it stands on");
  left.note(b.b1 * rounding < 0.2 * c.height, "a tube too narrow for the other");
  left.note(b.shape == BraceShape::bar, "a solid bar on a tube");
  if (b.t1 > 0) {
    note_tube_ranges(left, b.t1, b.fy);
    left.note(std::max(b.b1, b.h1) / b.t1 > 50 * rounding, "a tube too thin for its width");
  }
  left.note(!is_round(b) && b.angle < 88 * degree, "a rectangular tube that leans on a round one");
}

}  // namespace

double round_chord_stress_factor(double n) {
  return n <= 0 ? 1 : std::clamp(1 - 0.3 * n * (1 + n), least_stress_factor, 1.0);
}

JointResistance round_chord_resistance(JointKind kind, double d0, double t0, double fy0, double n,
                                       const JointBrace& b) {
  const double b1 = std::min(b.b1, d0), h1 = std::min(b.h1, d0);
  const double beta = b1 / d0, eta = h1 / d0, gamma = d0 / (2 * t0);
  const double sine = std::sin(rule_angle(b.angle));
  const double factor = strength_factor(std::max(fy0, b.fy)) / gamma_M5;
  JointResistance r;
  r.stress_factor = round_chord_stress_factor(n);
  const double plate = r.stress_factor * fy0 * t0 * t0;
  const double shear = fy0 / std::numbers::sqrt3 * t0;
  const bool crossing = kind == JointKind::X;
  const bool punches = b1 <= d0 - 2 * t0;
  double N = 0;
  if (is_round(b)) {
    N = crossing ? plate / sine * 5.2 / (1 - 0.81 * beta)
                 : std::pow(gamma, 0.2) * plate / sine * (2.8 + 14.2 * beta * beta);
    r.M_ip = 4.85 * plate * std::sqrt(gamma) * beta * b1 / sine;
    r.M_op = plate * b1 / sine * 2.7 / (1 - 0.81 * beta);
    if (punches) {
      const double part = shear * b1 / (4 * sine * sine);
      N = std::min(N, 2 * pi * part * (1 + sine));
      r.M_ip = std::min(r.M_ip, b1 * part * (1 + 3 * sine));
      r.M_op = std::min(r.M_op, b1 * part * (3 + sine));
    }
  } else {
    N = plate / sine * (1 + 0.25 * eta) * (crossing ? 5 / (1 - 0.81 * beta) : 4 + 20 * beta * beta);
    if (punches) N = std::min(N, shear * 2 * (b1 + h1));
    r.M_ip = h1 * N;
    r.M_op = 0.5 * b1 * N;
  }
  r.pull = r.push = factor * N;
  r.M_ip *= factor;
  r.M_op *= factor;
  return r;
}

CheckResult round_chord_check(const ChordTube& c, const std::vector<StandingTube>& tubes,
                              size_t which) {
  const StandingTube& own = tubes[which];
  CheckResult r;
  r.clause = "EN 1993-1-8 7.4, Tables 7.2 to 7.7";
  r.reason = round_obstacle(c, tubes, own);
  if (!r.reason.empty()) return r;

  constexpr double hardly_bent = 0.01, opposite = -0.7;
  const auto normal = [](const JointBrace& b) { return b.N * std::sin(rule_angle(b.angle)); };
  double N = std::abs(normal(own.brace)), M_ip = std::abs(own.brace.M_ip);
  double M_op = std::abs(own.brace.M_op);
  JointKind kind = own.brace.angle > 88 * degree ? JointKind::T : JointKind::Y;
  for (size_t i = 0; i < tubes.size(); ++i) {
    if (i == which) continue;
    const double beside = round_about(own, tubes[i]);
    const JointBrace& b = tubes[i].brace;
    if (beside < opposite) kind = JointKind::X;
    if (beside <= 0) continue;
    if (b.N * own.brace.N > 0) N += beside * std::abs(normal(b));
    if (b.M_ip * own.brace.M_ip > 0) M_ip += beside * std::abs(b.M_ip);
    if (b.M_op * own.brace.M_op > 0) M_op += beside * std::abs(b.M_op);
  }
  JointBrace stands = own.brace;
  if (own.turned) {
    stands.shape = stands.t1 > 0 ? BraceShape::round : BraceShape::bar;
    stands.b1 = stands.h1 = std::min(stands.b1, stands.h1);
  }
  JointResistance R =
      round_chord_resistance(JointKind::T, c.height, c.wall, c.fy, c.stress / c.fy, stands);
  if (kind == JointKind::X) {
    const JointResistance across =
        round_chord_resistance(kind, c.height, c.wall, c.fy, c.stress / c.fy, stands);
    R.pull = std::min(R.pull, across.pull);
    R.M_ip = std::min(R.M_ip, across.M_ip);
    R.M_op = std::min(R.M_op, across.M_op);
  }
  const bool shared = tubes.size() > (kind == JointKind::X ? 2 : 1);
  const double factor = c.factor * (c.open ? 0.5 : 1) * (shared ? 0.9 : 1);
  const double axial = share_of(N, R.pull * factor * std::sin(rule_angle(own.brace.angle)));
  const double bent = share_of(M_ip, R.M_ip * factor) + share_of(M_op, R.M_op * factor);
  r.utilisation = axial + bent;

  RangesLeft left;
  left.note(shared, "several tubes on a round one");
  left.note(own.turned, "a tube turned on a round one");
  left.note(c.open, "on the open end of the other");
  left.note(c.ends && !c.open, "on the end of the other");
  left.note(c.bent, "on a kink or bend of the other");
  left.note(!c.other_metal.empty(), c.other_metal);
  note_round_ranges(left, c, own);
  left.note(bent > hardly_bent && own.brace.shape == BraceShape::bar, "moments of a solid bar");
  r.comparison = !left.none();
  left.note(is_spent(R.stress_factor), "k_p = 0: the chord's compression leaves it no strength");
  r.reason = left.text();
  return r;
}

}  // namespace tubewright
