// Frames with sheets in a few lines, for tests.
#pragma once

#include <optional>
#include <string>

#include "cases/frame/frame.h"
#include "tests/cases/small_frames.h"

namespace tubewright::testing {

/// 1.2 mm of EN AW-5754-H22 with a perfect edge.
inline Sheet& add_sheet(Frame& f, const std::string& name) {
  Sheet s;
  s.name = name;
  s.material = "EN AW-5754-H22";
  s.thickness = 0.0012;
  f.sheets.push_back(s);
  return f.sheets.back();
}

inline void add_panel(Frame& f, const std::string& name, const std::string& sheet,
                      std::vector<std::string> corners) {
  f.panels.push_back(
      {name, std::move(corners), sheet, {static_cast<int>(f.panels.size()) + 401, 3}});
}

inline RivetJoint rivets(double diameter, double pitch, std::optional<double> stiffness = {}) {
  RivetJoint r;
  r.diameter = diameter;
  r.pitch = pitch;
  r.stiffness = stiffness;
  return r;
}

/// A pin-jointed rectangle `a` by `b` of stiff links in the plane z = 0, its lower side held, that
/// shears under a force `load` along its upper side: the flow in its panel `sheet` is load / a
/// whatever the stiffness. Units SI.
inline Frame shear_frame(double a, double b, double load) {
  Frame f = empty_frame();
  f.sections.front().height = f.sections.front().width = 0.1;
  f.sections.front().wall = 0.02;
  add_node(f, "A", 0, 0, 0);
  add_node(f, "B", a, 0, 0);
  add_node(f, "C", a, b, 0);
  add_node(f, "D", 0, b, 0);
  for (const auto& [from, to] : {std::pair{"A", "B"}, {"B", "C"}, {"C", "D"}, {"D", "A"}}) {
    add_member(f, std::string(from) + to, from, to).kind = MemberKind::link;
  }
  for (const char* node : {"A", "B"}) f.supports.push_back({node, {true, true, true}, {}, {}});
  for (const char* node : {"C", "D"}) {
    f.supports.push_back({node, {false, false, true}, {}, {}});
  }
  add_sheet(f, "sheet");
  add_panel(f, "web", "sheet", {"A", "B", "C", "D"});
  Case& push = add_case(f, "push");
  push.forces.push_back({"C", {load / 2, 0, 0}, {}});
  push.forces.push_back({"D", {load / 2, 0, 0}, {}});
  return f;
}

/// A box 1.5 m long in three bays, 0.5 m wide, 0.25 m high, of 20 x 1.5 tube: sides, top and ends
/// have diagonals, the underside has none; its torsion test twists the lower corners. Nodes `l` and
/// `h` (low, high), 1 to 4 from the front, `_l` and `_r`.
inline Frame open_box() {
  Frame f = empty_frame();
  f.sections.front().height = f.sections.front().width = 0.020;
  f.sections.front().wall = 0.0015;
  const auto name = [](const char* level, int i, const char* side) {
    return std::string(level) + std::to_string(i) + side;
  };
  for (int i = 1; i <= 4; ++i) {
    for (const auto& [side, y] : {std::pair{"_l", 0.25}, {"_r", -0.25}}) {
      add_node(f, name("l", i, side), -0.5 * (i - 1), y, 0.25);
      add_node(f, name("h", i, side), -0.5 * (i - 1), y, 0.5);
    }
  }
  const auto join = [&](const std::string& from, const std::string& to) {
    add_member(f, from + "-" + to, from, to);
  };
  for (int i = 1; i <= 4; ++i) {
    join(name("l", i, "_l"), name("l", i, "_r"));
    join(name("h", i, "_l"), name("h", i, "_r"));
    for (const char* side : {"_l", "_r"}) {
      join(name("l", i, side), name("h", i, side));
      if (i == 4) continue;
      join(name("l", i, side), name("l", i + 1, side));
      join(name("h", i, side), name("h", i + 1, side));
      join(name("l", i, side), name("h", i + 1, side));
    }
    if (i < 4) join(name("h", i, "_l"), name("h", i + 1, "_r"));
  }
  join("l1_l", "h1_r");
  join("l4_l", "h4_r");
  f.torsion = TorsionTest{{"l1_l", "l1_r"}, {"l4_l", "l4_r"}, 100, {}};
  return f;
}

/// The same with its underside clad, a panel a bay: `floor_1` in front.
inline Frame clad_box() {
  Frame f = open_box();
  add_sheet(f, "floor").rivet = rivets(0.004, 0.040);
  for (int i = 1; i < 4; ++i) {
    const std::string here = "l" + std::to_string(i), next = "l" + std::to_string(i + 1);
    add_panel(f, "floor_" + std::to_string(i), "floor",
              {here + "_l", here + "_r", next + "_r", next + "_l"});
  }
  return f;
}

/// A ladder in the plane z = 0, 1.2 m by 0.5 m in two bays, both clad.
inline Frame clad_ladder() {
  Frame f = empty_frame();
  for (int i = 1; i <= 3; ++i) {
    add_node(f, "l" + std::to_string(i) + "_l", -0.6 * (i - 1), 0.25, 0);
    add_node(f, "l" + std::to_string(i) + "_r", -0.6 * (i - 1), -0.25, 0);
  }
  add_sheet(f, "floor").rivet = rivets(0.004, 0.040);
  for (int i = 1; i <= 3; ++i) {
    const std::string here = "l" + std::to_string(i), next = "l" + std::to_string(i + 1);
    add_member(f, here, here + "_l", here + "_r");
    if (i == 3) continue;
    add_member(f, "left" + std::to_string(i), here + "_l", next + "_l");
    add_member(f, "right" + std::to_string(i), here + "_r", next + "_r");
    add_panel(f, "floor_" + std::to_string(i), "floor",
              {here + "_l", here + "_r", next + "_r", next + "_l"});
  }
  f.torsion = TorsionTest{{"l1_l", "l1_r"}, {"l3_l", "l3_r"}, 20, {}};
  return f;
}

}  // namespace tubewright::testing
