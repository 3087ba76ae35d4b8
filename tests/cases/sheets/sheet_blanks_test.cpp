#include "cases/sheets/sheet_blanks.h"

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>
#include <numbers>

#include "cases/sheets/rivet_rows.h"
#include "tests/cases/clad_frames.h"
#include "tests/cases/sheets/floor_grid.h"
#include "tests/catch.h"

namespace tubewright::sheet_blanks_test {

using namespace tubewright::testing;
using Eigen::Vector2d;
using Eigen::Vector3d;

namespace {

SheetBlank only_blank(const Frame& f) {
  const SheetBlanks sheets = sheet_blanks(f);
  INFO(text_of(sheets.remarks));
  REQUIRE(sheets.blanks.size() == 1);
  return sheets.blanks.front();
}

/// Ray casting, W. R. Franklin's form (from memory).
bool inside(const Polygon& polygon, const Vector2d& p) {
  bool in = false;
  for (size_t i = 0, j = polygon.size() - 1; i < polygon.size(); j = i++) {
    const Vector2d &a = polygon[i], &b = polygon[j];
    if ((a.y() > p.y()) != (b.y() > p.y()) &&
        p.x() < (b.x() - a.x()) * (p.y() - a.y()) / (b.y() - a.y()) + a.x()) {
      in = !in;
    }
  }
  return in;
}

/// What must hold of any piece: holes inside with edge distance, apart, on their tubes.
void check_laws(const SheetBlank& b) {
  const double d0 = b.hole_diameter;
  CHECK(signed_area(b.outline) > 0);
  Vector2d most = Vector2d::Zero(), least = Vector2d::Constant(1e9);
  for (const Vector2d& p : b.outline) {
    most = most.cwiseMax(p);
    least = least.cwiseMin(p);
  }
  CHECK(least.norm() < 1e-12);
  CHECK((most - Vector2d(b.width, b.height)).norm() < 1e-12);
  for (size_t i = 0; i < b.holes.size(); ++i) {
    CHECK(inside(b.outline, b.holes[i]));
    CHECK(distance_to(b.outline, b.holes[i]) >= least_edge * d0 * (1 - 1e-9));
    for (const Polygon& opening : b.openings) {
      CHECK_FALSE(inside(opening, b.holes[i]));
      CHECK(distance_to(opening, b.holes[i]) >= least_edge * d0 * (1 - 1e-9));
    }
    for (size_t j = i + 1; j < b.holes.size(); ++j) {
      CHECK((b.holes[i] - b.holes[j]).norm() >= least_spacing * d0 * (1 - 1e-9));
    }
    const bool on_a_tube = std::any_of(b.tubes.begin(), b.tubes.end(), [&](const BlankTube& t) {
      return distance_to({t.from, t.to}, b.holes[i]) < 1e-9;
    });
    CHECK(on_a_tube);
  }
}

Frame moved(Frame f, double turn, const Vector3d& about, const Vector3d& by) {
  const Eigen::AngleAxisd r(turn, about.normalized());
  for (Node& n : f.nodes) n.at = r * n.at + by;
  return f;
}

}  // namespace

TEST_CASE("one panel ends flush with its tubes, and is as heavy as its metal") {
  const SheetBlank b = only_blank(floor_grid(1, 1));
  CHECK(b.name == "floor");
  CHECK_THAT(b.width, WithinAbs(0.525, 1e-12));
  CHECK_THAT(b.height, WithinAbs(0.425, 1e-12));
  // Panel, a strip of half a tube all round, four corners of half a tube square.
  CHECK_THAT(b.area, WithinAbs(0.5 * 0.4 + 2 * (0.5 + 0.4) * 0.0125 + 4 * 0.0125 * 0.0125, 1e-12));
  // EN AW-5754: 2660 to 2700 kg/m3 in handbooks (from memory).
  CHECK(b.mass >= b.area * 0.0012 * 2650);
  CHECK(b.mass <= b.area * 0.0012 * 2710);
  check_laws(b);
}

TEST_CASE("panels in one plane are one piece, and no tube between them shows in its outline") {
  for (const auto& [columns, rows] : {std::pair{3, 1}, {2, 2}, {4, 3}}) {
    const Frame f = floor_grid(columns, rows);
    const SheetBlank b = only_blank(f);
    CHECK(b.panels.size() == f.panels.size());
    CHECK(b.outline.size() == 4);
    CHECK_THAT(b.area, WithinAbs((0.5 * columns + 0.025) * (0.4 * rows + 0.025), 1e-12));
    const auto across =
        std::count_if(b.tubes.begin(), b.tubes.end(), [](const BlankTube& t) { return !t.rim; });
    CHECK(across == columns * (rows - 1) + rows * (columns - 1));
    CHECK(b.tubes.size() == f.members.size());
    check_laws(b);
  }
}

TEST_CASE("along every tube rivets are no farther apart than the pitch, joints left out") {
  const Frame f = floor_grid(3, 2);
  const SheetBlank b = only_blank(f);
  // Clear of a joint: half a tube, the weld's leg of sqrt(2) times the wall, half a head.
  const double clear = 0.0125 + std::numbers::sqrt2 * 0.002 + 0.004;
  for (const BlankTube& t : b.tubes) {
    std::vector<double> along;
    const Vector2d x = (t.to - t.from).normalized();
    const double length = (t.to - t.from).norm();
    for (const Vector2d& h : b.holes) {
      if (distance_to({t.from, t.to}, h) < 1e-9) along.push_back(x.dot(h - t.from));
    }
    std::sort(along.begin(), along.end());
    REQUIRE(along.size() > 8);
    CHECK(along.front() < 0.040 + clear);
    CHECK(length - along.back() < 0.040 + clear);
    for (size_t i = 1; i < along.size(); ++i) {
      CHECK(along[i] - along[i - 1] <= 0.040 + 1e-9);
    }
    // A cross tube ends at the rails: no rivet in its joints.
    if (t.member.starts_with("cross")) {
      CHECK(along.front() >= clear - 1e-9);
      CHECK(along.back() <= length - clear + 1e-9);
    }
  }
}

TEST_CASE("the piece is the same wherever the frame stands and whichever way it faces") {
  for (const int columns : {1, 3}) {
    const Frame f = floor_grid(columns, 1);
    const SheetBlank here = only_blank(f);
    for (const double turn : {0.3, 1.7, 4.0}) {
      // About an upright axis, and about a slanting one: tubes are square, so it is all the same.
      const Vector3d about = turn < 1 ? Vector3d::UnitZ() : Vector3d(1, 2, 3);
      const SheetBlank there = only_blank(moved(f, turn, about, Vector3d(7, -3, 0.4)));
      REQUIRE(there.outline.size() == here.outline.size());
      REQUIRE(there.holes.size() == here.holes.size());
      for (size_t i = 0; i < here.outline.size(); ++i) {
        CHECK((there.outline[i] - here.outline[i]).norm() < 1e-9);
      }
      for (size_t i = 0; i < here.holes.size(); ++i) {
        CHECK((there.holes[i] - here.holes[i]).norm() < 1e-9);
      }
      CHECK_THAT(there.mass, WithinAbs(here.mass, 1e-12));
      CHECK(there.forward.norm() <= 1 + 1e-12);
      if (turn < 1) CHECK_THAT(there.forward.norm(), WithinAbs(1, 1e-12));
    }
  }
}

TEST_CASE("a sheet round the other side is the mirror image of the one above") {
  Frame f = floor_grid(2, 1);
  f.members.erase(f.members.begin());  // not symmetrical any more: the last bay only
  f.panels.erase(f.panels.begin());
  f.nodes.back().at.x() += 0.1;
  const SheetBlank above = only_blank(f);
  f.sheets.front().offset = -*f.sheets.front().offset;
  const SheetBlank below = only_blank(f);
  CHECK_THAT(below.area, WithinAbs(above.area, 1e-12));
  CHECK(below.holes.size() == above.holes.size());
  std::vector<double> a, b;
  for (const Vector2d& p : above.outline) a.push_back(std::round(1e6 * (above.width - p.x())));
  for (const Vector2d& p : below.outline) b.push_back(std::round(1e6 * p.x()));
  std::sort(a.begin(), a.end());
  std::sort(b.begin(), b.end());
  CHECK(a == b);
}

TEST_CASE("an L of three panels has a concave corner, a ring of eight an opening") {
  Frame f = floor_grid(2, 2);
  f.panels.pop_back();
  const SheetBlank l = only_blank(f);
  CHECK(l.outline.size() == 6);
  CHECK(l.openings.empty());
  CHECK_THAT(l.area, WithinAbs(1.025 * 0.825 - 0.5 * 0.4, 1e-12));
  check_laws(l);

  Frame ring = floor_grid(3, 3);
  ring.panels.erase(ring.panels.begin() + 4);
  const SheetBlank r = only_blank(ring);
  REQUIRE(r.openings.size() == 1);
  CHECK_THAT(r.area, WithinAbs(1.525 * 1.225 - 0.475 * 0.375, 1e-12));
  check_laws(r);
}

TEST_CASE("a long panel beside two short ones is one piece with them") {
  Frame f = floor_grid(2, 2);
  // The upper row as one panel over both bays: its lower edge is two pieces of rail 1.
  f.panels.pop_back();
  f.panels.back().corners = {"n0_1", "n2_1", "n2_2", "n0_2"};
  const SheetBlank b = only_blank(f);
  CHECK(b.panels.size() == 3);
  CHECK(b.outline.size() == 4);
  CHECK_THAT(b.area, WithinAbs(1.025 * 0.825, 1e-12));
  check_laws(b);
}

TEST_CASE("sharp corners, odd angles and tubes of several widths keep the laws too") {
  Frame f = empty_frame();
  SectionEntry wide = f.sections.front();
  wide.name = "wide";
  wide.width = 0.040;
  f.sections.push_back(wide);
  add_node(f, "A", 0, 0, 0);
  add_node(f, "B", 0.9, 0.1, 0);
  add_node(f, "C", 0.55, 0.35, 0);
  add_node(f, "D", 0.12, 0.3, 0);
  add_member(f, "AB", "A", "B").section = "wide";
  add_member(f, "BC", "B", "C");
  add_member(f, "CD", "C", "D");
  add_member(f, "DA", "D", "A").section = "wide";
  Sheet& sheet = add_sheet(f, "side");
  sheet.offset = 0.013;
  sheet.rivet = rivets(0.0048, 0.030);
  add_panel(f, "web", "side", {"A", "B", "C", "D"});
  const SheetBlank b = only_blank(f);
  CHECK(b.outline.size() == 5);  // B is sharper than 60 degrees
  CHECK(b.holes.size() > 40);
  check_laws(b);
  // The strip lies outside the panel: area between it and the panel within widths and corners.
  const double panel = 0.5 * std::abs(0.55 * 0.2 - 0.35 * -0.78);  // half the diagonals' product
  CHECK(b.area > panel + 0.0125 * 2.0);
  CHECK(b.area < panel + 0.020 * 2.2 + 4 * 0.04 * 0.04);
  // Against counting points on a fine grid.
  int hits = 0;
  constexpr int steps = 1000;
  for (int i = 0; i < steps; ++i) {
    for (int j = 0; j < steps; ++j) {
      hits += inside(b.outline, {b.width * (i + 0.5) / steps, b.height * (j + 0.5) / steps});
    }
  }
  CHECK_THAT(b.width * b.height * hits / (double(steps) * steps), WithinRel(b.area, 1e-3));
}

TEST_CASE("panels on two faces of a box are two pieces, named by their panels") {
  Frame f = floor_grid(1, 1);
  add_node(f, "top0", 0, 0, 0.3);
  add_node(f, "top1", 0.5, 0, 0.3);
  add_member(f, "post0", "n0_0", "top0");
  add_member(f, "post1", "n1_0", "top1");
  add_member(f, "top", "top0", "top1");
  f.sheets.front().offset = -0.0131;  // the floor below, the side outside
  add_panel(f, "side", "floor", {"n0_0", "top0", "top1", "n1_0"});
  const SheetBlanks sheets = sheet_blanks(f);
  REQUIRE(sheets.blanks.size() == 2);
  CHECK(sheets.blanks[0].name == "p0_0");
  CHECK(sheets.blanks[1].name == "side");
  for (const SheetBlank& b : sheets.blanks) check_laws(b);
  CHECK(text_of(sheets.remarks).find("lap") == std::string::npos);
}

TEST_CASE("a sheet that posts come through is told of them") {
  Frame f = floor_grid(1, 1);
  add_node(f, "top", 0, 0, 0.3);
  add_member(f, "post", "n0_0", "top");
  CHECK_THAT(text_of(sheet_blanks(f).remarks), ContainsSubstring("in the way of `post`"));
  f.sheets.front().offset = -0.0131;
  CHECK(sheet_blanks(f).remarks.empty());
  f.sheets.front().offset = 0;
  CHECK(sheet_blanks(f).remarks.empty());  // lint() tells that its side is not known
}

TEST_CASE("two sheets in one plane are two pieces that lap on the tube between them") {
  Frame f = floor_grid(2, 1);
  Sheet thick = f.sheets.front();
  thick.name = "thick";
  thick.thickness = 0.002;
  f.sheets.push_back(thick);
  f.panels.back().sheet = "thick";
  const SheetBlanks sheets = sheet_blanks(f);
  CHECK(sheets.blanks.size() == 2);
  CHECK_THAT(text_of(sheets.remarks), ContainsSubstring("both reach over `cross1_0`"));
}

TEST_CASE("a warped panel is a piece by itself, with a word of warning") {
  Frame f = floor_grid(2, 1);
  f.nodes.back().at.z() = 0.004;  // the last corner of the second panel
  const SheetBlanks sheets = sheet_blanks(f);
  REQUIRE(sheets.blanks.size() == 2);
  CHECK_THAT(text_of(sheets.remarks), ContainsSubstring("`p1_0` is warped"));
  for (const SheetBlank& b : sheets.blanks) check_laws(b);
}

TEST_CASE("panels that meet at a corner only, or lie on one another, are pieces of their own") {
  Frame ring = floor_grid(3, 3);
  // Without the middle and one corner of the ring beside it two panels touch at a node.
  std::erase_if(ring.panels, [](const PanelEntry& p) {
    return p.name == "p1_1" || p.name == "p0_0" || p.name == "p2_2";
  });
  std::erase_if(ring.panels, [](const PanelEntry& p) { return p.name == "p0_1"; });
  for (const SheetBlank& b : sheet_blanks(ring).blanks) check_laws(b);
  Frame twice = floor_grid(1, 1);
  twice.panels.push_back(twice.panels.front());
  twice.panels.back().name = "again";
  CHECK(sheet_blanks(twice).blanks.size() == 2);
}

TEST_CASE("a tube known by its properties only leaves the sheet undrawn, and says why") {
  Frame f = floor_grid(1, 1);
  SectionEntry given;
  given.name = "given";
  given.shape = Shape::properties;
  given.material = "S235";
  given.given.A = 150e-6;
  given.given.Iy = given.given.Iz = given.given.It = 1e-8;
  f.sections.push_back(given);
  f.members.front().section = "given";
  const SheetBlanks sheets = sheet_blanks(f);
  CHECK(sheets.blanks.empty());
  CHECK_THAT(text_of(sheets.remarks), ContainsSubstring("known by its properties only"));
}

TEST_CASE("tubes too narrow for their rivets get none, and it is said") {
  Frame f = floor_grid(1, 1);
  f.sections.front().width = f.sections.front().height = 0.012;  // 6 mm < 1.2 x 6.5
  f.sheets.front().rivet->diameter = 0.0064;
  const SheetBlanks sheets = sheet_blanks(f);
  CHECK(sheets.blanks.front().holes.empty());
  CHECK_THAT(text_of(sheets.remarks), ContainsSubstring("left out"));
}

TEST_CASE("a bonded sheet has no holes") {
  Frame f = floor_grid(1, 1);
  f.sheets.front().rivet.reset();
  CHECK(only_blank(f).holes.empty());
  CHECK(only_blank(f).hole_diameter == 0);
}

}  // namespace tubewright::sheet_blanks_test
