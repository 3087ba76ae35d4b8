// Tubes and nodes too close to each other, against distances found by other means on random frames.
#include <Eigen/Geometry>
#include <algorithm>
#include <random>
#include <set>

#include "cases/frame/wording.h"
#include "cases/lint/lint_parts.h"
#include "tests/cases/small_frames.h"
#include "tests/catch.h"

namespace tubewright::lint_geometry_test {

using testing::add_member;
using testing::add_node;
using testing::empty_frame;
using testing::text_of;

namespace {

constexpr double side = 0.025;  // of `tube`

Eigen::Vector3d random_place(std::mt19937& random) {
  std::uniform_real_distribution<double> u(0, 0.4);
  return {u(random), u(random), u(random)};
}

/// `count` tubes at random, no two with a node in common.
Frame sticks(unsigned seed, int count) {
  std::mt19937 random(seed);
  Frame f = empty_frame();
  for (int i = 0; i < count; ++i) {
    const std::string name = std::to_string(i);
    for (const char* end : {"a", "b"}) {
      const Eigen::Vector3d p = random_place(random);
      add_node(f, end + name, p.x(), p.y(), p.z());
    }
    add_member(f, "m" + name, "a" + name, "b" + name);
  }
  return f;
}

struct Approach {
  double gap = 0;
  double from_end = 0;  ///< of the nearest points the lesser distance from an end
  bool parallel = false;
};

/// Nearest points of two segments by going to and fro between them: their distance is convex.
Approach approach(const Eigen::Vector3d& a, const Eigen::Vector3d& b, const Eigen::Vector3d& c,
                  const Eigen::Vector3d& d) {
  const auto nearest = [](const Eigen::Vector3d& p, const Eigen::Vector3d& from,
                          const Eigen::Vector3d& to) {
    const Eigen::Vector3d along = to - from;
    return std::clamp((p - from).dot(along) / along.squaredNorm(), 0.0, 1.0);
  };
  double s = 0.5, t = 0.5;
  for (int i = 0; i < 400; ++i) {
    t = nearest(a + s * (b - a), c, d);
    s = nearest(c + t * (d - c), a, b);
  }
  Approach r;
  r.gap = (a + s * (b - a) - c - t * (d - c)).norm();
  r.from_end = std::min(std::min(s, 1 - s) * (b - a).norm(), std::min(t, 1 - t) * (d - c).norm());
  r.parallel = std::abs((b - a).normalized().dot((d - c).normalized())) > 0.95;
  return r;
}

}  // namespace

// Tubes of one side touch when their axes are a side apart (face to face); the doubt begins when
// they run into each other by a tenth. Left open here: from 0.85 to 0.95, and near the ends.
TEST_CASE("tubes that run through each other are doubted, those that pass by are not") {
  const unsigned seed = GENERATE(1u, 2u, 3u);
  const Frame f = sticks(seed, 25);
  const std::string text = text_of(lint_crossings(f, layout_of(f)));
  int through = 0;
  for (std::size_t i = 0; i < f.members.size(); ++i) {
    for (std::size_t j = i + 1; j < f.members.size(); ++j) {
      const Approach a = approach(f.nodes[2 * i].at, f.nodes[2 * i + 1].at, f.nodes[2 * j].at,
                                  f.nodes[2 * j + 1].at);
      if (a.parallel) continue;
      const bool doubted =
          text.find("members " + quoted(f.members[i].name) + " and " + quoted(f.members[j].name) +
                    " cross without a joint") != text.npos;
      INFO(f.members[i].name << ' ' << f.members[j].name << " gap " << a.gap);
      if (a.gap > 0.95 * side || a.from_end < 0.4 * side) CHECK_FALSE(doubted);
      if (a.gap < 0.85 * side && a.from_end > 0.6 * side) {
        CHECK(doubted);
        ++through;
      }
    }
  }
  CHECK(through > 5);  // the frame is dense enough to tell
}

TEST_CASE("crossing tubes are not doubted if they share a node or a short stub joins them") {
  Frame f = empty_frame();
  add_node(f, "A", -0.3, 0, 0);
  add_node(f, "B", 0.3, 0, 0);
  add_node(f, "C", 0, -0.3, 0.01);
  add_node(f, "D", 0, 0.3, 0.01);
  add_member(f, "AB", "A", "B");
  add_member(f, "CD", "C", "D");
  const Diagnostics diagnostics = lint_crossings(f, layout_of(f));
  REQUIRE(diagnostics.size() == 1);
  CHECK(diagnostics[0].place.line == f.members[1].place.line);
  for (const MemberKind kind : {MemberKind::cable, MemberKind::spring}) {
    Frame g = f;
    g.members[0].kind = kind;
    CHECK(lint_crossings(g, layout_of(g)).empty());
  }
  Frame shared = f;
  shared.members[1].to = "B";
  CHECK(lint_crossings(shared, layout_of(shared)).empty());
  for (const double offset : {0.05, 0.2}) {  // between the ends of the tubes, beside the crossing
    Frame g = f;
    g.nodes[2].at = {0.3 - offset, -0.01, 0.01};
    g.nodes[3].at = {-0.2, 0.02, 0.01};
    CHECK(lint_crossings(g, layout_of(g)).size() == 1);
    add_member(g, "stub", "B", "C");
    CHECK(lint_crossings(g, layout_of(g)).size() == (offset < 0.075 ? 0 : 1));  // 1.5 x 2 sides
  }
}

// Half a side is the limit of one joint drawn twice; every pair is looked at here.
TEST_CASE("nodes nearer than half a tube are doubted with their distance, unless joined") {
  std::mt19937 random(4);
  Frame f = empty_frame();
  for (int i = 0; i < 60; ++i) {
    const Eigen::Vector3d p = 0.25 * random_place(random);
    add_node(f, "n" + std::to_string(i), p.x(), p.y(), p.z());
  }
  add_node(f, "far", 1, 0, 0);
  add_member(f, "m", "n0", "far");
  std::vector<std::pair<int, int>> near;
  for (int i = 0; i < 60; ++i) {
    for (int j = i + 1; j < 60; ++j) {
      if ((f.nodes[i].at - f.nodes[j].at).norm() < side / 2) near.emplace_back(i, j);
    }
  }
  REQUIRE(near.size() > 5);
  const Diagnostics diagnostics = lint_close_nodes(f, layout_of(f));
  CHECK(diagnostics.size() == near.size());
  const std::string text = text_of(diagnostics);
  for (const auto& [i, j] : near) {
    CHECK_THAT(text, ContainsSubstring("nodes " + tubewright::quoted(f.nodes[i].name) + " and " +
                                       tubewright::quoted(f.nodes[j].name) + " nearly coincide, " +
                                       in_mm((f.nodes[i].at - f.nodes[j].at).norm()) + " apart"));
    add_member(f, "stub" + std::to_string(i) + "_" + std::to_string(j), f.nodes[i].name,
               f.nodes[j].name);
  }
  CHECK(lint_close_nodes(f, layout_of(f)).empty());
}

// The node of another tube goes round a tube at several distances, the whole turned anyhow.
TEST_CASE("a node on or at a tube's surface is doubted all round it and all along it") {
  std::mt19937 random(5);
  std::normal_distribution<double> g;
  std::uniform_real_distribution<double> u(0, 1);
  for (int i = 0; i < 200; ++i) {
    const Eigen::Quaterniond turn =
        Eigen::Quaterniond(g(random), g(random), g(random), g(random)).normalized();
    const double off = side * u(random), angle = 6.28 * u(random), along = 0.6 * u(random);
    const Eigen::Vector3d out(0, std::cos(angle), std::sin(angle));
    Frame f = empty_frame();
    const auto add = [&](const char* name, const Eigen::Vector3d& p) {
      const Eigen::Vector3d q = turn * p;
      add_node(f, name, q.x(), q.y(), q.z());
    };
    add("A", Eigen::Vector3d::Zero());
    add("B", {0.6, 0, 0});
    add("T", Eigen::Vector3d(along, 0, 0) + off * out);
    add("U", Eigen::Vector3d(along, 0, 0) + 0.3 * out);
    add_member(f, "AB", "A", "B");
    add_member(f, "TU", "T", "U");
    const std::string text = text_of(lint_nodes_on_members(f, layout_of(f)));
    INFO(off / side << ' ' << along << ' ' << text);
    const double from_end = std::min(along, 0.6 - along);
    if (from_end < 0.45 * side || off > 0.56 * side) CHECK(text.empty());
    if (from_end < 0.55 * side) continue;
    if (off < 0.09 * side) CHECK_THAT(text, ContainsSubstring("node `T` lies on member `AB` but"));
    if (off > 0.11 * side && off < 0.54 * side) {
      CHECK_THAT(text, ContainsSubstring("node `T` touches member `AB` but is not joined to it"));
      add_member(f, "AT", "A", "T");  // a stay along the tube
      CHECK(lint_nodes_on_members(f, layout_of(f)).empty());
    }
  }
}

TEST_CASE("the advice for a node on a member is a path that is led through it") {
  Frame f = empty_frame();
  add_node(f, "A", 0, 0, 0);
  add_node(f, "B", 0.6, 0, 0);
  add_node(f, "T", 0.2, 0, 0);
  add_member(f, "AB", "B", "A");
  const Diagnostics diagnostics = lint_nodes_on_members(f, layout_of(f));
  REQUIRE(diagnostics.size() == 1);
  CHECK(diagnostics[0].place.line == f.nodes[2].place.line);
  CHECK(diagnostics[0].advice ==
        "lead the member through it, `path: [B, T, A]`, or move the node away");
}

}  // namespace tubewright::lint_geometry_test
