// A box of two bays and three rings, whose answers an independent solver gave.
#pragma once

#include <map>
#include <string>
#include <utility>

#include "tests/cases/small_frames.h"

namespace tubewright::testing {

/// Stations 0, 1, 2 at x = 0, 600, 1200 mm; at each lb (200, 0), rb (-200, 0), rt (-200, 300),
/// lt (200, 300); 25 x 25 x 2, rigid joints; pinned at station 0. Members are named by their nodes.
/// Cases: `tors`, 1000 N up at lb2 and down at rb2; `bend`, 250 N down at each node of station 2.
inline Frame ring_box() {
  Frame f = empty_frame();
  const std::pair<const char*, std::pair<double, double>> corners[] = {
      {"lb", {0.2, 0}}, {"rb", {-0.2, 0}}, {"rt", {-0.2, 0.3}}, {"lt", {0.2, 0.3}}};
  for (int station = 0; station < 3; ++station) {
    for (const auto& [name, yz] : corners) {
      add_node(f, name + std::to_string(station), 0.6 * station, yz.first, yz.second);
    }
  }
  const auto join = [&](const std::string& a, const std::string& b) {
    add_member(f, a + "-" + b, a, b);
  };
  for (int bay = 0; bay < 2; ++bay) {
    for (const char* corner : {"lb", "rb", "rt", "lt"}) {
      join(corner + std::to_string(bay), corner + std::to_string(bay + 1));
    }
  }
  for (int station = 0; station < 3; ++station) {
    const std::string s = std::to_string(station);
    for (const auto& [a, b] : {std::pair{"lb", "rb"}, {"rb", "rt"}, {"rt", "lt"}, {"lt", "lb"}}) {
      join(a + s, b + s);
    }
  }
  for (const char* node : {"lb0", "rb0", "rt0", "lt0"}) {
    f.supports.push_back({node, {true, true, true}, {}, {}});
  }
  Case& tors = add_case(f, "tors");
  tors.forces = {{"lb2", {0, 0, 1000}, {}}, {"rb2", {0, 0, -1000}, {}}};
  Case& bend = add_case(f, "bend");
  for (const char* node : {"lb2", "rb2", "rt2", "lt2"}) {
    bend.forces.push_back({node, {0, 0, -250}, {}});
  }
  return f;
}

/// The same with a torsion test between its ends.
inline Frame ring_box_in_torsion() {
  Frame f = ring_box();
  f.torsion = TorsionTest{{"lb2", "rb2"}, {"lb0", "rb0"}, 100, {}};
  return f;
}

inline int member_named(const Frame& f, const std::string& name) {
  for (size_t m = 0; m < f.members.size(); ++m) {
    if (f.members[m].name == name) return static_cast<int>(m);
  }
  FAIL("no member " + name);
  return -1;
}

}  // namespace tubewright::testing
