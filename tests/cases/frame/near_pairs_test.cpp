// Overlapping boxes against a look at every pair.
#include "cases/frame/near_pairs.h"

#include <random>
#include <set>

#include "tests/catch.h"

namespace tubewright::near_pairs_test {

namespace {

using Pairs = std::multiset<std::pair<int, int>>;

/// Boxes at random in a room that is longest along `axis`.
Boxes random_boxes(unsigned seed, int count, int axis) {
  std::mt19937 random(seed);
  std::uniform_real_distribution<double> u(0, 1);
  Boxes boxes;
  for (int i = 0; i < count; ++i) {
    Eigen::Vector3d least(u(random), u(random), u(random));
    least[axis] *= 8;
    const Eigen::Vector3d sides(u(random), u(random), u(random));
    boxes.emplace_back(least, least + 0.7 * sides);
  }
  return boxes;
}

/// Two boxes overlap when their stretches on each axis do, ends included.
Pairs by_looking(const Boxes& boxes) {
  Pairs pairs;
  for (int i = 0; i < static_cast<int>(boxes.size()); ++i) {
    for (int j = i + 1; j < static_cast<int>(boxes.size()); ++j) {
      bool overlap = true;
      for (int axis = 0; axis < 3; ++axis) {
        overlap = overlap && boxes[i].min()[axis] <= boxes[j].max()[axis] &&
                  boxes[j].min()[axis] <= boxes[i].max()[axis];
      }
      if (overlap) pairs.insert({i, j});
    }
  }
  return pairs;
}

Pairs by_sweeping(const Boxes& boxes) {
  Pairs pairs;
  for_overlapping_boxes(boxes, [&](int i, int j) {
    pairs.insert({i, j});
    return false;
  });
  return pairs;
}

}  // namespace

TEST_CASE("sweeping finds each overlapping pair of boxes once, on whatever axis they are spread") {
  const unsigned seed = GENERATE(1u, 2u, 3u);
  for (int axis = 0; axis < 3; ++axis) {
    const Boxes boxes = random_boxes(seed, 80, axis);
    const Pairs expected = by_looking(boxes);
    CHECK(expected.size() > 20);
    CHECK(by_sweeping(boxes) == expected);
  }
}

TEST_CASE("boxes that touch overlap, those a hair apart do not, and points are boxes too") {
  const Eigen::Vector3d one = Eigen::Vector3d::Ones();
  const Eigen::AlignedBox3d box(Eigen::Vector3d::Zero().eval(), one);
  for (int axis = 0; axis < 3; ++axis) {
    const Eigen::Vector3d step = Eigen::Vector3d::Unit(axis);
    CHECK(by_sweeping({box, box.translated(step)}).size() == 1);
    CHECK(by_sweeping({box, box.translated(step * 1.001)}).empty());
  }
  const Eigen::AlignedBox3d point(one);
  CHECK(by_sweeping({point, box, point}).size() == 3);
  CHECK(by_sweeping({}).empty());
  CHECK(by_sweeping({box}).empty());
}

TEST_CASE("the search for overlapping boxes ends when the visitor has seen enough") {
  const Boxes boxes(10, Eigen::AlignedBox3d(Eigen::Vector3d(1, 2, 3)));
  for (const int enough : {1, 7, 45}) {  // of 10 x 9 / 2 pairs
    int seen = 0;
    for_overlapping_boxes(boxes, [&](int, int) { return ++seen == enough; });
    CHECK(seen == enough);
  }
}

}  // namespace tubewright::near_pairs_test
