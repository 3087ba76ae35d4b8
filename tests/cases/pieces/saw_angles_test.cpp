// Saw settings by turning the blade's plane back and forth: rotations are the judge.
#include "cases/pieces/saw_angles.h"

#include <Eigen/Geometry>
#include <cmath>
#include <numbers>

#include "tests/catch.h"

namespace tubewright::saw_angles_test {

TEST_CASE("a blade turned by the mitre and tilted by the bevel cuts the plane that was asked for") {
  for (const double mitre : {-1.2, -0.3, 0.0, 0.7, 2.0}) {
    for (const double bevel : {-0.9, 0.0, 0.4, 1.5}) {
      const CutPlane plane{0.01, mitre, bevel};
      const SawAngles a = saw_angles(plane);
      // The blade's normal lies along the tube; turned about z by the mitre, then tilted about the
      // line in which the turned blade meets the table.
      const Eigen::Vector3d turned =
          Eigen::AngleAxisd(-a.mitre, Eigen::Vector3d::UnitZ()) * Eigen::Vector3d::UnitX();
      const Eigen::Vector3d down = -Eigen::Vector3d::UnitZ();
      const Eigen::Vector3d normal = Eigen::AngleAxisd(a.bevel, turned.cross(down)) * turned;
      const Eigen::Vector3d asked = Eigen::Vector3d(1, -mitre, -bevel).normalized();
      INFO(mitre << " " << bevel);
      CHECK((normal - asked).norm() < 1e-12);
    }
  }
}

TEST_CASE("the turn between the ends goes from long point to long point") {
  const auto piece = [](double turn) {
    CutPiece p;
    // Long points where the tube begins first: at +y of the first end, turned at the second.
    p.ends[0].cuts = {{{CutPlane{0, -0.5, 0}}, 0, EndKind::face}};
    p.ends[1].cuts = {
        {{CutPlane{0, -0.8 * std::cos(turn), -0.8 * std::sin(turn)}}, 0, EndKind::face}};
    return p;
  };
  for (const double turn : {0.0, 0.5, -2.0, std::numbers::pi}) {
    const auto found = turn_between_ends(piece(turn));
    REQUIRE(found);
    CHECK_THAT(*found, WithinAbs(turn, 1e-12));
  }
}

TEST_CASE("a square or notched end has no long point to turn to") {
  CutPiece p;
  CHECK_FALSE(turn_between_ends(p));
  p.ends[0].cuts = p.ends[1].cuts = {{{CutPlane{0, 0.5, 0}}, 0, EndKind::face}};
  CHECK(turn_between_ends(p));
  p.ends[1].cuts[0].planes.push_back({0, 0, 1});
  CHECK_FALSE(turn_between_ends(p));
  p.ends[1].cuts[0].planes = {CutPlane{0.01, 0, 0}};
  CHECK_FALSE(turn_between_ends(p));
}

}  // namespace tubewright::saw_angles_test
