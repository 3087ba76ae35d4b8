// The face under a sheet, against the four faces of a tube turned one by one.
#include "cases/model/tube_face.h"

#include <Eigen/Geometry>
#include <cmath>
#include <numbers>
#include <random>

#include "tests/cases/small_frames.h"
#include "tests/catch.h"

namespace tubewright::tube_face_test {

using testing::add_member;
using testing::add_node;
using testing::empty_frame;

namespace {

constexpr double pi = std::numbers::pi;

/// A tube 60 mm high, 30 mm wide, along x, rolled.
Frame tube(double roll, Shape shape = Shape::rectangular_tube) {
  Frame f = empty_frame();
  f.sections[0].shape = shape;
  f.sections[0].height = 0.060;
  f.sections[0].width = 0.030;
  add_node(f, "A", 0, 0, 0);
  add_node(f, "B", 1, 0, 0);
  add_member(f, "AB", "A", "B").roll = roll;
  return f;
}

TubeFace face(const Frame& f, const Eigen::Vector3d& normal) {
  const NumberedFrame n = build_model(f);
  return tube_face(f.sections[0], n, n.slots[0], normal);
}

const Eigen::Vector3d up = Eigen::Vector3d::UnitZ(), left = Eigen::Vector3d::UnitY();

}  // namespace

TEST_CASE("a sheet on top of a tube lies on its width, one at its side on its height") {
  CHECK(face(tube(0), up).width == 0.030);
  CHECK(face(tube(0), -up).width == 0.030);
  CHECK(face(tube(0), left).width == 0.060);
  CHECK(face(tube(pi / 2), up).width == 0.060);
  CHECK(face(tube(pi / 2), left).width == 0.030);
  for (const Eigen::Vector3d& n : {up, left}) CHECK_THAT(face(tube(0), n).tilt, WithinAbs(0, 1e-7));
}

// The nearest of four faces, a quarter turn apart, is never more than an eighth of a turn away.
TEST_CASE("a rolled tube shows the sheet its nearest face, tilted by what is left of the roll") {
  std::mt19937 random(1);
  std::uniform_real_distribution<double> u(-10, 10);
  for (int i = 0; i < 100; ++i) {
    const double roll = u(random), quarters = std::round(roll / (pi / 2));
    const TubeFace f = face(tube(roll), up);
    INFO(roll);
    CHECK_THAT(f.tilt, WithinAbs(std::abs(roll - quarters * pi / 2), 1e-7));
    CHECK(f.width == (std::fmod(std::abs(quarters), 2) == 0 ? 0.030 : 0.060));
  }
}

TEST_CASE("a round tube touches a sheet along a line, whichever way it is turned") {
  for (const Shape shape : {Shape::round_tube, Shape::round_bar}) {
    Frame f = tube(0.5, shape);
    f.sections[0].width = 0.060;
    CHECK(face(f, up).width == 0.060);
    CHECK(face(f, up).tilt == 0);
  }
}

TEST_CASE("of a link the smaller side is taken, of given properties no width is known") {
  for (const double roll : {0.0, pi / 2}) {
    Frame f = tube(roll);
    f.members[0].kind = MemberKind::link;
    CHECK(face(f, up).width == 0.030);
    CHECK(face(f, up).tilt == 0);
  }
  CHECK(std::isnan(face(tube(0, Shape::properties), up).width));
}

// The extreme corner of the turned rectangle, corner by corner.
TEST_CASE("a tube reaches to its outermost corner, to its face where it is not tilted") {
  std::mt19937 random(2);
  std::uniform_real_distribution<double> u(-10, 10);
  for (int i = 0; i < 100; ++i) {
    const double roll = u(random);
    const Frame f = tube(roll);
    const NumberedFrame n = build_model(f);
    const TubeReach reach = tube_reach(f.sections[0], n, n.slots[0], up);
    double corner = 0;
    for (const auto& [y, z] : {std::pair{0.015, 0.030}, {0.015, -0.030}}) {
      corner = std::max(corner, std::abs(y * std::sin(roll) + z * std::cos(roll)));
    }
    INFO(roll);
    CHECK_THAT(reach.edge, WithinRel(corner, 1e-12));
    const double width = face(f, up).width;
    CHECK(reach.face == (width == 0.030 ? 0.030 : 0.015));  // the other side of 60 x 30
  }
}

TEST_CASE("a round tube reaches as far whichever way, a link as far as one of its sides") {
  Frame f = tube(0.5, Shape::round_tube);
  f.sections[0].width = 0.060;
  NumberedFrame n = build_model(f);
  TubeReach reach = tube_reach(f.sections[0], n, n.slots[0], up);
  CHECK((reach.face == 0.030 && reach.edge == 0.030));

  f = tube(0);
  f.members[0].kind = MemberKind::link;
  n = build_model(f);
  reach = tube_reach(f.sections[0], n, n.slots[0], up);
  CHECK((reach.face == 0.015 && reach.edge == 0.030));

  f = tube(0, Shape::properties);
  n = build_model(f);
  CHECK(std::isnan(tube_reach(f.sections[0], n, n.slots[0], up).face));
}

}  // namespace tubewright::tube_face_test
