#include "io/workshop/sheet_output.h"

#include <algorithm>
#include <cmath>
#include <sstream>

#include "tests/cases/sheets/floor_grid.h"
#include "tests/catch.h"

namespace tubewright::sheet_output_test {

using namespace tubewright::testing;

namespace {

/// Shoelace formula.
double area_of(const nlohmann::ordered_json& polygon) {
  double twice = 0;
  for (std::size_t i = 0; i < polygon.size(); ++i) {
    const auto &a = polygon[i], &b = polygon[(i + 1) % polygon.size()];
    twice += a[0].get<double>() * b[1].get<double>() - a[1].get<double>() * b[0].get<double>();
  }
  return twice / 2;
}

}  // namespace

TEST_CASE("JSON: outline and openings have the area, the area and the metal the mass") {
  Frame frame = floor_grid(3, 3);
  std::erase_if(frame.panels, [](const PanelEntry& p) { return p.name == "p1_1"; });
  const auto json = sheets_json(frame, sheet_blanks(frame));
  REQUIRE(json.size() == 1);
  double area = area_of(json[0]["outline"]);
  for (const auto& opening : json[0]["openings"]) area += area_of(opening);
  CHECK_THAT(json[0]["area"].get<double>(), WithinRel(area, 1e-5));
  CHECK(json[0]["openings"].size() == 1);
  const double density =
      json[0]["mass"].get<double>() / (area * json[0]["thickness"].get<double>()) * 1e9;
  // Wrought aluminium 2660 to 2810 kg/m3, steel 7850 (EN 1999-1-1, EN 1993-1-1; from memory).
  CHECK(((density > 2650 && density < 2820) || std::abs(density - 7850) < 60));
  CHECK(json[0]["rivets"] == json[0]["holes"].size());
  CHECK(json[0]["panels"].size() == 8);
}

TEST_CASE("JSON: every tube runs between two named nodes, in millimetres") {
  const Frame frame = floor_grid(2, 1);
  const auto json = sheets_json(frame, sheet_blanks(frame))[0];
  for (const auto& tube : json["tubes"]) {
    CHECK(tube["width"] == 25.0);
    for (const char* end : {"from", "to"}) {
      const bool at_node = std::any_of(json["nodes"].begin(), json["nodes"].end(),
                                       [&](const auto& node) { return node["at"] == tube[end]; });
      CHECK(at_node);
    }
  }
  CHECK(json["tubes"].size() == 7);
  CHECK(json["nodes"].size() == 6);
}

TEST_CASE("text: a row a piece, within 100 columns; nothing without sheets") {
  const Frame frame = floor_grid(2, 1);
  const SheetBlanks sheets = sheet_blanks(frame);
  std::istringstream lines(sheets_text(frame, sheets, Paint{}));
  int rows = 0;
  for (std::string line; std::getline(lines, line);) {
    CHECK(line.size() <= 100);
    rows += line.find("  floor") == 0;
  }
  CHECK(rows == 1);
  CHECK(sheets_text(frame, {}, Paint{}).empty());
}

TEST_CASE("title and name: what stands on a drawing, and what its file is called") {
  const Frame frame = floor_grid(1, 1);
  SheetBlank blank = sheet_blanks(frame).blanks.at(0);
  const std::vector<std::string> title = drawing_title(frame, blank);
  REQUIRE(title.size() == 3);
  CHECK_THAT(title[1], ContainsSubstring(std::to_string(blank.holes.size()) + " holes of 4.1 mm"));
  // 500 and 400 mm between nodes, and half a tube of 25 mm on each side.
  CHECK_THAT(title[1], ContainsSubstring("525.0 x 425.0 mm"));
  CHECK_THAT(title[2], ContainsSubstring("Seen from outside"));
  CHECK(drawing_name(blank) == "sheet_floor");
  blank.sided = false;
  CHECK_THAT(drawing_title(frame, blank)[2], ContainsSubstring("not given"));
}

}  // namespace tubewright::sheet_output_test
