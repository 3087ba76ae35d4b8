// Which panels are one sheet, and where it lies: geometry by hand, and laws that hold for every
// frame. What makes a group is tested in tests/cases/sheets/panel_groups_test.cpp too.
#include "cases/model/sheet_pieces.h"

#include <Eigen/Geometry>
#include <algorithm>
#include <set>

#include "solver/elements/shear_panel.h"
#include "tests/cases/sheets/floor_grid.h"
#include "tests/catch.h"

namespace tubewright::sheet_pieces_test {

using namespace tubewright::testing;
using Eigen::Vector3d;

namespace {

/// 25 mm tube and 1.2 mm of sheet.
constexpr double touching = 0.0125 + 0.0006;

/// The grid with nothing said of where its sheet lies.
Frame plain_grid(int columns, int rows) {
  Frame f = floor_grid(columns, rows);
  f.sheets.front().offset.reset();
  return f;
}

/// From the plane of the axes to the middle of the sheet.
Vector3d lift(const Frame& f, int panel) {
  const NumberedFrame n = build_model(f);
  const Panel& p = n.model.panels[static_cast<std::size_t>(panel)];
  return p.offset * panel_geometry(n.model, p).normal;
}

std::vector<int> pieces_of(const Frame& f) {
  std::vector<int> pieces;
  for (const Panel& p : build_model(f).model.panels) pieces.push_back(p.piece);
  return pieces;
}

void turn_round(Frame& f, std::size_t panel) {
  std::swap(f.panels[panel].corners[1], f.panels[panel].corners[3]);
}

/// Sections `deep` and `flat`, 40 mm and 15 mm from top to bottom when level.
void add_unlike_sections(Frame& f) {
  for (const auto& [name, height] : {std::pair{"deep", 0.040}, {"flat", 0.015}}) {
    SectionEntry s = f.sections.front();
    s.name = name;
    s.shape = Shape::rectangular_tube;
    s.height = height;
    s.width = 0.020;
    f.sections.push_back(s);
  }
}

void give_section(Frame& f, const std::string& begin, const std::string& section) {
  for (Member& m : f.members) {
    if (m.name.starts_with(begin)) m.section = section;
  }
}

}  // namespace

TEST_CASE("a sheet without offset touches its tubes on the side that its corners point to") {
  Frame f = plain_grid(2, 1);
  for (const int p : {0, 1}) CHECK((lift(f, p) - Vector3d(0, 0, touching)).norm() < 1e-15);
  for (const std::size_t p : {0, 1}) turn_round(f, p);
  for (const int p : {0, 1}) CHECK((lift(f, p) + Vector3d(0, 0, touching)).norm() < 1e-15);
  f.sheets.front().thickness = 0.003;
  CHECK_THAT(lift(f, 0).norm(), WithinRel(0.0125 + 0.0015, 1e-12));
}

TEST_CASE("`side` puts every panel there, whichever way its corners go round") {
  Frame f = plain_grid(3, 1);
  turn_round(f, 1);
  for (const auto& [side, z] :
       {std::pair{SheetSide::top, touching}, {SheetSide::bottom, -touching}}) {
    f.sheets.front().side = side;
    for (const int p : {0, 1, 2}) CHECK((lift(f, p) - Vector3d(0, 0, z)).norm() < 1e-15);
    CHECK(pieces_of(f) == std::vector<int>{0, 0, 0});
  }
  f.sheets.front().side = SheetSide::by_corners;
  CHECK(pieces_of(f) == std::vector<int>{0, 1, 2});  // the middle one hangs below
}

TEST_CASE("an offset counts toward the side, else along the normal of the corners, either sign") {
  Frame f = plain_grid(2, 1);
  turn_round(f, 1);
  f.sheets.front().offset = 0.02;
  CHECK((lift(f, 0) - Vector3d(0, 0, 0.02)).norm() < 1e-15);
  CHECK((lift(f, 1) - Vector3d(0, 0, -0.02)).norm() < 1e-15);
  f.sheets.front().offset = -0.02;
  CHECK((lift(f, 0) - Vector3d(0, 0, -0.02)).norm() < 1e-15);
  f.sheets.front().offset = 0.02;
  f.sheets.front().side = SheetSide::bottom;
  for (const int p : {0, 1}) CHECK((lift(f, p) - Vector3d(0, 0, -0.02)).norm() < 1e-15);
}

TEST_CASE(
    "an offset of 0 leaves the sheet in the plane of the axes, in one piece from either side") {
  Frame f = plain_grid(2, 1);
  turn_round(f, 1);
  f.sheets.front().offset = 0;
  for (const int p : {0, 1}) CHECK(lift(f, p).norm() == 0);
  CHECK(pieces_of(f) == std::vector<int>{0, 0});
  for (const PanelFace& face : panel_faces(f, build_model(f))) CHECK_FALSE(face.sided);
}

TEST_CASE("a piece lies flat on the deepest of all its tubes, another piece on its own") {
  Frame f = plain_grid(3, 1);
  add_unlike_sections(f);
  give_section(f, "cross3", "deep");
  for (const int p : {0, 1, 2}) CHECK_THAT(lift(f, p).z(), WithinRel(0.020 + 0.0006, 1e-12));
  Sheet other = f.sheets.front();
  other.name = "other";
  f.sheets.push_back(other);
  f.panels[0].sheet = "other";
  CHECK_THAT(lift(f, 0).z(), WithinRel(touching, 1e-12));
  CHECK_THAT(lift(f, 1).z(), WithinRel(0.020 + 0.0006, 1e-12));
  give_section(f, "", "flat");
  CHECK_THAT(lift(f, 0).z(), WithinRel(0.0075 + 0.0006, 1e-12));
}

TEST_CASE("the depth of a tube is that across the sheet, however frame and tube are turned") {
  Frame f = plain_grid(1, 1);
  add_unlike_sections(f);
  give_section(f, "", "deep");
  for (Member& m : f.members) m.roll = M_PI / 2;  // lying flat
  CHECK_THAT(lift(f, 0).z(), WithinRel(0.010 + 0.0006, 1e-12));
  for (Member& m : f.members) m.roll = 0;
  const Eigen::Matrix3d turn(Eigen::AngleAxisd(M_PI / 2, Vector3d::UnitX()));
  Frame upright = f;
  for (Node& n : upright.nodes) n.at = turn * n.at;
  // A wall: its rails stand 20 mm wide across it, its posts reach 40 mm along the frame's x axis.
  CHECK_THAT(lift(upright, 0).norm(), WithinRel(0.010 + 0.0006, 1e-12));
  CHECK((lift(upright, 0) - turn * Vector3d(0, 0, 0.0106)).norm() < 1e-12);
}

TEST_CASE("tubes of no known depth are passed over; where all are, the sheet stays in the axes") {
  Frame f = plain_grid(2, 1);
  SectionEntry given = f.sections.front();
  given.name = "given";
  given.shape = Shape::properties;
  given.given = Section{1e-4, 1e-8, 1e-8, 1e-8, 1e-6, 1e-6, 1e-6, 0, 0, rigid, rigid, {}};
  f.sections.push_back(given);
  give_section(f, "cross", "given");
  CHECK_THAT(lift(f, 0).z(), WithinRel(touching, 1e-12));
  give_section(f, "", "given");
  for (const int p : {0, 1}) CHECK(lift(f, p).norm() == 0);
  CHECK(pieces_of(f) == std::vector<int>{0, 0});
}

TEST_CASE("one sheet over all bays is a piece; out of plane or of another name it is not") {
  for (const auto& [columns, rows] : {std::pair{1, 1}, {3, 2}, {4, 4}}) {
    const std::vector<int> pieces = pieces_of(floor_grid(columns, rows));
    CHECK(std::set(pieces.begin(), pieces.end()).size() == 1);
  }
  Frame f = floor_grid(2, 1);
  for (const double rise : {0.0004, 0.05}) {
    Frame bent = f;
    for (Node& n : bent.nodes) {
      if (n.at.x() > 0.9) n.at.z() += rise;
    }
    CHECK((pieces_of(bent) == std::vector<int>{0, 0}) == (rise < flat_within));
  }
  Sheet other = f.sheets.front();
  other.name = "other";
  f.sheets.push_back(other);
  f.panels.back().sheet = "other";
  CHECK(pieces_of(f) == std::vector<int>{0, 1});
}

TEST_CASE("panels that touch at a corner only, or lie double, are pieces of their own") {
  Frame corner = floor_grid(2, 2);
  std::erase_if(corner.panels, [](const PanelEntry& p) { return p.name == "p0_1"; });
  CHECK(pieces_of(corner) == std::vector<int>{0, 0, 0});  // an L
  std::erase_if(corner.panels, [](const PanelEntry& p) { return p.name == "p1_0"; });
  CHECK(pieces_of(corner) == std::vector<int>{0, 1});
  Frame twice = floor_grid(2, 1);
  twice.panels.push_back(twice.panels.front());
  twice.panels.back().name = "again";
  const std::vector<int> pieces = pieces_of(twice);
  CHECK(std::set(pieces.begin(), pieces.end()).size() == 3);
}

TEST_CASE("a sheet above and one below the same tubes are two pieces") {
  Frame f = plain_grid(2, 1);
  for (const std::size_t p : {0, 1}) {
    PanelEntry below = f.panels[p];
    below.name += "_below";
    f.panels.push_back(below);
    turn_round(f, f.panels.size() - 1);
  }
  CHECK(pieces_of(f) == std::vector<int>{0, 0, 1, 1});
  for (int p = 0; p < 4; ++p)
    CHECK_THAT(lift(f, p).z(), WithinRel(p < 2 ? touching : -touching, 1e-12));
}

TEST_CASE("sides go round the other way seen from behind") {
  const Frame f = floor_grid(1, 1);
  const NumberedFrame n = build_model(f);
  const PanelFace face = panel_faces(f, n).front();
  const std::vector<PanelSide> front = sides_seen_from(face, face.normal),
                               back = sides_seen_from(face, -face.normal);
  REQUIRE(front.size() == 4);
  for (std::size_t i = 0; i < 4; ++i) {
    CHECK(front[i].to == front[(i + 1) % 4].from);
    CHECK(back[i].member == front[3 - i].member);
    CHECK(back[i].from == front[3 - i].to);
  }
}

}  // namespace tubewright::sheet_pieces_test
