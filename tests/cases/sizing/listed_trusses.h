// Trusses that the literature sizes from a list of areas, with the lightest that were proved for
// this project apart from the program (branch and bound over an independent truss solver).
//
// In the units of their sources: a metre stands for an inch, a newton for a pound of force, a
// kilogram for a pound; the third is in metres, newtons and kilograms.
#pragma once

#include <array>
#include <map>
#include <string>
#include <utility>
#include <vector>

#include "tests/cases/small_frames.h"

namespace tubewright::testing {

using Ends = std::pair<int, int>;

struct Truss {
  Frame frame = empty_frame();

  /// Node n is named "n".
  void node(int n, double x, double y, double z) { add_node(frame, std::to_string(n), x, y, z); }

  void group(const std::string& name, const std::vector<Ends>& bars) {
    SizeGroup g{name, {}, {}};
    for (const auto& [a, b] : bars) {
      const std::string bar = std::to_string(a) + "-" + std::to_string(b);
      add_member(frame, bar, std::to_string(a), std::to_string(b)).kind = MemberKind::link;
      g.members.push_back(bar);
    }
    frame.groups.push_back(g);
  }

  void material(double E, double density, double f_y) {
    MaterialEntry m;
    m.name = "metal";
    m.metal = Metal::other;  // no rules for buckling: as the sources have it
    m.properties.E = E;
    m.properties.G = E / 2.6;
    m.properties.density = density;
    m.properties.yield = f_y;
    m.properties.ultimate = 2 * f_y;
    frame.materials.push_back(m);
    frame.limits.yield_factor = 1;
  }

  /// In the order of the list; the first is what the file has.
  void areas(const std::vector<double>& list) {
    Stock stock;
    for (const double A : list) {
      StockSize size;
      size.shape = Shape::properties;
      size.given.A = A;
      stock.sizes.push_back(size);
    }
    frame.stock = stock;
    SectionEntry& s = frame.sections.front();
    s.shape = Shape::properties;
    s.material = "metal";
    s.given = {list.front(), 1, 1, 1, 1, 1, 1, 0, 0, rigid, rigid, {}};
  }

  void pin(int n) { frame.supports.push_back({std::to_string(n), {true, true, true}, {}, {}}); }
  void hold_z(int n) {
    frame.supports.push_back({std::to_string(n), {false, false, true}, {}, {}});
  }

  void limit(int n, const std::array<std::optional<double>, 3>& most) {
    DisplacementLimit limit;
    limit.load_case = "load";
    limit.node = std::to_string(n);
    limit.most = most;
    frame.limits.displacements.push_back(limit);
  }
};

/// 360 in bays; 100 000 lbf down at 2 and 4; 25 000 psi, 2 in at the free nodes; 42 areas, in2
/// (from memory; all stand in the table of S. Mirjalili, Knowl.-Based Syst. 89 (2015) 228-249).
inline Frame ten_listed_bars() {
  Truss t;
  t.material(1e7, 0.1, 25000);
  t.areas({1.62, 1.80, 1.99, 2.13, 2.38, 2.62, 2.63, 2.88, 2.93, 3.09, 3.13, 3.38, 3.47, 3.55,
           3.63, 3.84, 3.87, 3.88, 4.18, 4.22, 4.49, 4.59, 4.80, 4.97, 5.12, 5.74, 7.22, 7.97,
           11.5, 13.5, 13.9, 14.2, 15.5, 16.0, 16.9, 18.8, 19.9, 22.0, 22.9, 26.5, 30.0, 33.5});
  t.node(1, 720, 360, 0);
  t.node(2, 720, 0, 0);
  t.node(3, 360, 360, 0);
  t.node(4, 360, 0, 0);
  t.node(5, 0, 360, 0);
  t.node(6, 0, 0, 0);
  const std::vector<Ends> bars = {{5, 3}, {3, 1}, {6, 4}, {4, 2}, {3, 4},
                                  {1, 2}, {5, 4}, {6, 3}, {3, 2}, {4, 1}};
  for (size_t i = 0; i < bars.size(); ++i) t.group("A" + std::to_string(i + 1), {bars[i]});
  for (int n = 1; n <= 4; ++n) t.hold_z(n);
  t.pin(5);
  t.pin(6);
  Case& load = add_case(t.frame, "load");
  load.forces = {{"2", {0, -100000, 0}, {}}, {"4", {0, -100000, 0}, {}}};
  for (int n = 1; n <= 4; ++n) t.limit(n, {2, 2, std::nullopt});
  return t.frame;
}

/// A tower of 200 in in eight groups; 40 000 psi, 0.35 in at nodes 1 and 2; 30 areas, in2.
inline Frame twenty_five_listed_bars() {
  Truss t;
  t.material(1e7, 0.1, 40000);
  std::vector<double> list;
  for (int i = 1; i <= 26; ++i) list.push_back(i / 10.0);
  for (const double A : {2.8, 3.0, 3.2, 3.4}) list.push_back(A);
  t.areas(list);
  t.node(1, -37.5, 0, 200);
  t.node(2, 37.5, 0, 200);
  t.node(3, -37.5, 37.5, 100);
  t.node(4, 37.5, 37.5, 100);
  t.node(5, 37.5, -37.5, 100);
  t.node(6, -37.5, -37.5, 100);
  t.node(7, -100, 100, 0);
  t.node(8, 100, 100, 0);
  t.node(9, 100, -100, 0);
  t.node(10, -100, -100, 0);
  t.group("G1", {{1, 2}});
  t.group("G2", {{1, 4}, {2, 3}, {1, 5}, {2, 6}});
  t.group("G3", {{2, 5}, {2, 4}, {1, 3}, {1, 6}});
  t.group("G4", {{3, 6}, {4, 5}});
  t.group("G5", {{3, 4}, {5, 6}});
  t.group("G6", {{3, 10}, {6, 7}, {4, 9}, {5, 8}});
  t.group("G7", {{3, 8}, {4, 7}, {6, 9}, {5, 10}});
  t.group("G8", {{3, 7}, {4, 8}, {5, 9}, {6, 10}});
  for (int n = 7; n <= 10; ++n) t.pin(n);
  Case& load = add_case(t.frame, "load");
  load.forces = {{"1", {1000, -10000, -10000}, {}},
                 {"2", {0, -10000, -10000}, {}},
                 {"3", {500, 0, 0}, {}},
                 {"6", {600, 0, 0}, {}}};
  for (const int n : {1, 2}) t.limit(n, {0.35, 0.35, 0.35});
  return t.frame;
}

}  // namespace tubewright::testing
