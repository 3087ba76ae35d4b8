// The curved beam against the closed forms of a quarter circle held at one end, by virtual work
// (derived for this project, with the numbers of an independent program), and the laws of rigid
// motion, reciprocity and division.
#include "solver/elements/curved_beam.h"

#include <Eigen/Geometry>
#include <Eigen/LU>
#include <cmath>
#include <numbers>
#include <random>

#include "solver/elements/beam_matrices.h"
#include "solver/statics/statics.h"
#include "tests/catch.h"
#include "tests/truth.h"

namespace tubewright::curved_beam_test {

namespace {

constexpr double mm = 1e-3;
constexpr double quarter = std::numbers::pi / 2;

/// 30x30x2 with the area, second moments and shear area of the numbers below.
Section tube() {
  Section s;
  s.A = 213.69911e-6;
  s.Iy = s.Iz = 27219.4214e-12;
  s.It = 45402.7119e-12;
  s.Ay = s.Az = 93.0682899e-6;
  return s;
}

Material steel() {
  Material m;
  m.E = 210e9;
  m.G = 80769.23e6;
  m.density = 7850;
  return m;
}

constexpr double R = 500 * mm;

/// On a quarter circle about the origin from (R, 0, 0), held, to (0, R, 0), turned in space by
/// `turn`; its section turned by `roll` against the plane of the arc.
Model quarter_arc(int pieces, const Eigen::Matrix3d& turn, double roll) {
  Model model;
  model.sections = {tube()};
  model.materials = {steel()};
  for (int i = 0; i <= pieces; ++i) {
    const double a = quarter * i / pieces;
    model.nodes.emplace_back(turn * Eigen::Vector3d(R * std::cos(a), R * std::sin(a), 0));
  }
  for (int i = 0; i < pieces; ++i) {
    Beam b;
    b.from = i;
    b.to = i + 1;
    b.roll = roll;
    const Eigen::Matrix3d axes = member_axes(model.nodes[static_cast<size_t>(i)],
                                             model.nodes[static_cast<size_t>(i) + 1], roll);
    const Eigen::Vector3d inward =
        axes * -(model.nodes[static_cast<size_t>(i)] + model.nodes[static_cast<size_t>(i) + 1]);
    b.arc.curvature = 1 / R;
    b.arc.towards = std::atan2(inward.z(), inward.y());
    model.beams.push_back(b);
  }
  model.supports = {{0, {true, true, true, true, true, true}}};
  return model;
}

/// Displacement of the free end, turned back, under a force or moment there.
Vector6 tip(const Model& model, const Eigen::Matrix3d& turn, const Vector6& load) {
  Actions actions = no_actions(model);
  const auto last = static_cast<Eigen::Index>(model.nodes.size() - 1) * dofs_per_node;
  actions.nodal.segment<3>(last) = turn * load.head<3>();
  actions.nodal.segment<3>(last + 3) = turn * load.tail<3>();
  const StaticResult solved = solve_statics(model, {actions});
  REQUIRE(solved.has_value());
  const StaticSolution& s = (*solved)[0];
  Vector6 u;
  u << turn.transpose() * s.displacements.segment<3>(last),
      turn.transpose() * s.displacements.segment<3>(last + 3);
  return u;
}

BeamElement arc_element(double angle, double towards) {
  BeamElement e;
  e.L = 2 * R * std::sin(angle / 2);
  e.section = tube();
  e.material = steel();
  e.arc = {1 / R, towards, {0.8, 0.9}};
  return e;
}

}  // namespace

TEST_CASE("a quarter circle gives way as virtual work has it, in one piece and in any number",
          "[truth]") {
  const Source source = rederived("closed forms by virtual work, evaluated apart");
  std::mt19937 random(5);
  std::uniform_real_distribution<double> u(-1, 1);
  for (const int pieces : {1, 2, 3, 8}) {
    const Eigen::Matrix3d turn =
        pieces == 1 ? Eigen::Matrix3d::Identity()
                    : Eigen::Quaterniond(u(random), u(random), u(random), u(random))
                          .normalized()
                          .toRotationMatrix();
    const Model model = quarter_arc(pieces, turn, pieces == 3 ? 0.7 : 0);
    // At the free end the tangent is -x, the radius +y.
    const Vector6 radial = tip(model, turn, Vector6::Unit(1));
    const Vector6 tangential = tip(model, turn, -Vector6::Unit(0));
    const Vector6 couple = tip(model, turn, Vector6::Unit(5));
    const Vector6 across = tip(model, turn, Vector6::Unit(2));
    const Vector6 torque = tip(model, turn, Vector6::Unit(3));
    const std::string in = " of a quarter circle in " + std::to_string(pieces);
    truth("radial movement by a radial force" + in, source, radial[1],
          within_rel(1.723618801e-5, 1e-8));
    truth("movement along by a radial force" + in, source, std::abs(radial[0]),
          within_rel(1.096175648e-5, 1e-8));
    truth("turn by a radial force" + in, source, std::abs(radial[5]),
          within_rel(4.373627829e-5, 1e-8));
    truth("movement along by a force along" + in, source, -tangential[0],
          within_rel(7.850302363e-6, 1e-8));
    truth("turn by a force along" + in, source, std::abs(tangential[5]),
          within_rel(2.496450700e-5, 1e-8));
    truth("turn by a couple" + in, source, couple[5], within_rel(1.374015706e-4, 1e-8));
    truth("movement out of plane" + in, source, across[2], within_rel(2.942109813e-5, 1e-8));
    truth("turn about the radius out of plane" + in, source, std::abs(across[4]),
          within_rel(5.595462831e-5, 1e-8));
    truth("turn about the tangent out of plane" + in, source, std::abs(across[3]),
          within_rel(1.972034629e-5, 1e-8));
    truth("twist by a torque" + in, source, torque[3], within_rel(1.757866492e-4, 1e-8));
  }
}

TEST_CASE("chains of straight pieces come near the arc with the square of their number",
          "[truth]") {
  // Table of relative errors by an independent program (derived for this project).
  const Source source = rederived("frames of straight pieces solved apart");
  const Eigen::Matrix3d unturned = Eigen::Matrix3d::Identity();
  const double exact = tip(quarter_arc(1, unturned, 0), unturned, Vector6::Unit(1))[1];
  for (const auto& [pieces, error] :
       {std::pair{2, -1.20e-1}, {4, -3.15e-2}, {8, -7.98e-3}, {16, -2.00e-3}, {32, -5.00e-4}}) {
    Model chain = quarter_arc(pieces, unturned, 0);
    for (Beam& b : chain.beams) b.arc = {};
    const double radial = tip(chain, unturned, Vector6::Unit(1))[1];
    truth("error of " + std::to_string(pieces) + " straight pieces for a quarter circle", source,
          radial / exact - 1, within_rel(error, 5e-3));
  }
}

TEST_CASE("an arc resists no rigid motion and is symmetric") {
  std::mt19937 random(8);
  std::uniform_real_distribution<double> u(-1, 1);
  for (const double angle : {1e-4, 0.1, 0.8, quarter}) {
    const BeamElement e = arc_element(angle, 3 * u(random));
    const Matrix12 K = local_stiffness(e);
    CHECK((K - K.transpose()).norm() <= 1e-14 * K.norm());
    const Eigen::Vector3d move(u(random), u(random), u(random)),
        turn(u(random), u(random), u(random));
    Vector12 d;
    d << move, turn, move + turn.cross(Eigen::Vector3d(e.L, 0, 0)), turn;
    const Vector12 f = K * d;
    CHECK(f.norm() <= 1e-9 * K.norm() * d.norm());
  }
}

TEST_CASE("a flat arc is a straight beam") {
  BeamElement e = arc_element(1e-7, 0.4);
  e.arc.bending = {1, 1};
  const Matrix12 bent = local_stiffness(e);
  e.arc = {};
  const Matrix12 straight = local_stiffness(e);
  CHECK((bent - straight).norm() <= 1e-6 * straight.norm());
}

TEST_CASE("an arc's places run from one end to the other round its centre") {
  const BeamElement e = arc_element(1.1, 0.6);
  const double half = arc_angle(e.L, 1 / R) / 2;
  CHECK_THAT(half, WithinRel(0.55, 1e-12));
  CHECK(arc_place(e, -half).at.norm() < 1e-15);
  CHECK((arc_place(e, half).at - Eigen::Vector3d(e.L, 0, 0)).norm() < 1e-15);
  const Eigen::Vector3d inward(0, std::cos(0.6), std::sin(0.6));
  const Eigen::Vector3d centre = Eigen::Vector3d(e.L / 2, 0, 0) + R * std::cos(half) * inward;
  for (const double a : {-0.5, -0.1, 0.0, 0.3}) {
    const ArcPlace p = arc_place(e, a);
    CHECK_THAT((p.at - centre).norm(), WithinRel(R, 1e-12));
    CHECK(std::abs(p.axes.col(0).dot(p.at - centre)) < 1e-13);
    CHECK((p.at - arc_place(e, a - 1e-6).at).dot(p.axes.col(0)) > 0);
  }
}

TEST_CASE("an arc weighs as much as its length along the curve") {
  const BeamElement e = arc_element(0.5, 0);
  CHECK_THAT(developed_length(e), WithinRel(0.5 * R, 1e-12));
  const Matrix12 M = local_mass(e);
  Vector12 shift = Vector12::Zero();
  shift[1] = shift[7] = 1;
  CHECK_THAT(shift.dot(M * shift), WithinRel(7850 * tube().A * 0.5 * R, 1e-12));
}

}  // namespace tubewright::curved_beam_test
