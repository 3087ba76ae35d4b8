// The drawing read back as what it is: pairs of a group code and a value, a line each (DXF
// Reference, from memory).
#include "io/workshop/sheet_dxf.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>
#include <sstream>
#include <utility>
#include <vector>

#include "tests/cases/sheets/floor_grid.h"
#include "tests/catch.h"

namespace tubewright::sheet_dxf_test {

using namespace tubewright::testing;
using Eigen::Vector2d;

namespace {

using Tags = std::vector<std::pair<int, std::string>>;

Tags tags_of(const std::string& text) {
  Tags tags;
  std::istringstream in(text);
  for (std::string code, value; std::getline(in, code) && std::getline(in, value);) {
    REQUIRE(code.ends_with('\r'));
    REQUIRE(value.ends_with('\r'));
    value.pop_back();
    tags.emplace_back(std::stoi(code), value);
  }
  return tags;
}

/// What begins with a code 0: its kind and the rest by code.
struct Entity {
  std::string kind;
  std::map<int, std::string> values;
  double number(int code) const { return std::stod(values.at(code)); }
  Vector2d at(int code) const { return {number(code), number(code + 10)}; }
};

std::vector<Entity> entities_of(const std::string& text) {
  std::vector<Entity> list;
  for (const auto& [code, value] : tags_of(text)) {
    if (code == 0) {
      list.push_back({value, {}});
    } else if (!list.empty()) {
      list.back().values[code] = value;
    }
  }
  return list;
}

SheetBlank blank_of(const Frame& frame) {
  const SheetBlanks sheets = sheet_blanks(frame);
  REQUIRE(sheets.blanks.size() == 1);
  return sheets.blanks.front();
}

/// The corners of every POLYLINE, mm.
std::vector<std::vector<Vector2d>> polylines(const std::vector<Entity>& entities) {
  std::vector<std::vector<Vector2d>> lines;
  for (const Entity& e : entities) {
    if (e.kind == "POLYLINE") lines.emplace_back();
    if (e.kind == "VERTEX") lines.back().push_back(e.at(10));
  }
  return lines;
}

Frame ring() {
  Frame frame = floor_grid(3, 3);
  std::erase_if(frame.panels, [](const PanelEntry& p) { return p.name == "p1_1"; });
  return frame;
}

}  // namespace

TEST_CASE("outline and opening are closed lines of the blank's area, in millimetres") {
  const Frame frame = ring();
  const SheetBlank blank = blank_of(frame);
  const std::vector<Entity> entities = entities_of(sheet_dxf(frame, blank));
  double area = 0;
  const auto lines = polylines(entities);
  CHECK(lines.size() == 2);
  for (const auto& line : lines) {
    for (std::size_t i = 0; i < line.size(); ++i) {
      const Vector2d &a = line[i], &b = line[(i + 1) % line.size()];
      area += (a.x() * b.y() - a.y() * b.x()) / 2;
    }
  }
  CHECK_THAT(area, WithinRel(blank.area * 1e6, 1e-6));
  for (const Entity& e : entities) {
    if (e.kind == "POLYLINE") CHECK((e.values.at(70) == "1" && e.values.at(8) == "OUTLINE"));
  }
}

TEST_CASE("every hole is a circle, every tube a line, where the blank has them") {
  const Frame frame = ring();
  const SheetBlank blank = blank_of(frame);
  std::size_t circles = 0, lines = 0;
  for (const Entity& e : entities_of(sheet_dxf(frame, blank))) {
    if (e.kind == "CIRCLE") {
      CHECK((e.at(10) - 1e3 * blank.holes.at(circles)).norm() < 1e-3);
      CHECK_THAT(2 * e.number(40), WithinAbs(4.1, 1e-4));  // 4 mm and 0.1 mm of clearance
      ++circles;
    }
    if (e.kind == "LINE") {
      CHECK((e.at(10) - 1e3 * blank.tubes.at(lines).from).norm() < 1e-3);
      CHECK((e.at(11) - 1e3 * blank.tubes.at(lines).to).norm() < 1e-3);
      ++lines;
    }
  }
  CHECK(circles == blank.holes.size());
  CHECK(lines == blank.tubes.size());
}

TEST_CASE("sections and tables close, layers and line types are known, the end is marked") {
  const Frame frame = floor_grid(1, 1);
  const std::string text = sheet_dxf(frame, blank_of(frame));
  const Tags tags = tags_of(text);
  int sections = 0, tables = 0;
  std::set<std::string> layers, line_types, used;
  std::string kind;
  for (const auto& [code, value] : tags) {
    if (code == 0) {
      kind = value;
      sections += (value == "SECTION") - (value == "ENDSEC");
      tables += (value == "TABLE") - (value == "ENDTAB");
      CHECK((sections >= 0 && sections <= 1 && tables >= 0 && tables <= 1));
    }
    if (code == 2 && kind == "LAYER") layers.insert(value);
    if (code == 2 && kind == "LTYPE") line_types.insert(value);
    if (code == 6) CHECK(line_types.count(value) == 1);
    if (code == 8) used.insert(value);
  }
  CHECK(sections == 0);
  CHECK(tables == 0);
  CHECK(std::includes(layers.begin(), layers.end(), used.begin(), used.end()));
  CHECK(tags.back() == std::pair<int, std::string>{0, "EOF"});
}

TEST_CASE("letters beyond ASCII stand as escapes of their code points") {
  Frame frame = floor_grid(1, 1);
  frame.title = "Fl\xC3\xBCgel \xE2\x82\xAC \xF0\x9F\x9A\xB2";  // U+00FC, U+20AC, one beyond U+FFFF
  const std::string text = sheet_dxf(frame, blank_of(frame));
  CHECK_THAT(text, ContainsSubstring("Fl\\U+00FCgel \\U+20AC ?"));
  CHECK(std::all_of(text.begin(), text.end(),
                    [](char c) { return static_cast<signed char>(c) > 0; }));
}

}  // namespace tubewright::sheet_dxf_test
