#include "cases/model/sheet_joint_stiffness.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "solver/elements/sheet_joint.h"

namespace tubewright {

namespace {

struct Row {
  double diameter;
  RivetStiffness stiffness;
};

constexpr std::array<Row, 3> blind_rivets = {{
    {3.2e-3, {2e6, 3.5e6, 6e6}},
    {4.0e-3, {2.5e6, 4.5e6, 8e6}},
    {4.8e-3, {3e6, 5e6, 10e6}},
}};

RivetStiffness scaled(const RivetStiffness& s, double by) {
  return {s.low * by, s.usual * by, s.high * by};
}

}  // namespace

RivetStiffness blind_rivet_stiffness(double diameter) {
  const Row& first = blind_rivets.front();
  const Row& last = blind_rivets.back();
  if (diameter <= first.diameter) return scaled(first.stiffness, diameter / first.diameter);
  if (diameter >= last.diameter) return scaled(last.stiffness, diameter / last.diameter);
  const auto above = std::find_if(blind_rivets.begin(), blind_rivets.end(),
                                  [&](const Row& r) { return r.diameter >= diameter; });
  const auto below = above - 1;
  const double s = (diameter - below->diameter) / (above->diameter - below->diameter);
  return {std::lerp(below->stiffness.low, above->stiffness.low, s),
          std::lerp(below->stiffness.usual, above->stiffness.usual, s),
          std::lerp(below->stiffness.high, above->stiffness.high, s)};
}

double rivet_stiffness(const RivetJoint& rivet) {
  return rivet.stiffness.value_or(blind_rivet_stiffness(rivet.diameter).usual);
}

JointStiffness joint_stiffness(const Sheet& sheet, const Material& material) {
  JointStiffness joint;
  if (sheet.rivet) joint.rivets = rivet_stiffness(*sheet.rivet) / sheet.rivet->pitch;
  if (sheet.bond) {
    const BondLine line{sheet.bond->shear_modulus, sheet.bond->thickness, sheet.bond->width};
    joint.bond = bond_stiffness(line, material.G * sheet.thickness);
    joint.through = bond_through_flexibility(line, material.G * sheet.thickness);
  }
  return joint;
}

double JointStiffness::carry_over() const {
  return bond > 0 ? std::max(0.0, 1 - total() * through) : 1;
}

}  // namespace tubewright
