// The order is judged by laws: every weld once, images together, the next joint where it is
// coolest.
#include "cases/workshop/weld_order.h"

#include <algorithm>
#include <limits>
#include <numbers>
#include <set>

#include "cases/frame/mirror.h"
#include "cases/workshop/cut_list.h"
#include "tests/cases/small_frames.h"
#include "tests/catch.h"

namespace tubewright::weld_order_test {

using namespace tubewright::testing;

namespace {

/// Two rails 0.6 m apart with rungs at x = 0, 0.3, 0.6 and so on.
Frame ladder(int rungs) {
  Frame f = empty_frame();
  for (int i = 0; i < rungs; ++i) add_node(f, "N" + std::to_string(i) + "_l", 0.3 * i, 0.3, 0);
  for (int i = 1; i < rungs; ++i) {
    add_member(f, "rail_l." + std::to_string(i), "N" + std::to_string(i - 1) + "_l",
               "N" + std::to_string(i) + "_l")
        .tube = "rail_l";
  }
  f.mirror = MirrorRule{"_l", "_r", {}};
  REQUIRE(expand_mirror(f).empty());
  for (int i = 0; i < rungs; ++i) {
    const std::string n = "N" + std::to_string(i);
    add_member(f, "rung_" + std::to_string(i), n + "_l", n + "_r");
  }
  return f;
}

std::vector<WeldStep> order_of(const Frame& f) {
  const NumberedFrame n = build_model(f);
  return weld_order(f, n, cut_pieces(f, n));
}

Eigen::Vector3d place_of(const Frame& f, const std::string& node) {
  return std::find_if(f.nodes.begin(), f.nodes.end(), [&](const Node& n) { return n.name == node; })
      ->at;
}

double apart(const Frame& f, const WeldStep& a, const WeldStep& b) {
  double nearest = std::numeric_limits<double>::infinity();
  for (const std::string& i : a.nodes) {
    for (const std::string& j : b.nodes) {
      nearest = std::min(nearest, (place_of(f, i) - place_of(f, j)).norm());
    }
  }
  return nearest;
}

}  // namespace

TEST_CASE("a ladder of five is welded in the middle, at both ends, then between") {
  std::vector<std::string> first;
  for (const WeldStep& s : order_of(ladder(5))) {
    REQUIRE(s.nodes.size() == 2);  // left and right, one after the other
    CHECK(s.nodes[0].substr(0, 2) == s.nodes[1].substr(0, 2));
    first.push_back(s.nodes[0].substr(0, 2));
    // A rung stands on the rail with 4 x 25 mm; at the corners both are mitred at 45 degrees.
    const bool corner = first.back() == "N0" || first.back() == "N4";
    CHECK(s.ends == (corner ? 4 : 2));
    CHECK_THAT(s.weld_length,
               WithinRel(2 * 0.025 * (corner ? 2 + 2 * std::numbers::sqrt2 : 4), 1e-9));
  }
  CHECK(first == std::vector<std::string>{"N2", "N0", "N4", "N1", "N3"});
}

TEST_CASE("each joint is welded once, and all welds of the cut list are in the order") {
  Frame f = ladder(7);
  add_member(f, "brace", "N0_l", "N1_r");
  const CutList list = cut_list(f);
  std::set<std::string> seen;
  int ends = 0;
  double length = 0;
  for (const WeldStep& s : list.weld_order) {
    for (const std::string& node : s.nodes) CHECK(seen.insert(node).second);
    ends += s.ends;
    length += s.weld_length;
  }
  CHECK(ends == list.welds);
  CHECK_THAT(length, WithinRel(list.weld_length, 1e-12));
}

TEST_CASE("no joint that waits is farther from the three welded last than the next one") {
  const Frame f = ladder(12);
  const std::vector<WeldStep> order = order_of(f);
  REQUIRE(order.size() == 12);
  for (std::size_t k = 1; k < order.size(); ++k) {
    const auto coolness = [&](const WeldStep& s) {
      double nearest = std::numeric_limits<double>::infinity();
      for (std::size_t i = k < 3 ? 0 : k - 3; i < k; ++i) {
        nearest = std::min(nearest, apart(f, s, order[i]));
      }
      return nearest;
    };
    for (std::size_t j = k + 1; j < order.size(); ++j) {
      CHECK(coolness(order[k]) > coolness(order[j]) - 1e-5);
    }
  }
}

TEST_CASE("free ends and ends that are free to turn are no welds") {
  Frame f = empty_frame();
  add_node(f, "A", 0, 0, 0);
  add_node(f, "B", 0.5, 0, 0);
  add_node(f, "C", 0.5, 0, 0.5);
  add_member(f, "AB", "A", "B");
  add_member(f, "BC", "B", "C");
  REQUIRE(order_of(f).size() == 1);
  CHECK(order_of(f)[0].nodes == std::vector<std::string>{"B"});
  CHECK(order_of(f)[0].ends == 2);
  f.members[1].release_from[4] = 0;  // and AB is welded to nothing
  CHECK(order_of(f).empty());
  add_node(f, "D", 0.5, 0.5, 0);
  add_member(f, "BD", "B", "D");
  REQUIRE(order_of(f).size() == 1);
  CHECK(order_of(f)[0].ends == 2);  // AB and BD
}

}  // namespace tubewright::weld_order_test
