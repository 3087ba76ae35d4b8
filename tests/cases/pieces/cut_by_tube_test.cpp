// What one tube takes from another: points drawn at random are in the one tube or in the other.
#include "cases/pieces/cut_by_tube.h"

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>
#include <numbers>
#include <random>

#include "cases/pieces/shown_cuts.h"
#include "tests/cases/small_frames.h"
#include "tests/catch.h"

namespace tubewright::cut_by_tube_test {

using namespace tubewright::testing;
using Eigen::Vector3d;

namespace {

constexpr double mm = 1e-3;

double from_minus_one(std::mt19937& draw) { return draw() / 2147483647.5 - 1; }

Vector3d random_direction(std::mt19937& draw) {
  for (;;) {
    const Vector3d v(from_minus_one(draw), from_minus_one(draw), from_minus_one(draw));
    if (v.norm() > 0.1 && v.norm() < 1) return v.normalized();
  }
}

/// A rail through O along x and an arm of 20 mm in a direction of its own.
struct RailAndArm {
  Frame frame = empty_frame();
  UncutTubes all;
  TubeArm arm;
  int rail = 0;

  explicit RailAndArm(const Vector3d& away, Shape shape = Shape::square_tube) {
    SectionEntry thin = frame.sections.front();
    frame.sections.front().shape = shape;
    thin.name = "thin";
    thin.height = thin.width = 20 * mm;
    frame.sections.push_back(thin);
    add_node(frame, "O", 0, 0, 0);
    add_node(frame, "A", -0.5, 0, 0);
    add_node(frame, "B", 0.5, 0, 0);
    add_node(frame, "end", 0.4 * away.x(), 0.4 * away.y(), 0.4 * away.z());
    add_member(frame, "rail.1", "A", "O").tube = "rail";
    add_member(frame, "rail.2", "O", "B").tube = "rail";
    add_member(frame, "arm", "O", "end").section = "thin";
    const NumberedFrame n = build_model(frame);
    all = uncut_tubes(frame, n);
    arm = tubes_at_nodes(frame, n, all).front().arms.at(0);
  }

  /// A place x along the arm, in global axes.
  Vector3d place(double x, double y, double z) const {
    const Eigen::Matrix3d& axes = all.tube(arm.tube).axes;
    return x * arm.away + axes.transpose() * Vector3d(0, y, z);
  }
};

}  // namespace

TEST_CASE("just beyond its cut an arm is outside the rail, just before it inside") {
  std::mt19937 draw(1);
  int checked = 0;
  while (checked < 2000) {
    const Vector3d away = random_direction(draw);
    if (std::abs(away.x()) > 0.9) continue;  // side by side
    const RailAndArm f(away);
    TubeEnd e;
    e.cuts = cuts_by_whole(f.all, f.arm, f.rail);
    REQUIRE_FALSE(e.cuts.empty());
    // The rail: |y|, |z| < 12.5 mm.
    const auto depth = [&](double x, double y, double z) {
      const Vector3d p = f.place(x, y, z);
      return 12.5 * mm - std::max(std::abs(p.y()), std::abs(p.z()));
    };
    const auto meets_it = [&](double y, double z) {
      double deepest = -1;
      for (double x = -0.1; x < 0.1; x += 0.1 * mm) deepest = std::max(deepest, depth(x, y, z));
      return deepest > 0;
    };
    // What passes over a face within 10 degrees, or past the rail, is cut with the rest.
    const bool flat = std::min(std::abs(away.y()), std::abs(away.z())) < std::sin(spliced_within);
    for (int i = 0; i < 20; ++i, ++checked) {
      const double y = 10 * mm * from_minus_one(draw), z = 10 * mm * from_minus_one(draw);
      const double begin = e.begin(y, z);
      // A plane that would take off less than 1 mm along the arm is left out.
      CHECK(depth(begin + shows + 0.01 * mm, y, z) < 0);
      if (!flat && meets_it(y, z)) CHECK(depth(begin - 0.01 * mm, y, z) > -shows);
    }
  }
}

TEST_CASE("on a round rail the arm reaches no farther than the sides of the cope let it") {
  // 25 mm round, an arm of 20 mm square to it: sqrt(12.5^2 - 10^2) = 7.5 mm from the axis.
  const RailAndArm f(Vector3d::UnitZ(), Shape::round_tube);
  const std::vector<EndCut> cuts = cuts_by_whole(f.all, f.arm, f.rail);
  REQUIRE(cuts.size() == 1);
  CHECK(cuts[0].kind == EndKind::cope);
  CHECK_THAT(cuts[0].planes.at(0).at, WithinRel(7.5 * mm, 1e-9));
}

TEST_CASE("an arm within 10 degrees of the rail is not cut by its faces") {
  for (const double degrees : {9.0, 11.0}) {
    const double angle = degrees * std::numbers::pi / 180;
    const RailAndArm f({std::cos(angle), 0, std::sin(angle)});
    const std::vector<EndCut> cuts = cuts_by_whole(f.all, f.arm, f.rail);
    REQUIRE(cuts.size() == 1);
    CHECK((cuts[0].kind == EndKind::square) == (degrees < 10));
  }
}

TEST_CASE("two that share the room part it in the plane between them: both halves mirror") {
  std::mt19937 draw(3);
  for (int trial = 0; trial < 200; ++trial) {
    const RailAndArm f(random_direction(draw));
    const TubeArm along{f.rail, 0, Vector3d::UnitX()};
    if (angle_between(f.arm, along) < spliced_within) continue;
    const EndCut mine = cut_between(f.all, f.arm, along);
    const double y = 10 * mm * from_minus_one(draw), z = 10 * mm * from_minus_one(draw);
    const Vector3d p = f.place(begin_at(mine, y, z), y, z);
    CHECK_THAT(p.dot(f.arm.away), WithinAbs(p.x(), 1e-9));  // as far along the one as the other
  }
}

TEST_CASE("an end is left by its faces or past it, whichever comes first") {
  // The rail ends at O by a square cut 5 mm beyond the node: an arm straight up, square to the
  // rail, stands on its face as far as that end and may go on down past it.
  const RailAndArm f(Vector3d::UnitZ());
  TubeArm placed{f.rail, 1, -Vector3d::UnitX()};
  TubeEnd end;
  end.cuts = {{{CutPlane{-5 * mm, 0, 0}}, -1, EndKind::square}};
  TubeEnd e;
  e.cuts = cuts_by_placed(f.all, f.arm, placed, end);
  REQUIRE_FALSE(e.cuts.empty());
  std::mt19937 draw(5);
  for (int i = 0; i < 500; ++i) {
    const double y = 10 * mm * from_minus_one(draw), z = 10 * mm * from_minus_one(draw);
    const double x = f.place(0, y, z).x();
    if (std::abs(x - 5 * mm) < 0.01 * mm) continue;
    if (x < 5 * mm) {
      CHECK_THAT(e.begin(y, z), WithinRel(12.5 * mm, 1e-9));
    } else {
      CHECK(e.begin(y, z) < -0.4);
    }
  }
}

TEST_CASE("a tube reaches to the far side of those that stand on it") {
  // An arm of 20 mm square to the rail: 10 mm beyond the node; at 45 degrees its far edge meets the
  // face of the rail 12.5 + 10 sqrt 2 mm beyond it.
  for (const double angle : {std::numbers::pi / 2, std::numbers::pi / 4}) {
    const RailAndArm f({std::cos(angle), 0, std::sin(angle)});
    const TubeArm along{f.rail, 1, -Vector3d::UnitX()};
    const double far = angle > 1 ? 10 * mm : (12.5 + 10 * std::numbers::sqrt2) * mm;
    CHECK_THAT(outermost(f.all, along, {along, f.arm}), WithinRel(-far, 1e-9));
    CHECK(outermost(f.all, along, {along}) == 0);
  }
}

}  // namespace tubewright::cut_by_tube_test
