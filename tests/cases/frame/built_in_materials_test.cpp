#include "cases/frame/built_in_materials.h"

#include <cmath>
#include <iterator>
#include <set>
#include <string>

#include "tests/cases/small_frames.h"
#include "tests/catch.h"
#include "tests/truth.h"

namespace tubewright::built_in_materials_test {

namespace {

constexpr Source steel_E = from_memory("EN 1993-1-1 3.2.6: E = 210 000, G about 81 000 N/mm2");
constexpr Source steel_mass =
    seen_in("7850 kg/m3, general notes of a steel maker's Eurocode tables");
constexpr Source en_10025 = seen_in("EN 10025-2, wall up to 16 mm (reprint)");
constexpr Source table_3_1 =
    from_memory("EN 1993-1-1 Table 3.1, hollow sections (EN 10025-2 has the same below 3 mm)");
constexpr Source en_10305 = seen_in("EN 10305-1, normalised +N (reprint)");
constexpr Source bar_4130 = seen_in("4130 normalised, bar of 25 mm (two public data sheets)");
constexpr Source tube_4130 = seen_in("4130 normalised tube, a supplier's 90 ksi");
constexpr Source as_4130 = common_practice(
    "judgement: welded 25CrMo4 taken as normalised 4130, the same steel by composition (seen)");
constexpr Source en_10088 = from_memory("EN 10088-2, 1.4301 hot-rolled strip");
constexpr Source stainless_E = from_memory("EN 1993-1-4 2.1.3");
constexpr Source stainless_mass = from_memory("EN 10088-1, 1.4301 (data sheets: 7900 to 8000)");
constexpr Source en_485 = seen_in("EN 485-2 (suppliers' reprints of the table)");
constexpr Source en_755 = from_memory("EN 755-2, hollow or thin extrusions");
constexpr Source heated = seen_in("EN 1999-1-1 Table 3.2b, beside a weld");
constexpr Source aluminium_E = from_memory("EN 1999-1-1 3.2.5: E = 70 000, G = 27 000 N/mm2");
constexpr Source aluminium_mass = from_memory("EN 1999-1-1 3.2.5 and handbooks");

}  // namespace

using testing::empty_frame;

TEST_CASE("the promised materials are built in, each once") {
  std::set<std::string> names;
  for (const MaterialEntry& m : built_in_materials()) CHECK(names.insert(m.name).second);
  for (const char* name :
       {"S235", "S275", "S355", "E235", "E355", "25CrMo4", "4130", "304", "EN AW-1050A-H14",
        "EN AW-5251-H22", "EN AW-5754-H22", "EN AW-5754-H111", "EN AW-5083-H111", "EN AW-6005A-T6",
        "EN AW-6060-T6", "EN AW-6061-T6", "EN AW-6063-T6", "EN AW-6082-T6"}) {
    CHECK(names.count(name) == 1);
  }
}

// Strengths, MPa; the class of an aluminium alloy is that of EN 1999-1-1 Table 3.2b (MEMORY).
TEST_CASE("every built-in material has the strengths of its standard", "[truth]") {
  struct Row {
    const char* name;
    double yield, ultimate, heat_yield, heat_ultimate;
    AlloyClass alloy_class;
    Source yield_source, ultimate_source;
  };
  constexpr double none = 0;
  const Row rows[] = {
      {"S235", 235, 360, none, none, AlloyClass::B, en_10025, en_10025},
      {"S275", 275, 430, none, none, AlloyClass::B, en_10025, table_3_1},
      {"S355", 355, 510, none, none, AlloyClass::B, en_10025, table_3_1},
      {"E235", 235, 340, none, none, AlloyClass::B, en_10305, en_10305},
      {"E355", 355, 490, none, none, AlloyClass::B, en_10305, en_10305},
      {"4130", 435, 621, none, none, AlloyClass::B, bar_4130, tube_4130},
      {"25CrMo4", 435, 621, none, none, AlloyClass::B, as_4130, as_4130},
      {"304", 210, 520, none, none, AlloyClass::B, en_10088, en_10088},
      {"EN AW-1050A-H14", 85, 105, none, none, AlloyClass::B, en_485, en_485},
      {"EN AW-5251-H22", 120, 190, none, none, AlloyClass::B, en_485, en_485},
      {"EN AW-5754-H22", 130, 220, none, none, AlloyClass::B, en_485, en_485},
      {"EN AW-5754-H111", 80, 190, none, none, AlloyClass::B, en_485, en_485},
      {"EN AW-5083-H111", 110, 270, 110, 270, AlloyClass::B, en_755, en_755},
      {"EN AW-6005A-T6", 215, 255, 115, 165, AlloyClass::A, en_755, en_755},
      {"EN AW-6060-T6", 140, 170, 60, 100, AlloyClass::A, en_755, en_755},
      {"EN AW-6061-T6", 240, 260, 115, 175, AlloyClass::A, en_755, en_755},
      {"EN AW-6063-T6", 160, 195, 65, 110, AlloyClass::A, en_755, en_755},
      {"EN AW-6082-T6", 250, 290, 125, 185, AlloyClass::A, en_755, en_755},
  };
  CHECK(std::size(rows) == built_in_materials().size());
  for (const Row& row : rows) {
    INFO(row.name);
    const MaterialEntry* m = find_material(empty_frame(), row.name);
    REQUIRE(m != nullptr);
    const std::string name = row.name;
    truth(name + ": yield or proof strength, MPa", row.yield_source, m->properties.yield / 1e6,
          within_rel(row.yield, 1e-12));
    truth(name + ": tensile strength, MPa", row.ultimate_source, m->properties.ultimate / 1e6,
          within_rel(row.ultimate, 1e-12));
    CHECK(m->alloy_class == row.alloy_class);
    if (row.heat_yield == none) {
      CHECK(std::isnan(m->heat_affected.yield));
      CHECK(std::isnan(m->heat_affected.ultimate));
    } else {
      truth(name + ": proof strength beside a weld, MPa", heated, m->heat_affected.yield / 1e6,
            within_rel(row.heat_yield, 1e-12));
      truth(name + ": tensile strength beside a weld, MPa", heated, m->heat_affected.ultimate / 1e6,
            within_rel(row.heat_ultimate, 1e-12));
    }
  }
}

TEST_CASE("every built-in material has the moduli and the density of its metal", "[truth]") {
  struct Row {
    const char* name;
    double E, G, density;  // GPa, kg/m3
    Source moduli, mass;
  };
  const Row rows[] = {
      {"S235", 210, 81, 7850, steel_E, steel_mass},
      {"S275", 210, 81, 7850, steel_E, steel_mass},
      {"S355", 210, 81, 7850, steel_E, steel_mass},
      {"E235", 210, 81, 7850, steel_E, steel_mass},
      {"E355", 210, 81, 7850, steel_E, steel_mass},
      {"4130", 205, 80, 7850, bar_4130, bar_4130},
      {"25CrMo4", 210, 81, 7850, steel_E, steel_mass},
      {"304", 200, 77, 7900, stainless_E, stainless_mass},
      {"EN AW-1050A-H14", 70, 27, 2700, aluminium_E, aluminium_mass},
      {"EN AW-5251-H22", 70, 27, 2690, aluminium_E, aluminium_mass},
      {"EN AW-5754-H22", 70, 27, 2670, aluminium_E, aluminium_mass},
      {"EN AW-5754-H111", 70, 27, 2670, aluminium_E, aluminium_mass},
      {"EN AW-5083-H111", 70, 27, 2660, aluminium_E, aluminium_mass},
      {"EN AW-6005A-T6", 70, 27, 2700, aluminium_E, aluminium_mass},
      {"EN AW-6060-T6", 70, 27, 2700, aluminium_E, aluminium_mass},
      {"EN AW-6061-T6", 70, 27, 2700, aluminium_E, aluminium_mass},
      {"EN AW-6063-T6", 70, 27, 2700, aluminium_E, aluminium_mass},
      {"EN AW-6082-T6", 70, 27, 2700, aluminium_E, aluminium_mass},
  };
  CHECK(std::size(rows) == built_in_materials().size());
  for (const Row& row : rows) {
    INFO(row.name);
    const MaterialEntry* m = find_material(empty_frame(), row.name);
    REQUIRE(m != nullptr);
    const std::string name = row.name;
    truth(name + ": E, GPa", row.moduli, m->properties.E / 1e9, within_rel(row.E, 1e-12));
    truth(name + ": G, GPa", row.moduli, m->properties.G / 1e9, within_rel(row.G, 1e-12));
    truth(name + ": density, kg/m3", row.mass, m->properties.density,
          within_rel(row.density, 1e-12));
  }
}

// EN 1993-1-1 and EN 1999-1-1 both give nu = 0.3 (MEMORY); G is rounded there. Stainless: 0.3.
TEST_CASE("every built-in material is a metal that yields before it breaks") {
  for (const MaterialEntry& m : built_in_materials()) {
    INFO(m.name);
    CHECK(poisson_ratio(m.properties) > 0.27);
    CHECK(poisson_ratio(m.properties) < 0.34);
    CHECK(m.properties.yield > 0);
    CHECK(m.properties.ultimate > m.properties.yield);
    CHECK(m.properties.density > 2600);
    CHECK(m.properties.density < 8000);
  }
}

TEST_CASE("a frame's own material goes before the built-in one of that name") {
  Frame f = empty_frame();
  MaterialEntry own;
  own.name = "S235";
  own.properties.E = 200e9;
  f.materials.push_back(own);
  CHECK(find_material(f, "S235")->properties.E == 200e9);
  CHECK(find_material(f, "S275")->properties.E == 210e9);
  CHECK(find_material(f, "S999") == nullptr);
}

}  // namespace tubewright::built_in_materials_test
