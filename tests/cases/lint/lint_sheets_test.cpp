// Doubts about sheets. Limits of rivet spacing: EN 1993-1-3 Table 8.1 (MEMORY): p >= 3 d,
// e >= 1.5 d; 50 mm or 30 t at most and 2 d to the edge are judgement.
#include <algorithm>
#include <cmath>
#include <optional>

#include "cases/lint/lint.h"
#include "tests/cases/clad_frames.h"
#include "tests/catch.h"

namespace tubewright::lint_sheets_test {

using namespace tubewright::testing;

namespace {

/// A clad ladder of 20 mm tube with rivets of 4 mm every 40 mm, and what is doubted of its sheets.
Frame ladder_with(double diameter, double pitch, std::optional<double> stiffness = {}) {
  Frame f = clad_ladder();
  f.sections.front().height = f.sections.front().width = 0.020;
  f.sheets.front().rivet = rivets(diameter, pitch, stiffness);
  f.sheets.front().offset = 0.0106;  // half a tube and half of 1.2 mm
  return f;
}

std::string sheet_doubts(const Frame& f) {
  std::string text;
  for (const Diagnostic& p : lint(f)) {
    const bool of_sheet = p.message.find("sheet") != std::string::npos ||
                          p.message.find("panel") != std::string::npos;
    if (of_sheet) text += p.message + " | " + p.advice + '\n';
  }
  return text;
}

}  // namespace

TEST_CASE("a row of rivets as it should be raises no doubt") {
  CHECK(sheet_doubts(ladder_with(0.004, 0.040)).empty());
}

TEST_CASE("rivets closer than three diameters or farther than a shear panel wants are named") {
  CHECK_THAT(sheet_doubts(ladder_with(0.004, 0.0119)), ContainsSubstring("stand 3.0 diameters"));
  CHECK(sheet_doubts(ladder_with(0.004, 0.0121)).empty());
  CHECK(sheet_doubts(ladder_with(0.004, 0.0499)).empty());
  CHECK_FALSE(sheet_doubts(ladder_with(0.004, 0.0501)).empty());
}

TEST_CASE("the edge distance is half the face of the tube that the sheet lies on") {
  CHECK(sheet_doubts(ladder_with(0.0049, 0.040)).empty());  // 10 mm against 2 d = 9.8
  CHECK_THAT(sheet_doubts(ladder_with(0.0052, 0.040)), ContainsSubstring("wider tube"));
  CHECK_THAT(sheet_doubts(ladder_with(0.0068, 0.040)), ContainsSubstring("at least 1.5 diameters"));

  // A tube of 40 x 12 lying flat offers 40 mm, on edge 12 mm.
  Frame flat = ladder_with(0.0048, 0.040);
  flat.sections.front().shape = Shape::rectangular_tube;
  flat.sections.front().height = 0.012;
  flat.sections.front().width = 0.040;
  flat.sheets.front().offset = 0.0066;
  CHECK(sheet_doubts(flat).empty());
  std::swap(flat.sections.front().height, flat.sections.front().width);
  flat.sheets.front().offset = 0.0206;
  CHECK_THAT(sheet_doubts(flat), ContainsSubstring("diameters from the edge on tube"));
}

TEST_CASE("a rivet stiffer than a solid steel one is a wrong unit") {
  CHECK(sheet_doubts(ladder_with(0.004, 0.040, 5e6)).empty());
  CHECK_THAT(sheet_doubts(ladder_with(0.004, 0.040, 5e9)), ContainsSubstring("in kN/mm"));
}

TEST_CASE(
    "panels of one sheet on opposite sides of a tube are told once; above and below are meant") {
  Frame f = ladder_with(0.004, 0.040);
  f.sheets.front().offset.reset();
  CHECK(sheet_doubts(f).empty());
  std::swap(f.panels[1].corners[1], f.panels[1].corners[3]);
  for (const std::optional<double> offset : {std::optional<double>(), {0.0106}, {-0.0106}}) {
    f.sheets.front().offset = offset;
    const std::string told = sheet_doubts(f);
    CHECK_THAT(told, ContainsSubstring("panels `floor_1` and `floor_2` of sheet `floor` lie on "
                                       "opposite sides of tube `l2`"));
    CHECK(std::count(told.begin(), told.end(), '\n') == 1);
  }
  f.sheets.front().offset = 0;
  CHECK(sheet_doubts(f).find("opposite") == std::string::npos);
  f.sheets.front().offset.reset();
  f.sheets.front().side = SheetSide::top;
  CHECK(sheet_doubts(f).empty());

  Frame both = ladder_with(0.004, 0.040);
  for (const std::size_t p : {0, 1}) {
    PanelEntry below = both.panels[p];
    below.name += "_below";
    std::swap(below.corners[1], below.corners[3]);
    both.panels.push_back(below);
  }
  CHECK(sheet_doubts(both).empty());
}

TEST_CASE("a panel on a link and a skewed panel are named") {
  Frame f = ladder_with(0.004, 0.040);
  f.members.back().kind = MemberKind::link;
  CHECK_THAT(sheet_doubts(f), ContainsSubstring("is fixed to the link"));

  Frame skewed = ladder_with(0.004, 0.040);
  for (Node& node : skewed.nodes) {
    if (node.at.y() > 0) node.at.x() += 0.5;  // 45 degrees
  }
  CHECK_THAT(sheet_doubts(skewed), ContainsSubstring("is far from rectangular"));
}

}  // namespace tubewright::lint_sheets_test
