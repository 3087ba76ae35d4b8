// Standing on tyres against hand statics.
#include "solver/dynamics/ride_start.h"

#include "tests/solver/dynamics/ride_models.h"
#include "tests/truth.h"

namespace tubewright::ride_start_test {

using namespace tubewright::test;

namespace {

/// A rigid body of 100 kg with wheels at (x, y) from its centre of gravity, free to go along, too.
Structure body(const std::vector<Eigen::Vector2d>& wheels) {
  Structure s;
  s.M = Eigen::Vector4d(100, 20, 10, 100).asDiagonal();  // heave, pitch (nose down), roll, along
  s.K = Eigen::Matrix4d::Zero();
  s.coordinates = Eigen::MatrixXd::Zero(static_cast<Eigen::Index>(wheels.size()), 4);
  for (size_t i = 0; i < wheels.size(); ++i) {
    s.coordinates.row(static_cast<Eigen::Index>(i)) << 1, -wheels[i].x(), wheels[i].y(), 0;
  }
  s.weight = Eigen::Vector4d(-100 * gravity, 0, 0, 0);
  return s;
}

RideSystem on_tyres(const Structure& s, double k) {
  RideSystem r = modal(s, 0).system;
  for (int i = 0; i < static_cast<int>(s.coordinates.rows()); ++i) r.tyres.push_back({i, -1, k, 0});
  return r;
}

}  // namespace

TEST_CASE("three wheels stand by the lever", "[truth]") {
  const RideSystem r = on_tyres(body({{0.8, 0}, {-0.4, 0.3}, {-0.4, -0.3}}), 1e5);
  const auto s = standing_ride(r, Eigen::Vector3d(0, 0.01, 0), false);
  REQUIRE(s.has_value());
  constexpr Source lever = rederived("lever");
  truth("front wheel of a three-wheeler, 1/3 of the weight, N", lever, s->tyre_forces[0],
        within_rel(327, 1e-9));
  truth("rear wheels, whatever the heights, N", lever, s->tyre_forces[1], within_rel(327, 1e-9));
  CHECK_THAT(s->deflections[0], WithinRel(3.27e-3, 1e-9));
  const Eigen::VectorXd w = r.modes * s->displacement;
  CHECK_THAT(w[1], WithinAbs(0.01 - 3.27e-3, 1e-12));
}

TEST_CASE("of four wheels over a hole three stand, or all if tyres may pull") {
  const RideSystem r = on_tyres(body({{0.5, 0.3}, {0.5, -0.3}, {-0.5, 0.3}, {-0.5, -0.3}}), 1e5);
  const Eigen::Vector4d hole(-0.05, 0, 0, 0);
  const auto some = standing_ride(r, hole, false), all = standing_ride(r, hole, true);
  REQUIRE(some.has_value());
  REQUIRE(all.has_value());
  // Twist: pairs of diagonals share the weight; k/4 of the warp each.
  CHECK_THAT(all->tyre_forces[0], WithinAbs(981 / 4.0 - 1e5 * 0.05 / 4, 1e-6));
  CHECK_THAT(all->tyre_forces[1], WithinAbs(981 / 4.0 + 1e5 * 0.05 / 4, 1e-6));
  CHECK(some->tyre_forces[0] == 0);
  CHECK(some->deflections[0] < 0);
  CHECK_THAT(some->tyre_forces[1], WithinAbs(981 / 2.0, 1e-6));
  CHECK_THAT(some->tyre_forces[2], WithinAbs(981 / 2.0, 1e-6));
  CHECK_THAT(some->tyre_forces[3], WithinAbs(0, 1e-6));
}

TEST_CASE("what cannot stand is told, with the reason") {
  const auto why = [](const RideSystem& r, bool bilateral) {
    const auto s = standing_ride(
        r, Eigen::VectorXd::Zero(static_cast<Eigen::Index>(r.tyres.size())), bilateral);
    REQUIRE(!s);
    return *s.error();
  };
  // The centre of gravity before both axles.
  const RideSystem nose =
      on_tyres(body({{-0.1, 0.3}, {-0.1, -0.3}, {-0.9, 0.3}, {-0.9, -0.3}}), 1e5);
  CHECK(why(nose, false) == NoEquilibrium::tips);
  CHECK(standing_ride(nose, Eigen::Vector4d::Zero(), true).has_value());
  // One axle away from it.
  CHECK(why(on_tyres(body({{0.2, 0.3}, {0.2, -0.3}}), 1e5), true) == NoEquilibrium::unsupported);
  CHECK(why(on_tyres(body({}), 1e5), false) == NoEquilibrium::unsupported);
}

TEST_CASE("an axle under the centre of gravity and two wheels in line balance") {
  const RideSystem axle = on_tyres(body({{0, 0.3}, {0, -0.3}}), 1e5);
  const auto s = standing_ride(axle, Eigen::Vector2d::Zero(), false);
  REQUIRE(s.has_value());
  CHECK_THAT(s->tyre_forces[0], WithinAbs(490.5, 1e-6));
}

TEST_CASE("without weight a body lies where it touches, without force") {
  Structure b = body({{0.5, 0.3}, {0.5, -0.3}, {-0.5, 0.3}, {-0.5, -0.3}});
  b.weight.setZero();
  const RideSystem r = on_tyres(b, 1e5);
  const auto level = standing_ride(r, Eigen::Vector4d::Constant(0.02), false);
  REQUIRE(level.has_value());
  CHECK(level->tyre_forces.norm() < 1e-6);
  CHECK_THAT((r.modes * level->displacement).mean(), WithinAbs(0.02, 1e-12));
  const auto warped = standing_ride(r, Eigen::Vector4d(-0.05, 0, 0, 0), false);
  REQUIRE(warped.has_value());
  CHECK(warped->tyre_forces.norm() < 1e-6);
  CHECK(warped->deflections.maxCoeff() < 1e-9);
}

TEST_CASE("an elastic structure stands as its matrices say, reduced or not") {
  // Five masses in a row on springs between neighbours, tyres under the first and the last, and a
  // ground spring's worth of stiffness by the tyres alone.
  Structure s;
  s.M = (Eigen::VectorXd(5) << 3, 8, 20, 9, 4).finished().asDiagonal();
  s.K = Eigen::MatrixXd::Zero(5, 5);
  for (int i = 0; i < 4; ++i) {
    Eigen::VectorXd e = Eigen::VectorXd::Zero(5);
    e[i] = 1;
    e[i + 1] = -1;
    s.K += 1e4 * (i + 1) * e * e.transpose();
  }
  s.coordinates = Eigen::MatrixXd::Zero(2, 5);
  s.coordinates(0, 0) = s.coordinates(1, 4) = 1;
  s.weight = -gravity * s.M.diagonal();
  const Eigen::Vector2d heights(0.001, -0.002), k(5e4, 9e4);
  const Eigen::MatrixXd stands = s.K + s.coordinates.transpose() * k.asDiagonal() * s.coordinates;
  const Eigen::VectorXd load = s.weight + s.coordinates.transpose() * k.cwiseProduct(heights);
  const Eigen::VectorXd u = solve_symmetric(stands, load);
  for (const int kept : {0, 1, 2, 4}) {
    RideSystem r = modal(s, kept).system;
    r.tyres = {{0, -1, k[0], 10}, {1, -1, k[1], 0}};
    const auto ours = standing_ride(r, heights, false);
    REQUIRE(ours.has_value());
    for (int i = 0; i < 2; ++i) {
      CHECK_THAT(ours->deflections[i], WithinAbs(heights[i] - u[i == 0 ? 0 : 4], 1e-10));
      CHECK_THAT(ours->tyre_forces[i], WithinRel(k[i] * ours->deflections[i], 1e-9));
    }
  }
}

}  // namespace tubewright::ride_start_test
