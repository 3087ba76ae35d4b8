// Mirror planes of frames that are mirrored by construction, and classes against orbits counted
// out.
#include "cases/frame/frame_symmetry.h"

#include <algorithm>
#include <map>
#include <random>
#include <set>

#include "tests/catch.h"

namespace tubewright::frame_symmetry_test {

namespace {

using Tubes = std::vector<DrawnTube>;

/// `count` tubes at random on one side of the plane, that far from it, each followed by its image,
/// drawn the other way.
Tubes mirrored_tubes(unsigned seed, int count, const MirrorPlane& plane) {
  std::mt19937 random(seed);
  std::uniform_real_distribution<double> u(0, 1);
  Tubes tubes;
  for (int i = 0; i < count; ++i) {
    DrawnTube t;
    for (Eigen::Vector3d& end : t.ends) {
      end = Eigen::Vector3d(u(random), u(random), u(random));
      end[plane.axis] += plane.at + 0.1;
    }
    t.size = i % 3;
    tubes.push_back(t);
    tubes.push_back({{plane.image(t.ends[1]), plane.image(t.ends[0])}, t.size});
  }
  return tubes;
}

/// The twelve edges of a box.
Tubes box(const Eigen::Vector3d& least, const Eigen::Vector3d& most) {
  Tubes tubes;
  for (int corner = 0; corner < 8; ++corner) {
    Eigen::Vector3d p;
    for (int axis = 0; axis < 3; ++axis) p[axis] = corner >> axis & 1 ? most[axis] : least[axis];
    for (int axis = 0; axis < 3; ++axis) {
      if (corner >> axis & 1) continue;
      Eigen::Vector3d q = p;
      q[axis] = most[axis];
      tubes.push_back({{p, q}, 0});
    }
  }
  return tubes;
}

}  // namespace

TEST_CASE("mirror_planes finds the plane that a frame was mirrored in, wherever it lies") {
  for (int axis = 0; axis < 3; ++axis) {
    const MirrorPlane made{axis, 0.37 * axis - 0.2, 1};
    const std::vector<MirrorPlane> found = mirror_planes(mirrored_tubes(axis + 1, 20, made));
    REQUIRE(found.size() == 1);
    CHECK(found[0].axis == axis);
    CHECK_THAT(found[0].at, WithinAbs(made.at, 1e-12));
    CHECK(found[0].share == 1);
  }
}

TEST_CASE("mirror_planes counts a plane while at least half of the tubes have an image") {
  const MirrorPlane plane{1, 0, 1};
  const Tubes pairs = mirrored_tubes(4, 10, plane);
  for (const int alone : {0, 1, 20, 21}) {  // tubes without an image, beside 20 with one
    Tubes tubes = pairs;
    for (int i = 0; i < alone; ++i)
      tubes.push_back({{Eigen::Vector3d(0.01 * i, 0.05, 0), {0.5, 0.2, 0.3}}, 0});
    const std::vector<MirrorPlane> found = mirror_planes(tubes);
    INFO(alone);
    REQUIRE(found.size() == (alone <= 20 ? 1u : 0u));
    if (alone <= 20) CHECK_THAT(found[0].share, WithinRel(20.0 / (20 + alone), 1e-12));
  }
  Tubes other = pairs;
  for (std::size_t i = 1; i < other.size(); i += 2) other[i].size += 10;  // of another tube
  CHECK(mirror_planes(other).empty());
}

TEST_CASE("mirror_planes gives a box its three planes, y before x before z, and a flat one two") {
  std::vector<int> axes;
  for (const MirrorPlane& p : mirror_planes(box({1, 2, 3}, {2, 4, 6}))) {
    axes.push_back(p.axis);
    CHECK_THAT(p.at, WithinAbs(1.5 * (p.axis + 1), 1e-12));
    CHECK(p.share == 1);
  }
  CHECK(axes == std::vector<int>{1, 0, 2});
  Tubes flat = box({0, 0, 0}, {1, 2, 0});
  flat.erase(std::remove_if(flat.begin(), flat.end(),
                            [](const DrawnTube& t) { return t.ends[0] == t.ends[1]; }),
             flat.end());
  CHECK(mirror_planes(flat).size() == 2);
  CHECK(mirror_planes({}).empty());
}

// Orbits of a group of reflections: the four edges of a box along an axis are images of each other;
// a diagonal of one face is the image of the other faces' of the same family.
TEST_CASE("mirror classes are the orbits of the tubes under the planes") {
  Tubes tubes = box({0, 0, 0}, {1, 2, 3});
  tubes.push_back({{Eigen::Vector3d(0, 0, 0), {1, 2, 0}}, 0});
  std::shuffle(tubes.begin(), tubes.end(), std::mt19937(5));
  const std::vector<MirrorPlane> planes = mirror_planes(tubes);
  REQUIRE(planes.size() == 3);
  const std::vector<int> classes = mirror_classes(tubes, planes);
  std::map<int, std::set<int>> axes;
  std::map<int, int> counts;
  for (std::size_t i = 0; i < tubes.size(); ++i) {
    const Eigen::Vector3d along = (tubes[i].ends[1] - tubes[i].ends[0]).cwiseAbs();
    int axis = 0;
    along.maxCoeff(&axis);
    axes[classes[i]].insert((along.array() > 0).count() > 1 ? 3 : axis);
    ++counts[classes[i]];
    CHECK(classes[i] <= static_cast<int>(i));
    CHECK(classes[static_cast<std::size_t>(classes[i])] == classes[i]);  // the first of its class
  }
  REQUIRE(counts.size() == 4);
  for (const auto& [first, kinds] : axes) {
    CHECK(kinds.size() == 1);
    CHECK(counts[first] == (kinds.contains(3) ? 1 : 4));
  }
  const std::vector<int> alone = mirror_classes(tubes, {});
  for (std::size_t i = 0; i < alone.size(); ++i) CHECK(alone[i] == static_cast<int>(i));
}

TEST_CASE("the image of the image of a place is the place, on the plane the place itself") {
  const MirrorPlane plane{0, 0.3, 1};
  const Tubes tubes = mirrored_tubes(6, 15, plane);
  std::vector<Eigen::Vector3d> places = {{0.3, 5, 5}, {0.9, 7, 7}};  // on the plane; no image
  for (const DrawnTube& t : tubes) places.insert(places.end(), t.ends.begin(), t.ends.end());
  const std::vector<int> images = images_of(places, plane);
  CHECK(images[0] == 0);
  CHECK(images[1] == -1);
  for (std::size_t i = 2; i < places.size(); ++i) {
    REQUIRE(images[i] >= 2);
    const auto j = static_cast<std::size_t>(images[i]);
    CHECK(images[j] == static_cast<int>(i));
    CHECK_THAT(places[i].x() + places[j].x(), WithinAbs(2 * 0.3, 1e-9));
    CHECK((places[i] - places[j]).tail<2>().norm() < 1e-12);
  }
}

}  // namespace tubewright::frame_symmetry_test
