// Who comes first at a node: the rules at the top of the header, and symmetry.
#include "cases/pieces/cut_order.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "tests/cases/small_frames.h"
#include "tests/catch.h"

namespace tubewright::cut_order_test {

using namespace tubewright::testing;

namespace {

/// Tubes of 25 mm, or 20 mm where `thin`, from a node O in directions of their own.
struct Star {
  Frame frame = empty_frame();
  Star() {
    SectionEntry s = frame.sections.front();
    s.name = "thin";
    s.height = s.width = 0.020;
    frame.sections.push_back(s);
    add_node(frame, "O", 0, 0, 0);
  }
  Member& arm(const std::string& name, double x, double y, double z, bool thin = false) {
    add_node(frame, name, x, y, z);
    Member& m = add_member(frame, name, "O", name);
    if (thin) m.section = "thin";
    return m;
  }
};

/// The turns in which the arms of node O are cut, names sorted within each.
std::vector<std::vector<std::string>> turns(const Frame& frame) {
  const NumberedFrame n = build_model(frame);
  const UncutTubes all = uncut_tubes(frame, n);
  NodeTubes here = tubes_at_nodes(frame, n, all).front();
  put_in_order(all, here.arms);
  NodeTurn node{here.through, {}, {}};
  for (const TubeArm& a : here.arms) node.waiting.push_back(&a);
  std::vector<std::vector<std::string>> list;
  while (!node.waiting.empty()) {
    list.emplace_back();
    for (const TubeArm* a : next_alike(all, node)) {
      list.back().push_back(all.tube(a->tube).name);
      node.placed.push_back(a);
      std::erase(node.waiting, a);
    }
    std::sort(list.back().begin(), list.back().end());
  }
  return list;
}

using Turns = std::vector<std::vector<std::string>>;

}  // namespace

TEST_CASE("the bigger tube comes first wherever it stands in the file") {
  Star s;
  s.arm("thin", 0.3, 0, 0.1, true);
  s.arm("big", 0, 0.3, 0.2);
  CHECK(turns(s.frame) == Turns{{"big"}, {"thin"}});
}

TEST_CASE("of one size a run that goes on comes before one that ends, with its other half") {
  Star s;
  s.arm("post", 0.05, 0.1, 0.3);
  s.arm("left", -0.3, 0.02, 0).tube = "rail";
  s.arm("right", 0.3, 0.1, 0).tube = "rail";
  const Turns found = turns(s.frame);
  REQUIRE(found.size() == 2);
  CHECK(found[0].size() == 2);
  CHECK(found[1] == std::vector<std::string>{"post"});
}

TEST_CASE("images in the plane between them come in one turn; with one more to a side in two") {
  Star s;
  s.arm("rail", 0.4, 0, 0);
  s.arm("l", -0.1, 0.2, 0.3, true);
  s.arm("r", -0.1, -0.2, 0.3, true);
  CHECK(turns(s.frame) == Turns{{"rail"}, {"l", "r"}});
  // A bigger one to the left is there before them and has no image.
  s.arm("bigger", 0.1, 0.4, 0.1);
  const Turns found = turns(s.frame);
  CHECK(std::none_of(found.begin(), found.end(), [](const auto& turn) {
    return turn == std::vector<std::string>{"l", "r"};
  }));
}

TEST_CASE("every arm has one turn, and the turns of a turned frame are the same") {
  Star s;
  s.arm("a", 0.3, 0.1, 0.2);
  s.arm("b", -0.1, 0.25, 0.1, true);
  s.arm("c", -0.1, -0.25, 0.1, true);
  s.arm("d", 0.02, 0.1, -0.3, true);
  const Turns found = turns(s.frame);
  std::vector<std::string> names;
  for (const auto& turn : found) names.insert(names.end(), turn.begin(), turn.end());
  std::sort(names.begin(), names.end());
  CHECK(names == std::vector<std::string>{"a", "b", "c", "d"});
  for (Node& n : s.frame.nodes) {
    const double x = n.at.x(), y = n.at.y();
    n.at.x() = std::cos(0.3) * x - std::sin(0.3) * y;
    n.at.y() = std::sin(0.3) * x + std::cos(0.3) * y;
  }
  CHECK(turns(s.frame) == found);
}

TEST_CASE("a free corner: two sharper than square are butted, two wider are mitred") {
  for (const double degrees : {60.0, 85.0, 90.0, 120.0}) {
    Star s;
    const double angle = degrees * std::numbers::pi / 180;
    s.arm("first", 0.4, 0, 0);
    s.arm("second", 0.5 * std::cos(angle), 0.5 * std::sin(angle), 0);
    INFO(degrees);
    CHECK(turns(s.frame).size() == (degrees < 88 ? 2u : 1u));
  }
}

}  // namespace tubewright::cut_order_test
