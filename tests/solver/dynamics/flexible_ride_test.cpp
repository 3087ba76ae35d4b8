// Flexible structures: two modes in closed form (V2), a beam on wheels of the program's own
// elements (M1).
#include <Eigen/LU>
#include <array>
#include <optional>

#include "solver/elements/beam_matrices.h"
#include "solver/road/obstacles.h"
#include "solver/road/wheel_path_stream.h"
#include "tests/solver/dynamics/ride_models.h"
#include "tests/solver/model_builder.h"
#include "tests/truth.h"

namespace tubewright::flexible_ride_test {

using namespace tubewright::test;

namespace {

constexpr double pi = 3.14159265358979323846;

/// A straight shear-rigid beam in the plane, deflection and slope of each node, with lumps.
struct PlaneBeam {
  Eigen::MatrixXd K, M;
  double piece = 0, EI = 0;
};

PlaneBeam plane_beam(double L, int pieces, double EI, double mass) {
  ModelBuilder b;
  // So wide that its rotary inertia is nothing.
  const double E = 210e9, A = 10, I = EI / E;
  const int id = b.section(properties(A, I, I, 2 * I), E, 81e9, mass / A);
  const std::vector<int> nodes = b.chain({0, 0, 0}, {L, 0, 0}, pieces, id);
  PlaneBeam p;
  p.piece = L / pieces;
  p.EI = EI;
  p.K = Eigen::MatrixXd::Zero(2 * (pieces + 1), 2 * (pieces + 1));
  p.M = p.K;
  // Heights w and rotations about y, -dw/dx: of both ends.
  const std::array<int, 4> rows = {2, 4, 8, 10};
  for (int i = 0; i < pieces; ++i) {
    const BeamElement e = beam_element(b.model, b.model.beams[static_cast<size_t>(i)]);
    const Matrix12 K = local_stiffness(e), M = local_mass(e);
    p.K.block<4, 4>(2 * i, 2 * i) += K(rows, rows);
    p.M.block<4, 4>(2 * i, 2 * i) += M(rows, rows);
  }
  return p;
}

}  // namespace

TEST_CASE("V2: a flexible vehicle on ground that steps up, in closed form", "[truth]") {
  constexpr Source v2 = rederived("V2 of the road study: two-mode exact sum");
  constexpr double EI = 1.2e4, L = 1.4, k = 100e3, dt = 1e-5;
  const double stiffness = 48 * EI / (L * L * L);
  Structure s;
  s.M = Eigen::Vector3d(5, 40, 5).asDiagonal();
  const Eigen::Vector3d bent(-.5, 1, -.5);
  s.K = stiffness * bent * bent.transpose();
  s.coordinates = Eigen::MatrixXd::Zero(2, 3);
  s.coordinates(0, 0) = s.coordinates(1, 2) = 1;
  s.weight = Eigen::Vector3d::Zero();
  truth("V2: 48 E I/L^3, N/m", v2, stiffness, within_rel(209912.536, 1e-8));
  const Eigen::Matrix3d on_ground = s.K + k * s.coordinates.transpose() * s.coordinates;
  const auto supported = symmetric_eigensystem(Eigen::MatrixXd(on_ground), s.M);
  REQUIRE(supported.has_value());
  const std::array<double, 3> frequencies = {7.786870, 22.507908, 33.325875};
  for (size_t i = 0; i < 3; ++i) {
    truth(named("V2: frequency ", i + 1, ", Hz"), v2,
          std::sqrt(supported->values[static_cast<Eigen::Index>(i)]) / (2 * pi),
          within_abs(frequencies[i], 1e-6));
  }
  const ModalStructure m = modal(s, 1);
  RideSystem r = m.system;
  r.tyres = {{0, -1, k, 0}, {1, -1, k, 0}};
  RideOptions o;
  o.time_step = dt;
  o.duration = 1;
  o.bilateral = true;
  o.start = at_rest(r);
  const History h = history(r, ground(dt, [](double) { return 0.01; }), o);
  const Eigen::MatrixXd u = m.shapes * h.q;
  const Eigen::VectorXd moment = -stiffness * L / 4 * (bent.transpose() * u).transpose();
  truth("V2: force of a wheel at 0.1 s, N", v2, h.tyre_force(0, 10000),
        within_abs(-107.5181, 0.01));
  truth("V2: moment at the middle at 0.1 s, N m", v2, moment[10000], within_abs(239.3498, 0.01));
  truth("V2: greatest force, N", v2, h.tyre_force.maxCoeff(), within_abs(1000, 1e-6));
  Eigen::Index at = 0;
  truth("V2: least force, N", v2, h.tyre_force.row(0).minCoeff(&at), within_abs(-999.138, 0.02));
  truth("V2: time of the least force, s", v2, static_cast<double>(at) * dt,
        within_abs(.70524, 2e-5));
  truth("V2: greatest moment, N m", v2, moment.maxCoeff(&at), within_abs(707.685, 0.02));
  truth("V2: time of the greatest moment, s", v2, static_cast<double>(at) * dt,
        within_abs(.25515, 2e-5));
  truth("V2: least moment, N m", v2, moment.minCoeff(), within_abs(-708.810, 0.02));
  truth("V2: greatest deflection of the middle, mm", v2, 1e3 * u.row(1).maxCoeff(),
        within_abs(21.1525, 5e-4));
  CHECK((h.tyre_force.row(0) - h.tyre_force.row(1)).cwiseAbs().maxCoeff() < 1e-5);
}

TEST_CASE("M1: so many modes are enough, with static correction", "[truth]") {
  constexpr Source m1 = rederived("M1 of the road study: beam of 18 elements, independent script");
  constexpr double L = 1.8, speed = 3, dt = 5e-5;
  constexpr int pieces = 18;
  const PlaneBeam beam = plane_beam(L, pieces, 2.5e4, 12);
  Structure s;
  s.K = beam.K;
  s.M = beam.M;
  for (const auto& [node, mass] : {std::pair{0, 8.0}, {5, 20.0}, {9, 60.0}, {18, 8.0}}) {
    s.M(2 * node, 2 * node) += mass;
  }
  s.coordinates = Eigen::MatrixXd::Zero(2, s.M.rows());
  s.coordinates(0, 0) = s.coordinates(1, 2 * pieces) = 1;
  Eigen::VectorXd up = Eigen::VectorXd::Zero(s.M.rows());
  for (int i = 0; i <= pieces; ++i) up[2 * i] = 1;
  s.weight = -gravity * s.M * up;
  s.damping_ratio = 0.01;

  // E I w'' at the middle, from the element that ends there; slope dw/dx = -rotation about y.
  Eigen::RowVectorXd bending = Eigen::RowVectorXd::Zero(s.M.rows());
  const double l = beam.piece;
  bending.segment<4>(2 * 8) << 6 / (l * l), -2 / l, -6 / (l * l), -4 / l;
  bending *= beam.EI;

  struct Peaks {
    double front, rear, most, least, front0, rear0, moment0;
  };
  const auto driven = [&](int elastic, bool corrected) {
    const ModalStructure m = modal(s, elastic, corrected);
    RideSystem r = m.system;
    r.tyres = {{0, -1, 240e3, 600}, {1, -1, 240e3, 600}};
    const WheelContact circle{WheelContact::Kind::circle, 0.25};
    RideOptions o;
    o.time_step = dt;
    o.duration = 1.1;
    o.speed = speed;
    const History h = history(
        r,
        WheelPathStream(Road({edge(0.03)}), {{0, -.25, circle}, {0, -.25 - L, circle}}, speed, dt),
        o);
    // Mode displacements, forces and weight through what is left out.
    Eigen::VectorXd moment = (bending * m.shapes * h.q).transpose();
    moment += (bending * m.residual * h.forces).transpose();
    moment.array() += bending.dot(m.residual_weight);
    return Peaks{h.tyre_force.row(0).maxCoeff(),
                 h.tyre_force.row(1).maxCoeff(),
                 moment.maxCoeff(),
                 moment.minCoeff(),
                 h.tyre_force(0, 0),
                 h.tyre_force(1, 0),
                 moment[0]};
  };

  const ModalStructure all_modes = modal(s, 36);
  const std::array<double, 5> frequencies = {18.55, 61.09, 134.14, 355.16, 422.62};
  for (size_t i = 0; i < frequencies.size(); ++i) {
    truth(named("M1: free frequency ", i + 1, ", Hz"), m1,
          all_modes.system.circular_frequency[static_cast<Eigen::Index>(i) + 2] / (2 * pi),
          within_abs(frequencies[i], 0.006));
  }
  const Peaks all = driven(36, true);
  truth("M1: static force of the front wheel, N", m1, all.front0, within_abs(620.43, 0.006));
  truth("M1: static force of the rear wheel, N", m1, all.rear0, within_abs(533.23, 0.006));
  truth("M1: static moment at the middle, N m", m1, all.moment0, within_abs(361.70, 0.05));
  // The study lets the damper push before the tyre touches, which changes peaks after a flight.
  truth("M1: greatest force of the front wheel, N", m1, all.front, within_rel(2497.5, 1e-3));
  truth("M1: greatest force of the rear wheel, N", m1, all.rear, within_rel(2868.1, 0.03));
  truth("M1: greatest moment at the middle, N m", m1, all.most, within_rel(1371.6, 0.03));
  truth("M1: least moment at the middle, N m", m1, all.least, within_rel(-350.3, 0.03));

  struct Row {
    int modes;
    double front, rear, most;
  };
  constexpr Source again = rederived(
      "M1 by RK4, cubic elements and as many modes, no tyre force above the ground, own program");
  for (const Row& row : {Row{0, 3436.88, 3597.39, 0}, Row{1, 2619.49, 2800.51, 1461.70},
                         Row{2, 2497.47, 2885.42, 1465.24}, Row{3, 2498.17, 2890.74, 1380.99},
                         Row{6, 2497.78, 2891.40, 1397.20}, Row{36, 2497.19, 2890.37, 1393.17}}) {
    const Peaks p = driven(row.modes, false);
    const std::string name = named("M1, ", row.modes, " modes, not corrected: ");
    truth(name + "greatest force of the front wheel, N", again, p.front,
          within_rel(row.front, 2e-3));
    truth(name + "greatest force of the rear wheel, N", again, p.rear, within_rel(row.rear, 2e-3));
    truth(name + "greatest moment, N m", again, p.most,
          within_abs(row.most, 1e-5 + 2e-3 * row.most));
  }
  for (const auto& [modes, error] : {std::pair{2, 0.004}, {3, 5e-4}, {6, 2e-4}, {12, 1e-4}}) {
    const Peaks p = driven(modes, true);
    CAPTURE(modes);
    CHECK_THAT(p.front, WithinRel(all.front, error));
    CHECK_THAT(p.rear, WithinRel(all.rear, error));
    CHECK_THAT(p.most, WithinRel(all.most, error));
    CHECK_THAT(p.front0, WithinRel(all.front0, 1e-9));
    CHECK_THAT(p.moment0, WithinRel(all.moment0, 1e-9));
  }
}

}  // namespace tubewright::flexible_ride_test
