#include "cases/joints/joint_scope.h"

#include <algorithm>
#include <cmath>

#include "cases/checks/section_class.h"
#include "solver/model/angle.h"

namespace tubewright {

namespace {

/// A limit reached by rounding is kept.
bool below(double value, double least) { return value < least - 1e-9 * std::abs(least); }
bool above(double value, double greatest) { return value > greatest + 1e-9 * std::abs(greatest); }

bool stocky_wall(double side, double wall, double fy) {
  return class_of_compressed_wall(side / wall - 3, yield_epsilon(fy)) <= 2;
}

bool known(double value) { return value > 0 && std::isfinite(value); }

constexpr const char* slender = "compressed walls of class 3 or 4";

}  // namespace

void RangesLeft::note(bool left, std::string_view what) {
  if (left && std::find(left_.begin(), left_.end(), what) == left_.end()) left_.emplace_back(what);
}

void RangesLeft::note_all(const RangesLeft& others) {
  for (const std::string& what : others.left_) note(true, what);
}

std::string RangesLeft::text() const {
  std::string all;
  for (const std::string& what : left_) all += (all.empty() ? "" : "; ") + what;
  return all;
}

void note_tube_ranges(RangesLeft& left, double wall, double fy) {
  constexpr double mm = 1e-3, S460 = 460e6;  // 7.1.1(5), (4)
  left.note(below(wall, 2.5 * mm), "walls under 2.5 mm");
  left.note(above(wall, 25 * mm), "walls over 25 mm");
  left.note(above(fy, S460), "steel above S460");
}

void note_chord_ranges(RangesLeft& left, const JointChord& c, JointRange range) {
  note_tube_ranges(left, c.t0, c.fy);
  left.note(c.stress > 0 && !stocky_wall(std::max(c.b0, c.h0), c.t0, c.fy), slender);
  const double wider = std::max(c.b0, c.h0) / c.t0;
  left.note(above(wider, range == JointRange::overlap ? 40 : 35), "a chord too thin for its width");
  left.note(range == JointRange::single && below(c.b0 / c.t0, 10), "a chord with b0/t0 under 10");
  left.note(below(c.h0 / c.b0, 0.5) || above(c.h0 / c.b0, 2), "a chord flatter than 2 to 1");
}

void note_brace_ranges(RangesLeft& left, const JointChord& c, const JointBrace& b,
                       JointRange range) {
  constexpr double least_angle = 30 * degree, plate_width = 0.2;
  left.note(below(b.angle, least_angle), "an angle under 30 degrees");
  if (b.shape == BraceShape::plate) {
    note_tube_ranges(left, c.t0, b.fy);
    const bool along = b.h1 > b.b1;
    left.note(along && above(b.b1 / c.b0, plate_width), "a flat bar too thick to be a plate");
    left.note(!along && below(b.b1 / c.b0, 0.5), "a plate across less than half the face");
    left.note(below(b.angle, 89 * degree), "a plate that leans");
    return;
  }
  const double ratio = b.b1 / c.b0;
  left.note(above(ratio, 1), "a tube wider than the face it stands on");
  if (b.shape == BraceShape::bar) {
    left.note(true, "a solid bar on a face");
    return;
  }
  note_tube_ranges(left, b.t1, b.fy);
  const double slenderness = std::max(b.b1, b.h1) / b.t1;
  if (b.shape == BraceShape::round) {
    left.note(b.N < 0 && class_of_round_tube(slenderness, yield_epsilon(b.fy)) > 1, slender);
    left.note(above(slenderness, 50), "a tube too thin for its width");
    left.note(below(ratio, 0.4) || above(ratio, 0.8), "a round tube not 0.4 to 0.8 of the face");
    return;
  }
  const double least = range == JointRange::gap ? std::max(0.35, 0.1 + 0.01 * c.b0 / c.t0) : 0.25;
  left.note(b.N < 0 && !stocky_wall(std::max(b.b1, b.h1), b.t1, b.fy), slender);
  left.note(above(slenderness, 35), "a tube too thin for its width");
  left.note(below(ratio, least), "a tube too narrow for the face");
  left.note(below(b.h1 / b.b1, 0.5) || above(b.h1 / b.b1, 2), "a tube flatter than 2 to 1");
}

std::string joint_obstacle(const JointChord& c) {
  if (!known(c.b0) || !known(c.h0) || !known(c.t0)) return "the other tube's shape is not known";
  if (!known(c.fy)) return "the material has no yield strength";
  if (!known(c.E)) return "the material has no modulus of elasticity";
  return std::isfinite(c.stress) ? "" : "the forces are not finite";
}

std::string joint_obstacle(const JointBrace& b) {
  if (!known(b.b1) || !known(b.h1)) return "the tube's shape is not known";
  if (!known(b.fy)) return "the material has no yield strength";
  if (!std::isfinite(b.angle)) return "the angle is not known";
  const bool finite = std::isfinite(b.N) && std::isfinite(b.M_ip) && std::isfinite(b.M_op);
  return finite ? "" : "the forces are not finite";
}

}  // namespace tubewright
