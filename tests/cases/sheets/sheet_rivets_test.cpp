// Rivets of a piece: distances by brute force over all pairs.
#include "cases/sheets/sheet_rivets.h"

#include <cmath>
#include <random>

#include "cases/sheets/rivet_rows.h"
#include "tests/cases/sheets/floor_grid.h"
#include "tests/catch.h"

namespace tubewright::sheet_rivets_test {

using namespace tubewright::testing;
using Eigen::Vector2d;

namespace {

WantedRivets wanted_of(const Frame& frame) {
  const CladFrame f = clad_frame(frame);
  const SheetPlane plane{{0, 0, 0}, {1, 0, 0}, {0, 1, 0}, {0, 0, 1}};
  const auto groups = panel_groups(f);
  REQUIRE(groups.size() == 1);
  return wanted_rivets(f, frame.sheets.front(), sides_of(f.faces, groups[0]), plane);
}

int holes_at_height(const std::vector<Vector2d>& holes, double y) {
  int count = 0;
  for (const Vector2d& h : holes) count += std::abs(h.y() - y) < 1e-9;
  return count;
}

}  // namespace

TEST_CASE("a row runs on through the nodes that its rail runs through") {
  const WantedRivets one = wanted_of(floor_grid(1, 1)), three = wanted_of(floor_grid(3, 1));
  CHECK(one.without.empty());
  // A bay of 500 mm clears the joint at both ends: 12.5 mm of the other tube, the leg of a fillet
  // as thick as the wall of 2 mm, 2 sqrt 2, and a rivet of 4 mm. At most every 40 mm in the rest.
  const double clear = 0.0125 + 0.002 * std::sqrt(2) + 0.004;
  const auto count = [&](double length) {
    return static_cast<int>(std::ceil((length - 2 * clear) / 0.040)) + 1;
  };
  CHECK(holes_at_height(one.holes, 0) == count(0.5));
  CHECK(holes_at_height(three.holes, 0) == count(1.5));
}

TEST_CASE("a post on the sheet's side parts the row, one below does not") {
  // 961 mm in one row at 50 mm: 21 rivets, one of them over the node; 461 mm twice: 11 and 11.
  for (const double end : {0.3, -0.3}) {
    Frame frame = floor_grid(2, 1);
    frame.sheets.front().rivet = rivets(0.004, 0.050);
    add_node(frame, "post", 0.5, 0, end);
    add_member(frame, "post", "n1_0", "post");
    const WantedRivets wanted = wanted_of(frame);
    const bool over_node =
        std::any_of(wanted.holes.begin(), wanted.holes.end(),
                    [](const Vector2d& h) { return (h - Vector2d(0.5, 0)).norm() < 0.0125; });
    CHECK(holes_at_height(wanted.holes, 0) == (end > 0 ? 22 : 21));
    CHECK(over_node == (end < 0));
  }
}

TEST_CASE("kept holes are apart and off the edges; every dropped one was too near to something") {
  std::mt19937 draw(2);
  const Polygon outline = {{0, 0}, {0.2, 0}, {0.2, 0.1}, {0, 0.1}};
  const Polygon opening = {{0.05, 0.05}, {0.05, 0.08}, {0.1, 0.08}, {0.1, 0.05}};
  constexpr double hole = 0.0041;
  std::vector<Vector2d> wanted;
  for (int i = 0; i < 1500; ++i) {
    wanted.emplace_back(0.2 * draw() / 4294967296.0, 0.1 * draw() / 4294967296.0);
  }
  const std::vector<Vector2d> kept = kept_apart(wanted, outline, {opening}, hole);
  CHECK(kept.size() > 100);
  CHECK(kept.size() < wanted.size());
  // What may stay is asked of all pairs, in the order given.
  std::vector<Vector2d> expected;
  for (const Vector2d& w : wanted) {
    bool fits = distance_to(outline, w) >= 1.2 * hole && distance_to(opening, w) >= 1.2 * hole;
    for (const Vector2d& e : expected) fits = fits && (e - w).norm() >= 2.2 * hole;
    if (fits) expected.push_back(w);
  }
  CHECK(kept == expected);
}

TEST_CASE("a tube whose joints take all of it has no rivet and is named") {
  Frame frame = floor_grid(1, 1);
  for (Node& n : frame.nodes) n.at.y() *= 0.03 / 0.4;
  const WantedRivets wanted = wanted_of(frame);
  CHECK(wanted.without == std::set<std::string>{"cross0_0", "cross1_0"});
}

}  // namespace tubewright::sheet_rivets_test
