// Steps along a curve that is known, and steps that leave it.
#include "solver/stability/path_step.h"

#include <cmath>

#include "tests/catch.h"

namespace tubewright::path_step_test {

namespace {

constexpr double negligible = 1e-9;

bool stays(const PathStep& step) {
  const auto n = step.moved.size();
  return stays_on_path(step, Eigen::VectorXd::Ones(n), std::vector<int>(static_cast<size_t>(n), 0),
                       negligible);
}

/// Of one displacement, by its speed against the load at both ends.
PathStep along_one(double from, double to, double moved, double load) {
  return {Eigen::VectorXd::Constant(1, from), Eigen::VectorXd::Constant(1, to),
          Eigen::VectorXd::Constant(1, moved), load, false};
}

/// The load of a shallow two-bar truss but for a factor: h - h^3 at height h (von Mises).
double load_at(double h) { return h - h * h * h; }
double speed_at(double h) { return 1 / (1 - 3 * h * h); }
PathStep truss_step(double from, double to) {
  return along_one(speed_at(from), speed_at(to), to - from, load_at(to) - load_at(from));
}

}  // namespace

TEST_CASE("steps along a straight path stay on it, however long") {
  for (const double load : {1e-6, 1.0, 1e6}) CHECK(stays(along_one(2, 2, 2 * load, load)));
}

TEST_CASE("a shallow truss may be followed up to its limit, not over to its far branch") {
  const double limit = 1 / std::sqrt(3.0);
  for (const double from : {1.0, 0.9, 0.7, 0.6}) {
    CHECK(stays(truss_step(from, from - 0.3 * (from - limit))));
    // Where it hangs down it carries as much and more, stable again.
    for (double to = -1.0; to > -40; to *= 1.05) {
      if (load_at(to) <= load_at(from)) continue;
      INFO("from " << from << " to " << to);
      CHECK_FALSE(stays(truss_step(from, to)));
    }
  }
}

TEST_CASE("a step follows an arc of 40 degrees, not one of a right angle") {
  const auto arc = [](double angle) {
    const Eigen::Vector2d moved(std::sin(angle), 1 - std::cos(angle));
    return PathStep{Eigen::Vector2d(1, 0), Eigen::Vector2d(std::cos(angle), std::sin(angle)), moved,
                    moved.norm(), false};
  };
  CHECK(stays(arc(40 * M_PI / 180)));
  CHECK_FALSE(stays(arc(M_PI / 2)));
}

TEST_CASE("a kink is followed where cables went slack or taut, and nowhere else") {
  PathStep step{Eigen::Vector2d(1, 0), Eigen::Vector2d(0, 1), Eigen::Vector2d(0.2, 0.8), 1, false};
  step.load_change = step.moved.norm();
  CHECK_FALSE(stays(step));
  step.kinked = true;
  step.moved = Eigen::Vector2d(0.02, 0.98);
  step.load_change = step.moved.norm();
  CHECK(stays(step));
  step.moved = Eigen::Vector2d(-1, -1);
  CHECK_FALSE(stays(step));
}

TEST_CASE("what one small part of a frame does by itself is seen beside all the rest") {
  PathStep step{Eigen::Vector2d(1, 0.01), Eigen::Vector2d(1, 0.01), Eigen::Vector2d(1, 0.01), 1,
                false};
  const Eigen::Vector2d ones = Eigen::Vector2d::Ones();
  CHECK(stays_on_path(step, ones, {0, 1}, negligible));
  step.moved[1] = 0.08;
  CHECK_FALSE(stays_on_path(step, ones, {0, 1}, negligible));
}

TEST_CASE("no movement is on any path, movement without a speed on none") {
  CHECK(stays(along_one(1, 5, 0, 0)));
  CHECK_FALSE(stays(along_one(0, 1, 1, 1)));
  CHECK_FALSE(stays(along_one(1, 0, 1, 1)));
}

}  // namespace tubewright::path_step_test
