// The drawing read back by its numbers: a unit is a millimetre, y down.
#include "io/workshop/sheet_svg.h"

#include <cmath>
#include <regex>

#include "tests/cases/sheets/floor_grid.h"
#include "tests/catch.h"

namespace tubewright::sheet_svg_test {

using namespace tubewright::testing;
using Eigen::Vector2d;

namespace {

SheetBlank blank_of(const Frame& frame) {
  const SheetBlanks sheets = sheet_blanks(frame);
  REQUIRE(sheets.blanks.size() == 1);
  return sheets.blanks.front();
}

/// All matches of a pattern's groups, as numbers.
std::vector<std::vector<double>> numbers_of(const std::string& text, const std::string& pattern) {
  std::vector<std::vector<double>> rows;
  const std::regex regex(pattern);
  for (std::sregex_iterator it(text.begin(), text.end(), regex), end; it != end; ++it) {
    rows.emplace_back();
    for (std::size_t k = 1; k < it->size(); ++k) rows.back().push_back(std::stod((*it)[k]));
  }
  return rows;
}

const std::string number = "(-?[0-9.]+)";

/// What stands in a group of that name.
std::string group(const std::string& svg, const std::string& name) {
  const std::size_t from = svg.find("<g id=\"" + name + "\"");
  REQUIRE(from != std::string::npos);
  return svg.substr(from, svg.find("</g>", from) - from);
}

}  // namespace

TEST_CASE("the outline has the blank's area and turns the other way, since y points down") {
  Frame frame = floor_grid(3, 3);
  std::erase_if(frame.panels, [](const PanelEntry& p) { return p.name == "p1_1"; });
  const SheetBlank blank = blank_of(frame);
  const std::string outline = group(sheet_svg(frame, blank), "outline");
  double area = 0;
  std::size_t loops = 0;
  for (std::size_t from = outline.find('M'); from != std::string::npos;
       from = outline.find('M', from + 1), ++loops) {
    const std::string loop = outline.substr(from, outline.find('Z', from) - from);
    const auto p = numbers_of(loop, "[ML]" + number + " " + number);
    for (std::size_t i = 0; i < p.size(); ++i) {
      const auto &a = p[i], &b = p[(i + 1) % p.size()];
      area += (a[0] * b[1] - a[1] * b[0]) / 2;
    }
  }
  CHECK(loops == 2);
  CHECK_THAT(-area, WithinRel(blank.area * 1e6, 1e-5));
}

TEST_CASE("circles lie to each other as the holes do, in millimetres") {
  const Frame frame = floor_grid(2, 1);
  const SheetBlank blank = blank_of(frame);
  const auto circles =
      numbers_of(group(sheet_svg(frame, blank), "rivets"),
                 "cx=\"" + number + "\" cy=\"" + number + "\" r=\"" + number + "\"");
  REQUIRE(circles.size() == blank.holes.size());
  for (std::size_t i = 0; i < circles.size(); ++i) {
    const Vector2d off = 1e3 * (blank.holes[i] - blank.holes[0]);
    CHECK_THAT(circles[i][0] - circles[0][0], WithinAbs(off.x(), 0.002));
    CHECK_THAT(circles[0][1] - circles[i][1], WithinAbs(off.y(), 0.002));
    CHECK_THAT(2 * circles[i][2], WithinAbs(4.1, 0.002));
  }
}

TEST_CASE("paper and drawing are of one size, and the drawing lies on the paper") {
  const Frame frame = floor_grid(1, 1);
  const std::string svg = sheet_svg(frame, blank_of(frame));
  const auto size = numbers_of(svg, "width=\"" + number + "mm\" height=\"" + number +
                                        "mm\" viewBox=\"0 0 " + number + " " + number + "\"");
  REQUIRE(size.size() == 1);
  CHECK(size[0][0] == size[0][2]);
  CHECK(size[0][1] == size[0][3]);
  for (const auto& p : numbers_of(group(svg, "outline"), "[ML]" + number + " " + number)) {
    CHECK((p[0] > 0 && p[0] < size[0][0] && p[1] > 0 && p[1] < size[0][1]));
  }
}

TEST_CASE("words of the frame cannot break the markup") {
  Frame frame = floor_grid(1, 1);
  frame.title = "<b> & \"c\"";
  const std::string svg = sheet_svg(frame, blank_of(frame));
  CHECK_THAT(svg, ContainsSubstring("&lt;b&gt; &amp;") && !ContainsSubstring("<b>"));
}

}  // namespace tubewright::sheet_svg_test
