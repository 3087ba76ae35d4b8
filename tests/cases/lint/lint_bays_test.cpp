// Bays that fold, against what is known of rigid frameworks: Dehn's theorem and Maxwell's count.
#include <Eigen/Geometry>
#include <bit>
#include <random>
#include <set>
#include <string>
#include <tuple>
#include <utility>
#include <vector>

#include "cases/lint/lint_parts.h"
#include "cases/validate/validate.h"
#include "tests/cases/clad_frames.h"
#include "tests/catch.h"

namespace tubewright::lint_bays_test {

using testing::add_member;
using testing::add_node;
using testing::add_panel;
using testing::add_sheet;
using testing::empty_frame;
using testing::rectangle;
using testing::text_of;

namespace {

Diagnostics doubts(const Frame& f) { return lint_bays(f, layout_of(f)); }

std::string corner(int n) { return "c" + std::to_string(n); }

/// A box of twelve tubes, its corners numbered by the bits of x, y and z. `closed` has a bit for
/// each face that has a diagonal; all of them join the corners of even parity (a tetrahedron).
Frame box(unsigned closed) {
  Frame f = empty_frame();
  for (int n = 0; n < 8; ++n) {
    add_node(f, corner(n), (n & 1) ? 0.7 : 0, (n & 2) ? 0.5 : 0, (n & 4) ? 0.4 : 0);
  }
  int face = 0;
  for (int a = 0; a < 8; ++a) {
    for (int b = a + 1; b < 8; ++b) {
      const int steps = std::popcount(static_cast<unsigned>(a ^ b));
      const bool even = std::popcount(static_cast<unsigned>(a)) % 2 == 0;
      const bool diagonal = steps == 2 && even;
      if (steps == 1 || (diagonal && (closed >> face & 1u) != 0)) {
        add_member(f, corner(a) + corner(b), corner(a), corner(b));
      }
      if (diagonal) ++face;
    }
  }
  return f;
}

Frame covered(const std::vector<std::string>& corners) {
  Frame f = rectangle();
  f.members.erase(f.members.begin());      // AB
  f.members.erase(f.members.begin() + 1);  // CD
  add_node(f, "M", 0.3, 0, 0);
  add_node(f, "N", 0.3, 0.4, 0);
  for (const auto& [a, b] : {std::pair{"A", "M"}, {"M", "B"}, {"C", "N"}, {"N", "D"}, {"M", "N"}}) {
    add_member(f, std::string(a) + b, a, b);
  }
  add_sheet(f, "sheet");
  if (!corners.empty()) add_panel(f, "p", "sheet", corners);
  CHECK(text_of(validate(f)).empty());
  return f;
}

}  // namespace

// A convex box with all faces triangulated is rigid (M. Dehn 1916); it has 12 + 6 bars and 3 x 8 -
// 6 freedoms, so each diagonal that is missing leaves one motion (J. C. Maxwell 1864).
TEST_CASE("a box has as many doubtful bays as faces without a diagonal, whichever they are") {
  for (unsigned closed = 0; closed < 64; ++closed) {
    const Diagnostics diagnostics = doubts(box(closed));
    INFO(closed << ' ' << text_of(diagnostics));
    CHECK(static_cast<int>(diagnostics.size()) == 6 - std::popcount(closed));
  }
}

TEST_CASE("a doubtful bay is a warning at its first corner, which names all four in order") {
  Frame f = box(63);
  REQUIRE(doubts(f).empty());
  f = box(62);  // without the diagonal from c0 to c3, the face z = 0
  const Diagnostics diagnostics = doubts(f);
  REQUIRE(diagnostics.size() == 1);
  CHECK(diagnostics[0].severity == Severity::warning);
  CHECK(diagnostics[0].message ==
        "bay `c0`, `c1`, `c3` and `c2` has neither a diagonal nor a panel");
  CHECK(diagnostics[0].place.line == f.nodes[0].place.line);
}

// 12 + 2 bars for 18 freedoms leave four motions. The plane through both diagonals is a bay too,
// the largest: it is braced once the four walls are.
TEST_CASE("parallel diagonals at both ends of a box leave its four walls to be doubted, no more") {
  Frame f = box(0);
  add_member(f, "bottom", "c0", "c3");
  add_member(f, "top", "c4", "c7");
  const Diagnostics diagnostics = doubts(f);
  INFO(text_of(diagnostics));
  CHECK(diagnostics.size() == 4);
  CHECK(text_of(diagnostics).find("`c0`, `c3`, `c7` and `c4`") == std::string::npos);
}

TEST_CASE("a bay whose four corners are fastened cannot fold, with any three it can") {
  for (int free = 0; free < 4; ++free) {
    Frame f = rectangle();
    for (const Node& n : f.nodes) f.supports.push_back({n.name, {true, true, true}, {}, {}});
    CHECK(doubts(f).empty());
    f.supports[free].restrained[1] = false;
    CHECK(doubts(f).size() == 1);
    f.supports.erase(f.supports.begin() + free);
    CHECK(doubts(f).size() == 1);
  }
}

TEST_CASE("a panel braces all bays that it covers and none beside it") {
  CHECK(doubts(covered({})).size() == 2);
  CHECK(doubts(covered({"A", "B", "C", "D"})).empty());
  for (const auto& [corners, open] :
       {std::pair{std::vector<std::string>{"A", "M", "N", "D"}, "`B`"},
        {{"N", "M", "B", "C"}, "`A`"}}) {
    const Diagnostics diagnostics = doubts(covered(corners));
    REQUIRE(diagnostics.size() == 1);
    CHECK_THAT(diagnostics[0].message, ContainsSubstring(open));
  }
}

namespace {

/// A box of `cells` in line, turned as drawn by lot, its four walls with a diagonal a cell (which
/// of the two by lot) and a diagonal in the ring at each end only; without the one of `open`:
/// 4 a cell, then the two ends'.
struct Prism {
  Frame frame = empty_frame();
  std::vector<std::set<std::string>> faces;  ///< corners, in the order of `open`
};

Prism prism(int cells, std::mt19937& random, int open = -1) {
  Prism p;
  std::uniform_real_distribution<double> u(-1, 1);
  const Eigen::Matrix3d turned = Eigen::Quaterniond(u(random), u(random), u(random), u(random))
                                     .normalized()
                                     .toRotationMatrix();
  const auto at = [](int ring, int k) { return "abcd"[k % 4] + std::to_string(ring); };
  for (int i = 0; i <= cells; ++i) {
    for (int k = 0; k < 4; ++k) {
      const Eigen::Vector3d x =
          turned * Eigen::Vector3d(0.45 * i, k == 1 || k == 2 ? 0.4 : 0, k > 1 ? 0.3 : 0);
      add_node(p.frame, at(i, k), x.x(), x.y(), x.z());
    }
  }
  const auto join = [&](const std::string& a, const std::string& b) {
    add_member(p.frame, a + b, a, b);
  };
  const auto close = [&](const std::string& a, const std::string& b, const std::string& c,
                         const std::string& d) {
    const bool first = random() % 2 == 0;
    if (static_cast<int>(p.faces.size()) != open) join(first ? a : b, first ? c : d);
    p.faces.push_back({a, b, c, d});
  };
  for (int i = 0; i <= cells; ++i) {
    for (int k = 0; k < 4; ++k) join(at(i, k), at(i, k + 1));
  }
  for (int i = 0; i < cells; ++i) {
    for (int k = 0; k < 4; ++k) {
      join(at(i, k), at(i + 1, k));
      close(at(i, k), at(i, k + 1), at(i + 1, k + 1), at(i + 1, k));
    }
  }
  for (const int i : {0, cells}) close(at(i, 0), at(i, 1), at(i, 2), at(i, 3));
  return p;
}

}  // namespace

// All faces triangulated, nodes in edges only: rigid (A. D. Alexandrov, "Convex Polyhedra", 1950),
// the rings and diagonal planes inside with it. 12 n + 6 bars for 12 (n + 1) - 6 freedoms: none to
// spare, so that each diagonal taken away frees one motion.
TEST_CASE("a long box with braced walls and ends has no doubtful bay, in whatever direction") {
  std::mt19937 random(3);
  for (int cells = 1; cells <= 8; ++cells) {
    for (int i = 0; i < 5; ++i) {
      const Prism p = prism(cells, random);
      const Diagnostics diagnostics = doubts(p.frame);
      INFO(cells << " cells\n" << text_of(diagnostics));
      CHECK(diagnostics.empty());
    }
  }
}

TEST_CASE("a long box with a brace taken away has one doubtful bay: that one") {
  std::mt19937 random(4);
  for (const int cells : {1, 3}) {
    for (int open = 0; open < 4 * cells + 2; ++open) {
      const Prism p = prism(cells, random, open);
      const Diagnostics diagnostics = doubts(p.frame);
      INFO(cells << " cells\n" << text_of(diagnostics));
      REQUIRE(diagnostics.size() == 1);
      for (const std::string& node : p.faces[open]) {
        CHECK_THAT(diagnostics[0].message, ContainsSubstring("`" + node + "`"));
      }
    }
  }
}

TEST_CASE("a panel over one face of a box closes that face and no other") {
  Frame f = box(0);
  add_sheet(f, "sheet");
  add_panel(f, "floor", "sheet", {"c0", "c1", "c3", "c2"});
  const Diagnostics diagnostics = doubts(f);
  CHECK(diagnostics.size() == 5);
  CHECK(text_of(diagnostics).find("`c0`, `c1`, `c3` and `c2`") == std::string::npos);
}

// Own finding by a search over boxes drawn at random: at m45 nothing but the tube c4 - c5 keeps the
// bay c2 c3 c5 m45 from folding out of its plane.
TEST_CASE("a tube leads straight on through a node only if it is welded there") {
  Frame f = box(0);
  f.members.clear();
  for (const auto& [name, a, b] :
       {std::tuple{"m01", 0, 1}, {"m02", 0, 2}, {"m26", 2, 6}, {"m45", 4, 5}}) {
    const Eigen::Vector3d at = (f.nodes[std::size_t(a)].at + f.nodes[std::size_t(b)].at) / 2;
    add_node(f, name, at.x(), at.y(), at.z());
  }
  for (const auto& [a, b] : std::vector<std::pair<const char*, const char*>>{
           {"c0", "m01"}, {"m01", "c1"}, {"c0", "m02"}, {"m02", "c2"}, {"c0", "c4"}, {"c1", "c3"},
           {"c1", "c5"},  {"c2", "c3"},  {"c2", "m26"}, {"m26", "c6"}, {"c3", "c7"}, {"c4", "m45"},
           {"m45", "c5"}, {"c4", "c6"},  {"c5", "c7"},  {"c6", "c7"},  {"c3", "c5"}, {"c3", "c6"},
           {"c5", "c6"},  {"m02", "c4"}, {"m26", "c0"}, {"m45", "c2"}}) {
    add_member(f, std::string(a) + b, a, b);
  }
  CHECK(doubts(f).size() == 2);
  for (Member& m : f.members) {
    if (m.to.front() == 'm') m.release_to[4] = m.release_to[5] = 0;
  }
  const Diagnostics released = doubts(f);
  CHECK(released.size() == 3);
  CHECK_THAT(text_of(released), ContainsSubstring("`m45`"));
}

}  // namespace tubewright::lint_bays_test
