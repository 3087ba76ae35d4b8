// Statically equivalent spreading, by the laws of statics.
#include "cases/model/spread_load.h"

#include <Eigen/Geometry>
#include <random>

#include "tests/catch.h"

namespace tubewright::spread_load_test {

namespace {

struct Resultant {
  Eigen::Vector3d force = Eigen::Vector3d::Zero();
  Eigen::Vector3d moment = Eigen::Vector3d::Zero();  ///< about the origin
};

Resultant resultant(const std::vector<Eigen::Vector3d>& nodes, const std::vector<NodeShare>& s) {
  Resultant r;
  for (size_t i = 0; i < nodes.size(); ++i) {
    r.force += s[i].force;
    r.moment += s[i].moment + nodes[i].cross(s[i].force);
  }
  return r;
}

}  // namespace

TEST_CASE("spread shares have the force and moment of what they stand for") {
  std::mt19937 random(1);
  std::uniform_real_distribution<double> u(-1, 1);
  const auto vector = [&] { return Eigen::Vector3d(u(random), u(random), u(random)); };
  for (int count = 1; count <= 6; ++count) {
    for (const bool in_a_row : {false, true}) {
      const Eigen::Vector3d line = vector();
      std::vector<Eigen::Vector3d> nodes;
      for (int i = 0; i < count; ++i)
        nodes.push_back(in_a_row ? Eigen::Vector3d(line * i) : vector());
      const Eigen::Vector3d at = vector(), force = 100 * vector(), moment = 10 * vector();
      const Resultant r = resultant(nodes, spread_load(nodes, at, force, moment));
      CHECK((r.force - force).norm() < 1e-10);
      CHECK((r.moment - (moment + at.cross(force))).norm() < 1e-9);
    }
  }
}

TEST_CASE("three or more nodes that span a plane need no moments") {
  const std::vector<Eigen::Vector3d> nodes = {{0, 0, 0}, {1, 0, 0}, {0, 1, 0}};
  for (const NodeShare& s : spread_load(nodes, {0.2, 0.3, 1}, {5, -6, 7}, {1, 2, 3})) {
    CHECK(s.moment.norm() < 1e-12);
  }
}

TEST_CASE("a weight over the middle of a seat's four corners is shared equally") {
  const std::vector<Eigen::Vector3d> nodes = {{0, 0, 0}, {1, 0, 0}, {1, 1, 0}, {0, 1, 0}};
  for (const NodeShare& s : spread_load(nodes, {0.5, 0.5, 0.4}, {0, 0, -400}, {0, 0, 0})) {
    CHECK((s.force - Eigen::Vector3d(0, 0, -100)).norm() < 1e-10);
  }
}

}  // namespace tubewright::spread_load_test
