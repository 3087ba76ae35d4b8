// Laws of rides: what goes in comes out, whatever the structure; and what a caller is promised.
#include "solver/dynamics/ride.h"

#include <limits>

#include "solver/road/obstacles.h"
#include "solver/road/wheel_path_stream.h"
#include "tests/solver/dynamics/ride_models.h"

namespace tubewright::ride_test {

using namespace tubewright::test;

namespace {

constexpr double wheelbase = 1.2, track = 0.7;

/// Four wheels (front left, front right, rear left, rear right) on a body of 90 kg that twists:
/// heave, pitch (nose down), roll, twist, along. Coordinates: heights of the wheels, then along.
Structure twisting(double damping_ratio) {
  Structure s;
  s.M = (Eigen::VectorXd(5) << 90, 15, 8, 6, 90).finished().asDiagonal();
  s.K = Eigen::MatrixXd::Zero(5, 5);
  s.K(3, 3) = 4e4;
  s.coordinates = Eigen::MatrixXd::Zero(5, 5);
  int row = 0;
  for (const double x : {wheelbase / 2, -wheelbase / 2}) {
    for (const double y : {track / 2, -track / 2}) {
      s.coordinates.row(row++) << 1, -x, y, (x > 0) == (y > 0) ? 0.5 : -0.5, 0;
    }
  }
  s.coordinates(4, 4) = 1;
  s.weight = (Eigen::VectorXd(5) << -90 * gravity, 0, 0, 0, 0).finished();
  s.damping_ratio = damping_ratio;
  return s;
}

RideSystem on_four(const ModalStructure& m, double k, double c) {
  RideSystem r = m.system;
  for (int i = 0; i < 4; ++i) r.tyres.push_back({i, 4, k, c});
  return r;
}

WheelPaths over(std::vector<GroundProfile> tracks, double speed, double dt, double lead = 0.4,
                bool swapped = false) {
  const WheelContact circle{WheelContact::Kind::circle, 0.2};
  const int left = swapped ? 1 : 0, right = 1 - left;
  return WheelPathStream(Road(std::move(tracks)),
                         {{left, -lead, circle},
                          {right, -lead, circle},
                          {left, -lead - wheelbase, circle},
                          {right, -lead - wheelbase, circle}},
                         speed, dt);
}

RideOptions timed(double dt, double duration, double speed) {
  RideOptions o;
  o.time_step = dt;
  o.duration = duration;
  o.speed = speed;
  return o;
}

/// Kinetic, elastic (structure and tyres) and of height.
Eigen::VectorXd energy(const RideSystem& r, const History& h) {
  const Eigen::Index n = h.q.cols();
  Eigen::VectorXd e(n);
  for (Eigen::Index j = 0; j < n; ++j) {
    e[j] = h.rate.col(j).squaredNorm() / 2 - r.weight_modal.dot(h.q.col(j)) +
           r.circular_frequency.cwiseProduct(h.q.col(j)).squaredNorm() / 2;
    for (size_t i = 0; i < r.tyres.size(); ++i) {
      const double d = std::max(0.0, h.deflection(static_cast<Eigen::Index>(i), j));
      e[j] += r.tyres[i].stiffness * d * d / 2;
    }
  }
  return e;
}

}  // namespace

TEST_CASE("a vehicle dropped on level ground keeps its energy while it bounces") {
  const Structure s = twisting(0);
  const ModalStructure m = modal(s, 1);
  const RideSystem r = on_four(m, 8e4, 0);
  const Eigen::VectorXd lifted = (Eigen::VectorXd(5) << 0.05, 0.03, 0.04, 0.002, 0).finished();
  double last = 0;
  for (const double dt : {4e-4, 2e-4, 1e-4}) {
    RideOptions o = timed(dt, 2, 0);
    o.start = ModalState{modal_part(m, s, lifted), Eigen::VectorXd::Zero(5)};
    const History h = history(r, level_ground(), o);
    CHECK((h.tyre_force.array() == 0).any());
    CHECK(h.tyre_force.minCoeff() >= 0);
    const Eigen::VectorXd e = energy(r, h);
    const double drift = (e.array() - e[0]).abs().maxCoeff() / (90 * gravity * 0.05);
    CHECK(drift < 60 * std::pow(dt / 1e-3, 2));
    last = drift;
  }
  CHECK(last < 2e-3);
}

TEST_CASE("what tyres and gravity give is the momentum of the vehicle") {
  const ModalStructure m = modal(twisting(0.01), 1);
  const RideSystem r = on_four(m, 8e4, 150);
  constexpr double dt = 5e-4;
  const History h = history(r, over({edge(0.04), half_sine(0.03, 0.3)}, 4, dt), timed(dt, 1, 4));
  // Rates of modes into momenta of heave and along: M shapes q'.
  const Eigen::MatrixXd momenta = twisting(0).M * m.shapes * h.rate;
  double up = 0, along = 0;
  for (Eigen::Index j = 1; j < h.q.cols(); ++j) {
    up += dt / 2 * (h.tyre_force.col(j) + h.tyre_force.col(j - 1)).sum() - dt * 90 * gravity;
    along += dt / 2 * (h.longitudinal.col(j) + h.longitudinal.col(j - 1)).sum();
    REQUIRE_THAT(momenta(0, j), WithinAbs(up, 1e-8));
    REQUIRE_THAT(momenta(4, j), WithinAbs(along, 1e-8));
  }
  CHECK(along < -10);  // it was slowed
  CHECK((h.forces.topRows(4) - h.tyre_force).isZero(0));
  CHECK((h.forces.row(4) - h.longitudinal.colwise().sum()).isZero(1e-9));
  // The law of motion holds at each step.
  const Eigen::MatrixXd accelerated = twisting(0).M * m.shapes * h.acceleration;
  for (Eigen::Index j = 0; j < h.q.cols(); j += 50) {
    CHECK_THAT(accelerated(0, j), WithinAbs(h.tyre_force.col(j).sum() - 90 * gravity, 1e-7));
  }
}

TEST_CASE("without gravity a vehicle that leaves the ground flies on") {
  Structure s = twisting(0);
  s.weight.setZero();
  const ModalStructure m = modal(s, 1);
  const History h =
      history(on_four(m, 8e4, 200), over({edge(0.04), edge(0.04)}, 3, 1e-3), timed(1e-3, 3, 3));
  const Eigen::MatrixXd momenta = s.M * m.shapes * h.rate;
  const Eigen::Index n = h.q.cols();
  CHECK(h.tyre_force.rightCols(1000).isZero(0));
  CHECK(momenta(0, n - 1) > 1);
  CHECK_THAT(momenta(0, n - 1), WithinRel(momenta(0, n - 1000), 1e-12));
}

TEST_CASE("a mirrored road gives a mirrored ride") {
  const RideSystem r = on_four(modal(twisting(0.01), 1), 8e4, 150);
  const std::vector<GroundProfile> tracks = {edge(0.05), pothole(0.03, 0.4)};
  const History one = history(r, over(tracks, 3, 5e-4), timed(5e-4, 1, 3));
  const History other = history(r, over(tracks, 3, 5e-4, 0.4, true), timed(5e-4, 1, 3));
  for (const auto& [a, b] : {std::pair{0, 1}, {1, 0}, {2, 3}, {3, 2}}) {
    CHECK((one.tyre_force.row(a) - other.tyre_force.row(b)).cwiseAbs().maxCoeff() < 1e-6);
  }
  CHECK((one.tyre_force.row(0) - one.tyre_force.row(1)).cwiseAbs().maxCoeff() > 100);
}

TEST_CASE("halving the step converges, with the square of it while wheels stay on the ground") {
  const RideSystem r = on_four(modal(twisting(0.02), 1), 8e4, 150);
  const auto force = [&](double dt, bool bilateral) {
    RideOptions o = timed(dt, 0.5, 2);
    o.bilateral = bilateral;
    const std::vector<GroundProfile> bumps = {versed_sine(0.02, 0.4, 1e-4),
                                              versed_sine(0.03, 0.5, 1e-4)};
    const History h = history(r, over(bumps, 2, dt, 0.5), o);
    const auto every = static_cast<Eigen::Index>(std::lround(4e-3 / dt));
    Eigen::MatrixXd at(4, (h.q.cols() - 1) / every + 1);
    for (Eigen::Index j = 0; j < at.cols(); ++j) at.col(j) = h.tyre_force.col(j * every);
    return at;
  };
  for (const bool bilateral : {true, false}) {
    const Eigen::MatrixXd best = force(2.5e-5, bilateral);
    const double coarse = (force(8e-4, bilateral) - best).cwiseAbs().maxCoeff();
    const double fine = (force(2e-4, bilateral) - best).cwiseAbs().maxCoeff();
    const double finest = (force(1e-4, bilateral) - best).cwiseAbs().maxCoeff();
    CAPTURE(bilateral, coarse, fine, finest);
    CHECK(fine < coarse / 3);
    CHECK(finest < fine);
    CHECK(finest < 0.01 * best.maxCoeff());
    if (bilateral) CHECK(fine < coarse / 10);
  }
}

TEST_CASE("a bilateral ride without damping goes back the way it came") {
  const Structure s = twisting(0);
  for (const int elastic : {1, 0}) {  // the twist as a mode, or as residual flexibility
    const ModalStructure m = modal(s, elastic);
    const RideSystem r = on_four(m, 8e4, 0);
    constexpr double dt = 1e-3;
    constexpr int steps = 1500;
    const WheelPaths there = ground(dt, [](double t) { return 0.01 * std::sin(20 * t * t); });
    const WheelPaths back =
        ground(dt, [](double t) { return 0.01 * std::sin(20 * std::pow(1.5 - t, 2)); });
    RideOptions o = timed(dt, steps * dt, 0);
    o.bilateral = true;
    const History forward = history(r, there, o);
    REQUIRE(forward.q.cols() == steps + 1);
    o.start = ModalState{forward.end.state.displacement, -forward.end.state.rate};
    const History backward = history(r, back, o);
    CHECK((backward.q.rightCols(1) - forward.q.leftCols(1)).norm() < 1e-9);
    CHECK(backward.rate.rightCols(1).norm() < 1e-7);
    CHECK(forward.rate.cwiseAbs().maxCoeff() > 0.1);
  }
}

TEST_CASE("dampers are solved with the step: they only take energy, however strong") {
  // Two masses, a damper between them; the stronger, the more they are one.
  Structure s;
  s.M = Eigen::Vector2d(30, 10).asDiagonal();
  s.K = Eigen::Matrix2d::Zero();
  s.coordinates = (Eigen::MatrixXd(2, 2) << 1, 0, 1, -1).finished();
  s.weight = Eigen::Vector2d::Zero();
  const ModalStructure m = modal(s, 0);
  for (const double c : {0.0, 10.0, 1e3, 1e6, 1e12}) {
    RideSystem r = m.system;
    r.dampers = {{1, c / 2}, {1, c / 2}};
    constexpr double dt = 1e-3, duration = 0.02;
    RideOptions o = timed(dt, duration, 0);
    o.start = at_rest(r);
    o.start->rate = modal_part(m, s, Eigen::Vector2d(2, -1));
    const History h = history(r, level_ground(), o);
    const Eigen::MatrixXd v = m.shapes * h.rate;
    const Eigen::Index end = v.cols() - 1;
    CHECK_THAT(30 * v(0, end) + 10 * v(1, end), WithinAbs(50, 1e-5));
    for (Eigen::Index j = 1; j <= end; ++j) {
      CHECK(h.rate.col(j).norm() <= h.rate.col(0).norm() * (1 + 1e-12));
    }
    if (c <= 1e3) {
      const double apart = 3 * std::exp(-c * (1 / 30.0 + 1 / 10.0) * duration);
      CHECK_THAT(v(0, end) - v(1, end), WithinAbs(apart, 4e-3));
    }
  }
}

TEST_CASE("a damped oscillator by a damper is one by its damping ratio") {
  constexpr double omega = 40, zeta = 0.2, dt = 1e-4;
  RideSystem by_ratio;
  by_ratio.circular_frequency = Eigen::VectorXd::Constant(1, omega);
  by_ratio.damping_ratio = Eigen::VectorXd::Constant(1, zeta);
  by_ratio.modes = Eigen::MatrixXd::Ones(1, 1);
  by_ratio.residual_flexibility = Eigen::MatrixXd::Zero(1, 1);
  by_ratio.weight_modal = Eigen::VectorXd::Constant(1, 3);
  by_ratio.weight_displacement = Eigen::VectorXd::Zero(1);
  RideSystem by_damper = by_ratio;
  by_damper.damping_ratio.setZero();
  by_damper.dampers = {{0, 2 * zeta * omega}};
  RideOptions o = timed(dt, 0.4, 0);
  o.start = at_rest(by_ratio);
  const History a = history(by_ratio, level_ground(), o);
  const History b = history(by_damper, level_ground(), o);
  CHECK((a.q - b.q).cwiseAbs().maxCoeff() < 1e-5 * a.q.maxCoeff());
}

TEST_CASE("blocks of any size hand over the same bits, and a stop ends a ride between them") {
  const RideSystem r = on_four(modal(twisting(0.01), 1), 8e4, 150);
  const auto paths = [] { return over({edge(0.05), GroundProfile{}}, 3, 1e-3); };
  Eigen::MatrixXd reference;
  for (const int block : {1, 7, 256, 5000}) {
    RideOptions o = timed(1e-3, 1, 3);
    o.block = block;
    Eigen::MatrixXd forces(4, 1001);
    std::int64_t next = 0;
    const auto end = ride(r, paths(), o, [&](const RideBlock& b) {
      CHECK(b.first == next);
      next += b.tyre_force.cols();
      forces.middleCols(b.first, b.tyre_force.cols()) = b.tyre_force;
    });
    REQUIRE(end.has_value());
    CHECK(end->steps == 1000);
    CHECK(next == 1001);
    if (reference.size() == 0) reference = forces;
    // Paths of other blocks are searched in another order: rounding, no more.
    CHECK((forces - reference).cwiseAbs().maxCoeff() < 1e-6);
  }
  const auto again = [&] {
    double sum = 0;
    const auto end =
        ride(r, paths(), timed(1e-3, 1, 3), [&](const RideBlock& b) { sum += b.tyre_force.sum(); });
    return std::pair{sum, end->state.displacement};
  };
  CHECK(again() == again());
  int asked = 0;
  const auto stopped = ride(
      r, paths(), timed(1e-3, 1, 3), [](const RideBlock&) {}, [&] { return ++asked > 2; });
  REQUIRE(stopped.has_value());
  CHECK(stopped->stopped);
  CHECK(stopped->steps == 511);
  CHECK(asked == 3);
  const auto at_once = ride(
      r, paths(), timed(1e-3, 1, 3), [](const RideBlock&) {}, [] { return true; });
  CHECK(at_once->stopped);
  CHECK(at_once->steps == 0);
}

TEST_CASE("a ride that stands on level ground stays as it is") {
  const RideSystem r = on_four(modal(twisting(0.01), 1), 8e4, 150);
  const History h = history(r, level_ground(), timed(1e-3, 1, 5));
  for (Eigen::Index i = 0; i < 4; ++i) {
    CHECK_THAT(h.tyre_force.row(i).minCoeff(), WithinRel(90 * gravity / 4, 1e-9));
    CHECK_THAT(h.tyre_force.row(i).maxCoeff(), WithinRel(90 * gravity / 4, 1e-9));
  }
  CHECK(h.rate.cwiseAbs().maxCoeff() < 1e-9);
}

TEST_CASE("a ride that cannot start says why; one of too long steps says that it diverged") {
  Structure s = twisting(0);
  RideSystem two = modal(s, 1).system;
  two.tyres = {{0, -1, 1e5, 0}, {1, -1, 1e5, 0}};
  const auto none = ride(two, level_ground(), timed(1e-3, 1, 3), [](const RideBlock&) {});
  REQUIRE(!none);
  CHECK(*none.error() == NoEquilibrium::unsupported);

  // A light wheel on a stiff tyre, steps of several of its periods: as linear acceleration, it
  // grows beyond 0.55 of a period.
  RideSystem stiff = one_mass(1, 1e6, 0);
  RideOptions o = timed(0.02, 2000, 0);
  o.bilateral = true;
  o.start = at_rest(stiff);
  bool all_finite = true;
  const auto end = ride(stiff, level_ground(), o, [&](const RideBlock& b) {
    all_finite = all_finite && b.displacement.allFinite();
  });
  REQUIRE(end.has_value());
  CHECK(end->diverged);
  CHECK(end->state.displacement.allFinite());
  CHECK(all_finite);
}

TEST_CASE("no tyres, no modes, no time: nothing breaks") {
  RideSystem empty;
  REQUIRE(is_ride_system(empty));
  CHECK(history(empty, level_ground(), timed(1e-3, 0.01, 1)).q.cols() == 11);
  const RideSystem r = on_four(modal(twisting(0.01), 1), 8e4, 150);
  const History h = history(r, level_ground(), timed(1e-3, 0, 1));
  CHECK(h.q.cols() == 1);
  CHECK(h.end.steps == 0);
}

}  // namespace tubewright::ride_test
