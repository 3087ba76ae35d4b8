#include "cases/model/mass_distribution.h"

#include <Eigen/Geometry>
#include <Eigen/LU>
#include <random>

#include "tests/catch.h"
#include "tests/truth.h"

namespace tubewright::mass_distribution_test {

namespace {

constexpr Source by_hand = rederived("sums over point masses and free-body equations, by hand");

Lump point(double mass, double x, double y, double z) {
  return {mass, {x, y, z}, Eigen::Matrix3d::Zero(), {0}};
}

/// Point masses of a small vehicle: frame, driver, four wheels, a box off the middle.
MassDistribution point_vehicle() {
  return {{},
          {point(30, -0.80, 0, 0.35), point(75, -0.95, 0, 0.45), point(6, 0, 0.5, 0.25),
           point(6, 0, -0.5, 0.25), point(7, -1.6, 0.45, 0.25), point(7, -1.6, -0.45, 0.25),
           point(19, -0.5, 0.10, 0.30)}};
}

Model one_beam(const Eigen::Vector3d& from, const Eigen::Vector3d& to) {
  Model model;
  model.nodes = {from, to};
  model.beams.push_back({0, 1, 0, 0, 0, welded, welded});
  return model;
}

/// Resultant of actions, and their moment about `about`.
std::pair<Eigen::Vector3d, Eigen::Vector3d> resultant(const Model& model, const Actions& a,
                                                      const Eigen::Vector3d& about) {
  Eigen::Vector3d force(0, 0, 0), moment(0, 0, 0);
  const auto add = [&](const Eigen::Vector3d& at, const Eigen::Vector3d& F) {
    force += F;
    moment += (at - about).cross(F);
  };
  for (size_t n = 0; n < model.nodes.size(); ++n) {
    const auto i = static_cast<Eigen::Index>(6 * n);
    add(model.nodes[n], a.nodal.segment<3>(i));
    moment += a.nodal.segment<3>(i + 3);
  }
  for (size_t b = 0; b < model.beams.size(); ++b) {
    const Eigen::Vector3d from = model.nodes[static_cast<size_t>(model.beams[b].from)];
    const Eigen::Vector3d to = model.nodes[static_cast<size_t>(model.beams[b].to)];
    add((from + to) / 2, a.beams[b].line * (to - from).norm());
  }
  return {force, moment};
}

}  // namespace

TEST_CASE("point masses have the centre and the inertia that sums give", "[truth]") {
  // Summed by hand, sum m (|r|^2 I - r r').
  const MassProperties p = mass_properties({}, point_vehicle());
  CHECK_THAT(p.mass, WithinRel(150.0, 1e-12));
  CHECK((p.centre - Eigen::Vector3d(-0.847667, 0.012667, 0.376333)).norm() < 1e-6);
  truth("seven point masses: I_xx, kg m2", by_hand, p.inertia(0, 0), within_rel(6.95442, 1e-5));
  truth("seven point masses: I_yy, kg m2", by_hand, p.inertia(1, 1), within_rel(20.65017, 1e-5));
  truth("seven point masses: I_zz, kg m2", by_hand, p.inertia(2, 2), within_rel(25.69762, 1e-5));
  CHECK_THAT(p.inertia(0, 1), WithinRel(-0.66057, 1e-4));
  CHECK_THAT(std::abs(p.inertia(0, 2)), WithinRel(1.06172, 1e-4));
  CHECK_THAT(std::abs(p.inertia(1, 2)), WithinRel(0.14503, 1e-4));
  CHECK((p.inertia - p.inertia.transpose()).norm() == 0);
}

TEST_CASE("a bump at one wheel throws the opposite corner downward", "[truth]") {
  // Free-body computation by hand: 714.532 N at (0, 0.5, 0.25), a = F/m, alpha = I^-1 M.
  const MassProperties p = mass_properties({}, point_vehicle());
  const Eigen::Vector3d F(0, 0, 714.532), at(0, 0.5, 0.25);
  const Eigen::Vector3d a = F / p.mass;
  const Eigen::Vector3d alpha = p.inertia.inverse() * (at - p.centre).cross(F);
  truth("bump at one wheel: acceleration, m/s2", by_hand, a.z(), within_rel(4.76354, 1e-5));
  CHECK((alpha - Eigen::Vector3d(47.7082, -27.7919, -1.8142)).norm() < 1e-3);
  const std::vector<double> expected = {-164.52, -98.64, -309.43, -23.18, -33.03, 267.53, -353.26};
  const MassDistribution d = point_vehicle();
  Model model;
  Eigen::Vector3d sum(0, 0, 0);
  for (size_t i = 0; i < d.lumps.size(); ++i) {
    model.nodes = {d.lumps[i].at};
    Actions actions = no_actions(model);
    add_body_field(actions, model, {{}, {d.lumps[i]}}, {-a, -alpha, p.centre});
    truth(named("bump at one wheel: inertia force of mass ", i + 1, ", N"), by_hand,
          actions.nodal[2], within_abs(expected[i], 0.01));
    sum += actions.nodal.head<3>();
  }
  CHECK((sum + F).norm() < 1e-10);
}

TEST_CASE("a tube has the inertia of a thin rod") {
  // m L^2/12 about its middle, m L^2/3 about its end: any handbook.
  const Model model = one_beam({0, 0, 0}, {0, 0, 1.2});
  const MassProperties p = mass_properties(model, {{{0, 1.5}}, {}});
  CHECK_THAT(p.inertia(0, 0), WithinRel(1.5 * 1.2 * 1.2 * 1.2 / 12, 1e-12));
  CHECK(std::abs(p.inertia(2, 2)) < 1e-15);
}

TEST_CASE("a body field puts m b and I w on tubes and lumps, whatever their place") {
  std::mt19937 random(11);
  std::uniform_real_distribution<double> value(-1, 1);
  const auto vector = [&] { return Eigen::Vector3d(value(random), value(random), value(random)); };
  for (int trial = 0; trial < 100; ++trial) {
    Model model = one_beam(vector(), vector());
    for (int i = 0; i < 3; ++i) model.nodes.push_back(vector());
    const MassDistribution d = {
        {{0, 1 + value(random) / 2}},
        {{2, vector(), Eigen::Vector3d(0.3, 0.2, 0.4).asDiagonal(), {2, 3, 4}},
         {1, model.nodes[1], Eigen::Matrix3d::Zero(), {1}}}};
    const MassProperties p = mass_properties(model, d);
    const BodyField field{10 * vector(), 50 * vector(), p.centre};
    Actions actions = no_actions(model);
    add_body_field(actions, model, d, field);
    const auto [force, moment] = resultant(model, actions, p.centre);
    CHECK((force - p.mass * field.at_centre).norm() < 1e-11 * (1 + force.norm()));
    CHECK((moment - p.inertia * field.turning).norm() < 1e-11 * (1 + moment.norm()));
  }
}

}  // namespace tubewright::mass_distribution_test
