#include "cases/joints/face_joint.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <optional>
#include <string>
#include <string_view>

#include "cases/joints/joint_scope.h"
#include "cases/joints/lattice_joint.h"
#include "solver/model/angle.h"

namespace tubewright {

namespace {

constexpr double hardly = 0.01;  // of the resistance: rounding, no reason for a remark
constexpr double square_on = 88 * degree;

/// Force over resistance: 0 without a force, never infinite.
double use_of(double force, double resistance) {
  constexpr double greatest = 1e9;
  if (force == 0) return 0;
  return std::abs(force) < greatest * resistance ? std::abs(force) / resistance : greatest;
}

bool same_sign(double a, double b) { return a * b > 0; }

/// Force square to the chord.
double normal_force(const JointBrace& b) { return b.N * std::sin(rule_angle(b.angle)); }

JointChord chord_at(const ChordTube& c, size_t face) {
  JointChord chord;
  chord.b0 = face < 2 ? c.height : c.width;
  chord.h0 = face < 2 ? c.width : c.height;
  chord.t0 = c.wall;
  chord.fy = c.fy;
  chord.E = c.E;
  chord.curve = c.curve;
  chord.stress = c.stress;
  return chord;
}

/// A turned tube as the circle in its footprint.
JointBrace as_it_stands(const StandingTube& t) {
  JointBrace b = t.brace;
  if (!t.turned || is_round(b)) return b;
  b.shape = b.t1 > 0 ? BraceShape::round : BraceShape::bar;
  b.b1 = b.h1 = std::min(b.b1, b.h1);
  return b;
}

struct Uses {
  double N = 0;
  double M_ip = 0;
  double M_op = 0;
  double sum() const { return N + M_ip + M_op; }
};

class FaceJoint {
 public:
  FaceJoint(const ChordTube& chord, const std::vector<StandingTube>& tubes, size_t which)
      : chord_(chord), tubes_(tubes), which_(which), own_(tubes[which]) {
    main_ = static_cast<size_t>(std::max_element(own_.onto.begin(), own_.onto.end()) -
                                own_.onto.begin());
  }

  CheckResult check() {
    CheckResult r;
    r.clause = "EN 1993-1-8 7.5, Tables 7.10 to 7.14";
    r.reason = obstacle();
    if (!r.reason.empty()) return r;
    factor_ = chord_.factor * (chord_.open ? 0.5 : 1) * planes_factor();
    const Uses uses = pair_on_face() ? of_pair() : of_all();
    r.utilisation = std::max(uses.sum(), chord_share_);
    note_place(uses);
    r.comparison = !left_.none();
    left_.note(spent_, "k_n = 0: the chord's compression leaves its face no strength");
    r.reason = left_.text();
    return r;
  }

 private:
  std::string obstacle() const {
    if (own_.onto[main_] <= 0) return "it lies along the other tube";
    for (const size_t face : {main_, main_ ^ 1U}) {
      if (std::string why = joint_obstacle(chord_at(chord_, face)); !why.empty()) return why;
    }
    if (std::string why = joint_obstacle(own_.brace); !why.empty()) return why;
    for (const StandingTube& t : tubes_) {
      if (!std::isfinite(t.brace.N + t.brace.M_ip + t.brace.M_op + t.chord_moment)) {
        return "the forces are not finite";
      }
    }
    return "";
  }

  bool on(size_t tube, size_t face) const { return tubes_[tube].onto[face] > 0; }
  bool other_on(size_t face) const {
    for (size_t i = 0; i < tubes_.size(); ++i) {
      if (i != which_ && on(i, face)) return true;
    }
    return false;
  }

  JointKind kind_on(size_t face) const {
    if (other_on(face ^ 1U)) return JointKind::X;
    return own_.brace.angle >= square_on ? JointKind::T : JointKind::Y;
  }

  /// Faces of the other pair, which its own plane does not meet.
  std::array<size_t, 2> other_plane() const {
    return main_ < 2 ? std::array<size_t, 2>{2, 3} : std::array<size_t, 2>{0, 1};
  }
  bool two_planes() const {
    const auto [a, b] = other_plane();
    return other_on(a) || other_on(b);
  }

  /// mu of Table 7.19: TT and KK 0.9, XX 0.9 (1 + 0.33 N_2/N_1) with the worst force of the other
  /// plane.
  double planes_factor() const {
    constexpr double mu = 0.9;
    if (!two_planes()) return 1;
    const auto [a, b] = other_plane();
    if (kind_on(main_) != JointKind::X || !other_on(a) || !other_on(b)) return mu;
    double worst = 1;
    for (size_t i = 0; i < tubes_.size(); ++i) {
      if (i == which_ || (!on(i, a) && !on(i, b))) continue;
      const double N1 = own_.brace.N, N2 = tubes_[i].brace.N;
      const double ratio = std::abs(N2) < std::abs(N1) ? N2 / N1 : same_sign(N1, N2) ? 1 : -1;
      worst = std::min(worst, N2 == 0 ? 0 : ratio);
    }
    return mu * (1 + 0.33 * worst);
  }

  std::vector<size_t> tubes_on(size_t face) const {
    std::vector<size_t> list;
    for (size_t i = 0; i < tubes_.size(); ++i) {
      if (on(i, face)) list.push_back(i);
    }
    return list;
  }

  /// Only this tube and one other stand there, square to the face, and lean apart.
  bool pair_on_face() const {
    const std::vector<size_t> list = tubes_on(main_);
    if (list.size() != 2) return false;
    for (const size_t i : list) {
      if (tubes_[i].onto[main_] < 1 || tubes_[i].turned) return false;
    }
    constexpr double rounding = 1e-9;
    return tubes_[list[0]].along * tubes_[list[1]].along < rounding;
  }

  const StandingTube& partner() const {
    const std::vector<size_t> list = tubes_on(main_);
    return tubes_[list[0] == which_ ? list[1] : list[0]];
  }

  Uses of_all() {
    const Uses by_itself = alone();
    if (!other_on_its_faces()) return by_itself;
    shared_ = true;
    const Uses shared = together();
    return by_itself.sum() > shared.sum() ? by_itself : shared;
  }

  bool other_on_its_faces() const {
    for (size_t face = 0; face < 4; ++face) {
      if (on(which_, face) && other_on(face)) return true;
    }
    return false;
  }

  /// K and N joints, or two T or Y joints where the gap is wide.
  Uses of_pair() {
    const StandingTube& other = partner();
    const JointChord chord = chord_at(chord_, main_);
    const JointBrace &own = own_.brace, &theirs = other.brace;
    const double gap =
        joint_gap(chord.h0, own.h1, theirs.h1, rule_angle(own.angle), rule_angle(theirs.angle), 0);
    const std::optional<LatticeResistance> lattice = lattice_resistance(chord, {own, theirs}, gap);
    if (!lattice) return alone();
    if (same_sign(own.N, theirs.N)) return of_all();
    Uses uses = alone();
    const double balanced =
        std::min(std::abs(normal_force(own)), 1.2 * std::abs(normal_force(theirs)));
    const double all = std::abs(normal_force(own));
    const double share = all > 0 ? balanced / all : 0;
    const double rest = uses.N * (1 - share);
    uses.N = use_of(share * own.N, lattice->N[0] * factor_) + rest;
    left_.note_all(lattice->left);
    if (own_.secondary) uses.M_ip = 0;
    const bool bent = uses.M_ip > hardly || uses.M_op > hardly;
    if (rest > hardly) beyond_lattice_ = "a K joint whose forces do not balance";
    if (bent && beyond_lattice_.empty()) beyond_lattice_ = "moments of a K joint";
    spent_ = spent_ || is_spent(lattice->stress_factor);
    if (two_planes()) chord_share_ = sheared_chord();
    return uses;
  }

  /// (N_0/N_pl)^2 + (V_0/V_pl)^2 of the chord between braces in two planes, Table 7.19, as a share
  /// of the load.
  double sheared_chord() const {
    double sum = chord_.axial_share * chord_.axial_share;
    for (const size_t axis : {0, 2}) {
      double V = 0;
      for (size_t i = 0; i < tubes_.size(); ++i) {
        const double onto = std::max(tubes_[i].onto[axis], tubes_[i].onto[axis + 1]);
        V = std::max(V, std::abs(normal_force(tubes_[i].brace)) * onto);
      }
      const double depth = axis == 0 ? chord_.width : chord_.height;
      const double share =
          use_of(V, chord_shear_resistance(chord_.fy, 2 * depth * chord_.wall, 90 * degree) *
                        chord_.factor);
      sum += share * share;
    }
    return std::sqrt(sum);
  }

  /// T, Y and X rules on each face it stands on, by itself.
  Uses alone() {
    Uses uses;
    const JointBrace own = as_it_stands(own_);
    for (size_t face = 0; face < 4; ++face) {
      if (!on(which_, face)) continue;
      const JointChord chord = chord_at(chord_, face);
      JointResistance R = joint_resistance(kind_on(face), chord, own);
      if (tubes_on(face).size() > 2) {  // some push, some pull: not beyond the face of a K joint
        const double beta = std::min(1.0, (own.b1 + own.h1) / (2 * chord.b0));
        const double K = shape_factor(own) * strength_factor(std::max(chord.fy, own.fy)) *
                         gap_joint_resistance(chord.fy, chord.b0, chord.t0, beta,
                                              rule_angle(own.angle), R.stress_factor);
        R.pull = std::min(R.pull, K);
        R.push = std::min(R.push, K);
      }
      add(uses, R, own_.onto[face] * own_.brace.N, own_.onto[face] * own_.brace.M_ip,
          own_.onto[face] * own_.brace.M_op, face);
      note_chord_ranges(left_, chord, JointRange::single);
      note_brace_ranges(left_, chord, own_.brace, JointRange::single);
      spent_ = spent_ || is_spent(R.stress_factor);
    }
    return uses;
  }

  /// With all that act on a face the same way, on the ground that these cover together; the worst
  /// of its faces.
  Uses together() {
    Uses worst;
    using Load = double (*)(const JointBrace&);
    constexpr std::array<Load, 3> loads = {
        [](const JointBrace& b) { return normal_force(b); },
        [](const JointBrace& b) { return b.M_ip; },
        [](const JointBrace& b) { return b.M_op; },
    };
    for (size_t face = 0; face < 4; ++face) {
      if (!on(which_, face)) continue;
      const JointChord chord = chord_at(chord_, face);
      Uses uses;
      for (size_t k = 0; k < loads.size(); ++k) {
        std::array<double, 3> all = {};
        std::vector<size_t> alike;
        for (const size_t i : tubes_on(face)) {
          const double own = loads[k](own_.brace), theirs = loads[k](tubes_[i].brace);
          if (i != which_ && !same_sign(own, theirs)) continue;
          all[k] += tubes_[i].onto[face] * theirs;
          alike.push_back(i);
        }
        JointBrace ground = as_it_stands(own_);
        ground.angle = 90 * degree;
        ground.h1 = covered(face, alike);
        ground.t1 = 0;  // the chord only
        add(uses, joint_resistance(kind_on(face), chord, ground), all[0], all[1], all[2], face);
      }
      if (uses.sum() > worst.sum()) worst = uses;
    }
    return worst;
  }

  void add(Uses& uses, const JointResistance& R, double N, double M_ip, double M_op,
           size_t face) const {
    double turning = 0;
    for (const StandingTube& t : tubes_) turning += t.chord_moment;
    const double across = use_of(M_op, R.M_op * factor_);
    const double lozenge = use_of(turning * own_.onto[face], R.distortion * factor_);
    uses.N = std::hypot(uses.N, use_of(N, (N > 0 ? R.pull : R.push) * factor_));
    uses.M_ip = std::hypot(uses.M_ip, use_of(M_ip, R.M_ip * factor_));
    uses.M_op += M_op == 0 ? 0 : std::max(across, lozenge);
  }

  /// Length of a face under tubes, each where its axis meets the face; those more on the next face
  /// do not count, but its own does.
  double covered(size_t face, const std::vector<size_t>& tubes) const {
    constexpr double half_way = 0.7;  // cosine
    const double h0 = chord_at(chord_, face).h0;
    std::vector<std::array<double, 2>> spans;
    for (const size_t i : tubes) {
      if (i != which_ && tubes_[i].onto[face] < half_way) continue;
      const JointBrace b = as_it_stands(tubes_[i]);
      const double angle = rule_angle(b.angle);
      const double middle = std::copysign(h0 / 2 / std::tan(angle), tubes_[i].along);
      const double half = b.h1 / std::sin(angle) / 2;
      spans.push_back({middle - half, middle + half});
    }
    std::sort(spans.begin(), spans.end());
    double length = 0, reached = spans.front()[0];
    for (const auto& [from, to] : spans) {
      length += std::max(0.0, to - std::max(from, reached));
      reached = std::max(reached, to);
    }
    return length;
  }

  /// In line with one on the opposite face.
  bool is_crossing() const {
    for (size_t i = 0; i < tubes_.size(); ++i) {
      if (i == which_ || !on(i, main_ ^ 1U)) continue;
      const StandingTube& t = tubes_[i];
      if (tubes_on(main_ ^ 1U).size() == 1 && std::abs(t.along + own_.along) < std::sin(2 * degree))
        return true;
    }
    return false;
  }

  /// How it stands, the first that holds; then the chord; then how it is loaded.
  void note_place(const Uses& uses) {
    const bool leans = own_.brace.angle < square_on;
    const bool round = is_round(own_.brace);
    const bool moments = uses.M_ip > hardly || uses.M_op > hardly;
    RangesLeft place;
    const auto first = [&](bool holds, std::string_view what) {
      place.note(holds && place.none(), what);
    };
    first(own_.onto[main_] < 1, "a tube between two faces");
    first(own_.turned, "a tube turned against the face");
    first(shared_, "several tubes on one face");
    first(!beyond_lattice_.empty(), beyond_lattice_);
    first(kind_on(main_) == JointKind::X && !is_crossing(), "opposite tubes not in line");
    first(moments && leans, "moments of a leaning tube");
    first(moments && round, "moments of a round tube");
    place.note(chord_.open, "on the open end of the other");
    place.note(chord_.ends && !chord_.open, "on the end of the other");
    place.note(chord_.bent, "on a kink or bend of the other");
    place.note(!chord_.other_metal.empty(), chord_.other_metal);
    place.note_all(left_);
    left_ = place;
  }

  const ChordTube& chord_;
  const std::vector<StandingTube>& tubes_;
  size_t which_;
  const StandingTube& own_;
  size_t main_ = 0;
  double factor_ = 1;
  double chord_share_ = 0;
  bool spent_ = false;          // k_n = 0
  bool shared_ = false;         // others act on its face
  std::string beyond_lattice_;  // what of a K joint no rule covers
  RangesLeft left_;
};

}  // namespace

CheckResult face_joint_check(const ChordTube& chord, const std::vector<StandingTube>& tubes,
                             size_t which) {
  return FaceJoint(chord, tubes, which).check();
}

}  // namespace tubewright
