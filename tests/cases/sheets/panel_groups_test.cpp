// Panels and their tubes as a graph: Euler's formula and counts are the judges.
#include "cases/sheets/panel_groups.h"

#include <algorithm>
#include <numeric>
#include <set>

#include "tests/cases/sheets/floor_grid.h"
#include "tests/catch.h"

namespace tubewright::panel_groups_test {

using namespace tubewright::testing;

TEST_CASE("a grid is one group; its rim and inner sides are those of Euler's formula") {
  for (const auto& [columns, rows] : {std::pair{1, 1}, {3, 2}, {4, 4}}) {
    const Frame frame = floor_grid(columns, rows);
    const CladFrame f = clad_frame(frame);
    const auto groups = panel_groups(f);
    REQUIRE(groups.size() == 1);
    const GroupSides sides = sides_of(f.faces, groups[0]);
    std::set<int> nodes;
    for (const PanelSide& s : sides.all) nodes.insert({s.from, s.to});
    // V - E + F = 1 for a plane graph without its outer face.
    CHECK(nodes.size() + groups[0].size() == sides.all.size() + 1);
    const auto rim = std::count(sides.rim.begin(), sides.rim.end(), true);
    // Every panel has four sides: inner ones count twice.
    CHECK(2 * sides.all.size() - static_cast<std::size_t>(rim) == 4 * groups[0].size());
    const auto loops = rim_loops(sides);
    REQUIRE(loops.size() == 1);
    CHECK(loops[0].size() == static_cast<std::size_t>(rim));
  }
}

TEST_CASE("a ring has two closed lines, the panels of which all are in one group") {
  Frame frame = floor_grid(3, 3);
  std::erase_if(frame.panels, [](const PanelEntry& p) { return p.name == "p1_1"; });
  const CladFrame f = clad_frame(frame);
  const auto groups = panel_groups(f);
  REQUIRE(groups.size() == 1);
  CHECK_FALSE(touches_itself(f.faces, groups[0]));
  const auto loops = rim_loops(sides_of(f.faces, groups[0]));
  REQUIRE(loops.size() == 2);
  CHECK(loops[0].size() + loops[1].size() == 12 + 4);
}

TEST_CASE("each panel is in one group, whatever is left out") {
  for (unsigned left_out = 0; left_out < 64; ++left_out) {
    Frame frame = floor_grid(3, 2);
    std::vector<PanelEntry> panels;
    for (unsigned k = 0; k < 6; ++k) {
      if (!(left_out >> k & 1U)) panels.push_back(frame.panels[k]);
    }
    frame.panels = panels;
    const CladFrame f = clad_frame(frame);
    std::vector<int> seen;
    for (const auto& group : panel_groups(f)) seen.insert(seen.end(), group.begin(), group.end());
    std::sort(seen.begin(), seen.end());
    std::vector<int> all(panels.size());
    std::iota(all.begin(), all.end(), 0);
    CHECK(seen == all);
  }
}

TEST_CASE("panels of two sheets, or more than 1 mm out of plane, are two groups") {
  Frame frame = floor_grid(2, 1);
  for (const double rise : {0.0004, 0.05}) {
    Frame bent = frame;
    for (Node& n : bent.nodes) {
      if (n.at.x() > 0.9) n.at.z() += rise;
    }
    CHECK(panel_groups(clad_frame(bent)).size() == (rise > flat_within ? 2u : 1u));
  }
  add_sheet(frame, "other").offset = 0.0131;
  frame.panels.back().sheet = "other";
  CHECK(panel_groups(clad_frame(frame)).size() == 2);
}

TEST_CASE("panels that share a corner only touch, side by side they do not") {
  const Frame frame = floor_grid(2, 2);
  const CladFrame f = clad_frame(frame);
  CHECK(touches_itself(f.faces, {0, 3}));
  CHECK_FALSE(touches_itself(f.faces, {0, 1}));
  CHECK_FALSE(touches_itself(f.faces, {0, 1, 3}));
}

}  // namespace tubewright::panel_groups_test
