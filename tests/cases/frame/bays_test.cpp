// Four-sided faces of lattices against a search through all rectangles, and what is no side of one.
#include "cases/frame/bays.h"

#include <Eigen/Geometry>
#include <algorithm>
#include <array>
#include <cmath>
#include <random>
#include <set>

#include "tests/cases/small_frames.h"
#include "tests/catch.h"

namespace tubewright::bays_test {

using testing::add_member;
using testing::add_node;
using testing::empty_frame;
using testing::rectangle;

namespace {

constexpr int per_axis = 4;  // nodes
const double places[3][per_axis] = {{0, 0.3, 0.9, 1.3}, {0, 0.5, 0.7, 1.2}, {0, 0.4, 0.8, 1.5}};

using Cell = std::array<int, 3>;

int number(const Cell& c) { return (c[0] * per_axis + c[1]) * per_axis + c[2]; }

Cell moved(Cell c, int axis, int by) {
  c[axis] += by;
  return c;
}

/// A lattice of unequal spacing, turned anyhow, in which each tube is missing with `gaps`.
struct Lattice {
  Frame frame = empty_frame();
  std::set<std::pair<int, int>> joined;

  bool has(const Cell& a, const Cell& b) const {
    return joined.contains(std::minmax(number(a), number(b)));
  }
};

Lattice lattice(unsigned seed, double gaps) {
  Lattice l;
  std::mt19937 random(seed);
  std::normal_distribution<double> g;
  std::uniform_real_distribution<double> u(0, 1);
  const Eigen::Matrix3d turn =
      Eigen::Quaterniond(g(random), g(random), g(random), g(random)).normalized().matrix();
  for (int n = 0; n < per_axis * per_axis * per_axis; ++n) {
    const Cell c = {n / (per_axis * per_axis), n / per_axis % per_axis, n % per_axis};
    const Eigen::Vector3d p =
        turn * Eigen::Vector3d(places[0][c[0]], places[1][c[1]], places[2][c[2]]);
    add_node(l.frame, std::to_string(n), p.x(), p.y(), p.z());
    for (int axis = 0; axis < 3; ++axis) {
      if (c[axis] + 1 == per_axis || u(random) < gaps) continue;
      const int other = number(moved(c, axis, 1));
      add_member(l.frame, std::to_string(n) + "-" + std::to_string(other), std::to_string(n),
                 std::to_string(other));
      l.joined.insert({n, other});
    }
  }
  return l;
}

/// True if tubes run all along the side from `c` and none leaves it, between its ends, inward.
bool open_side(const Lattice& l, Cell c, int along, int steps, int inward, int direction) {
  for (int i = 0; i < steps; ++i, c = moved(c, along, 1)) {
    if (!l.has(c, moved(c, along, 1))) return false;
    if (i > 0 && l.has(c, moved(c, inward, direction))) return false;
  }
  return true;
}

using Corners = std::array<int, 4>;

Corners sorted(Corners c) {
  std::sort(c.begin(), c.end());
  return c;
}

/// Every rectangle of the lattice with tubes all round it and none running into it, and its area.
std::set<std::pair<Corners, long>> rectangles(const Lattice& l) {
  std::set<std::pair<Corners, long>> found;
  for (const auto& [p, q] : {std::pair{0, 1}, {0, 2}, {1, 2}}) {
    for (int n = 0; n < per_axis * per_axis * per_axis; ++n) {
      const Cell c = {n / (per_axis * per_axis), n / per_axis % per_axis, n % per_axis};
      for (int i = 1; c[p] + i < per_axis; ++i) {
        for (int j = 1; c[q] + j < per_axis; ++j) {
          const Cell beside = moved(c, p, i), above = moved(c, q, j), across = moved(beside, q, j);
          if (!open_side(l, c, p, i, q, 1) || !open_side(l, above, p, i, q, -1)) continue;
          if (!open_side(l, c, q, j, p, 1) || !open_side(l, beside, q, j, p, -1)) continue;
          const double area =
              (places[p][beside[p]] - places[p][c[p]]) * (places[q][above[q]] - places[q][c[q]]);
          found.insert({sorted({number(c), number(beside), number(above), number(across)}),
                        std::lround(1e6 * area)});
        }
      }
    }
  }
  return found;
}

}  // namespace

TEST_CASE("the bays of a lattice with gaps are the rectangles that a search through all finds") {
  const unsigned seed = GENERATE(1u, 2u, 3u, 4u);
  for (const double gaps : {0.0, 0.1, 0.3, 0.5}) {
    const Lattice l = lattice(seed, gaps);
    std::set<std::pair<Corners, long>> found;
    const std::vector<Bay> bays = four_sided_bays(l.frame, layout_of(l.frame));
    for (const Bay& b : bays) {
      found.insert({sorted(b.corners), std::lround(1e6 * b.area)});
    }
    INFO(seed << ' ' << gaps);
    CHECK(found.size() == bays.size());  // none twice
    CHECK(found == rectangles(l));
  }
}

TEST_CASE("a bay begins at its lowest corner and its normal is square to all sides") {
  const Lattice l = lattice(5, 0.2);
  for (const Bay& b : four_sided_bays(l.frame, layout_of(l.frame))) {
    CHECK(b.corners[0] == *std::min_element(b.corners.begin(), b.corners.end()));
    CHECK(b.corners[1] < b.corners[3]);
    CHECK_THAT(b.normal.norm(), WithinRel(1.0, 1e-12));
    for (int k = 0; k < 4; ++k) {
      const Eigen::Vector3d side =
          l.frame.nodes[b.corners[(k + 1) % 4]].at - l.frame.nodes[b.corners[k]].at;
      CHECK_THAT(side.dot(b.normal), WithinAbs(0, 1e-12));
    }
    for (const int corner : b.corners) {
      CHECK(std::count(b.boundary.begin(), b.boundary.end(), corner) == 1);
    }
  }
}

// Shoelace formula: (0.6 + 0.4)/2 x 0.4 m2.
TEST_CASE("a trapezium is a bay of the area that the shoelace formula gives") {
  Frame f = rectangle();
  f.nodes[2].at.x() = 0.5;
  f.nodes[3].at.x() = 0.1;
  const std::vector<Bay> bays = four_sided_bays(f, layout_of(f));
  REQUIRE(bays.size() == 1);
  CHECK_THAT(bays[0].area, WithinRel(0.2, 1e-12));
}

TEST_CASE("cables and springs are no sides of a bay, and only a cable divides one") {
  for (const MemberKind kind : {MemberKind::cable, MemberKind::spring}) {
    Frame f = rectangle();
    f.members[1].kind = kind;
    CHECK(four_sided_bays(f, layout_of(f)).empty());
    f.members[1].kind = MemberKind::link;
    CHECK(four_sided_bays(f, layout_of(f)).size() == 1);
    add_member(f, "AC", "A", "C").kind = kind;
    CHECK(four_sided_bays(f, layout_of(f)).size() == (kind == MemberKind::cable ? 0 : 1));
  }
}

TEST_CASE("a quadrilateral with a corner that points inward or that is bent is no bay") {
  Frame dart = rectangle();
  dart.nodes[2].at = {0.2, 0.1, 0};
  CHECK(four_sided_bays(dart, layout_of(dart)).empty());
  Frame arrow = rectangle();  // four corners outward, and M in the side AB inward
  add_node(arrow, "M", 0.3, 0.1, 0);
  arrow.members[0].to = "M";
  add_member(arrow, "MB", "M", "B");
  CHECK(four_sided_bays(arrow, layout_of(arrow)).empty());
  arrow.nodes[4].at.y() = 0;
  CHECK(four_sided_bays(arrow, layout_of(arrow)).size() == 1);
  Frame bent = rectangle();
  bent.nodes[2].at.z() = 0.1;
  CHECK(four_sided_bays(bent, layout_of(bent)).empty());
}

}  // namespace tubewright::bays_test
