#include "io/workshop/sheet_output.h"

#include <cmath>

#include "cases/frame/find_parts.h"
#include "io/results/json_parts.h"
#include "io/text/text_layout.h"
#include "io/text/utf8.h"
#include "io/text/workshop_units.h"

namespace tubewright {

namespace {

using nlohmann::ordered_json;

std::string holes_text(const SheetBlank& b) {
  if (b.hole_diameter == 0) return "no rivets";
  return std::to_string(b.holes.size()) + (b.holes.size() == 1 ? " hole" : " holes") + " of " +
         millimetres(b.hole_diameter) + " mm";
}

std::string panels_text(const SheetBlank& b) {
  std::string text = b.panels.size() == 1 ? "Panel " : "Panels ";
  for (std::size_t i = 0; i < b.panels.size(); ++i) text += (i > 0 ? ", " : "") + b.panels[i];
  return text;
}

/// Millimetres to a thousandth.
ordered_json place(double metres) { return number(std::round(metres * mm_per_m * 1e3) / 1e3); }

ordered_json polygon_json(const Polygon& polygon) {
  ordered_json list = ordered_json::array();
  for (const Eigen::Vector2d& p : polygon) list.push_back({place(p.x()), place(p.y())});
  return list;
}

ordered_json blank_json(const Frame& frame, const SheetBlank& b) {
  const Sheet& sheet = find_sheet(frame, b.sheet);
  ordered_json openings = ordered_json::array(), holes = ordered_json::array(),
               tubes = ordered_json::array(), nodes = ordered_json::array();
  for (const Polygon& opening : b.openings) openings.push_back(polygon_json(opening));
  for (const Eigen::Vector2d& h : b.holes) {
    holes.push_back({place(h.x()), place(h.y()), place(b.hole_diameter)});
  }
  for (const BlankTube& t : b.tubes) {
    tubes.push_back({{"member", t.member},
                     {"from", {place(t.from.x()), place(t.from.y())}},
                     {"to", {place(t.to.x()), place(t.to.y())}},
                     {"width", number(t.width * mm_per_m)},
                     {"rim", t.rim}});
  }
  for (const BlankNode& n : b.nodes) {
    nodes.push_back({{"name", n.name},
                     {"at", {place(n.at.x()), place(n.at.y())}},
                     {"inward", numbers(n.inward)}});
  }
  return {{"name", b.name},
          {"sheet", b.sheet},
          {"material", sheet.material},
          {"thickness", number(sheet.thickness * mm_per_m)},
          {"panels", b.panels},
          {"width", place(b.width)},
          {"height", place(b.height)},
          {"area", number(b.area * mm_per_m * mm_per_m)},
          {"mass", number(b.mass)},
          {"rivets", b.holes.size()},
          {"outline", polygon_json(b.outline)},
          {"openings", std::move(openings)},
          {"holes", std::move(holes)},
          {"tubes", std::move(tubes)},
          {"nodes", std::move(nodes)},
          {"forward", numbers(b.forward)},
          {"file", drawing_name(b)}};
}

}  // namespace

std::string sheets_text(const Frame& frame, const SheetBlanks& sheets, Paint paint) {
  if (sheets.blanks.empty()) return {};
  std::string text =
      paint.heading("Sheets") + ": each ends flush with the outer faces of its tubes\n" +
      paint.faint("  " + left("piece", 16) + right("width mm", 10) + right("height mm", 11) +
                  right("mass kg", 9) + right("rivets", 8) + "  material") +
      '\n';
  for (const SheetBlank& b : sheets.blanks) {
    const Sheet& sheet = find_sheet(frame, b.sheet);
    text += "  " + left(b.name, 16) + right(millimetres(b.width), 10) +
            right(millimetres(b.height), 11) + right(fixed(b.mass, 2), 9) +
            right(std::to_string(b.holes.size()), 8) + "  " + millimetres(sheet.thickness) +
            " mm " + sheet.material + '\n';
    text += wrapped(
        "    ",
        panels_text(b) +
            (b.hole_diameter > 0 ? "; holes of " + millimetres(b.hole_diameter) + " mm" : "") +
            "; " + fixed(b.area, 3) + " m2");
  }
  return text + '\n';
}

ordered_json sheets_json(const Frame& frame, const SheetBlanks& sheets) {
  ordered_json list = ordered_json::array();
  for (const SheetBlank& b : sheets.blanks) list.push_back(blank_json(frame, b));
  return list;
}

std::vector<std::string> drawing_title(const Frame& frame, const SheetBlank& b) {
  const Sheet& sheet = find_sheet(frame, b.sheet);
  const std::string panels = panels_text(b);
  return {one_line(frame.title) + ": sheet " + b.name,
          millimetres(sheet.thickness) + " mm " + one_line(sheet.material) + "; " +
              millimetres(b.width) + " x " + millimetres(b.height) + " mm, " + fixed(b.mass, 2) +
              " kg; " + holes_text(b),
          std::string(b.sided ? "Seen from outside, tubes behind. "
                              : "Its side of the tubes is not given. ") +
              "Full size, mm. " + one_line(panels, 80)};
}

std::string drawing_name(const SheetBlank& b) { return "sheet_" + b.name; }

}  // namespace tubewright
