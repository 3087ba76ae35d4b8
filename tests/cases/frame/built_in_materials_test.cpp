#include "cases/frame/built_in_materials.h"

#include <cmath>
#include <iterator>
#include <set>

#include "tests/cases/small_frames.h"
#include "tests/catch.h"

namespace tubewright::built_in_materials_test {

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

// EN 1993-1-1:2005 3.2.6: E = 210 000, G about 81 000 N/mm2; Table 3.1: f_y of S235 235 N/mm2, f_u
// 360 N/mm2 (MEMORY).
TEST_CASE("S235 has the values of EN 1993-1-1") {
  const MaterialEntry* steel = find_material(empty_frame(), "S235");
  REQUIRE(steel != nullptr);
  CHECK(steel->properties.E == 210e9);
  CHECK(steel->properties.G == 81e9);
  CHECK(steel->properties.density == 7850);
  CHECK(steel->properties.yield == 235e6);
  CHECK(steel->properties.ultimate == 360e6);
}

// Strengths, MPa. SEEN in reprints of the standards: EN 10025-2 yield and S235's 360, EN 10305-1
// +N, 5754 of EN 485-2; of 4130 the yield of a 25 mm bar and a supplier's 90 ksi. All others
// MEMORY: f_u of S275, S355 EN 1993-1-1 Table 3.1; 25CrMo4 as 4130; 304 EN 10088-2; 1050A, 5251 EN
// 485-2; 5083 and the 6000 alloys EN 755-2, hollow, thin, beside a weld and the class EN 1999-1-1
// Table 3.2b.
TEST_CASE("every built-in material has the strengths of its standard") {
  struct Row {
    const char* name;
    double yield, ultimate, heat_yield, heat_ultimate;
    AlloyClass alloy_class;
  };
  constexpr double none = 0;
  const Row rows[] = {
      {"S235", 235, 360, none, none, AlloyClass::B},
      {"S275", 275, 430, none, none, AlloyClass::B},
      {"S355", 355, 510, none, none, AlloyClass::B},
      {"E235", 235, 340, none, none, AlloyClass::B},
      {"E355", 355, 490, none, none, AlloyClass::B},
      {"4130", 435, 621, none, none, AlloyClass::B},
      {"25CrMo4", 435, 621, none, none, AlloyClass::B},
      {"304", 210, 520, none, none, AlloyClass::B},
      {"EN AW-1050A-H14", 85, 105, none, none, AlloyClass::B},
      {"EN AW-5251-H22", 120, 190, none, none, AlloyClass::B},
      {"EN AW-5754-H22", 130, 220, none, none, AlloyClass::B},
      {"EN AW-5754-H111", 80, 190, none, none, AlloyClass::B},
      {"EN AW-5083-H111", 110, 270, 110, 270, AlloyClass::B},
      {"EN AW-6005A-T6", 215, 255, 115, 165, AlloyClass::A},
      {"EN AW-6060-T6", 140, 170, 60, 100, AlloyClass::A},
      {"EN AW-6061-T6", 240, 260, 115, 175, AlloyClass::A},
      {"EN AW-6063-T6", 160, 195, 65, 110, AlloyClass::A},
      {"EN AW-6082-T6", 250, 290, 125, 185, AlloyClass::A},
  };
  CHECK(std::size(rows) == built_in_materials().size());
  for (const Row& row : rows) {
    INFO(row.name);
    const MaterialEntry* m = find_material(empty_frame(), row.name);
    REQUIRE(m != nullptr);
    CHECK(m->properties.yield == row.yield * 1e6);
    CHECK(m->properties.ultimate == row.ultimate * 1e6);
    CHECK(m->alloy_class == row.alloy_class);
    if (row.heat_yield == none) {
      CHECK(std::isnan(m->heat_affected.yield));
      CHECK(std::isnan(m->heat_affected.ultimate));
    } else {
      CHECK(m->heat_affected.yield == row.heat_yield * 1e6);
      CHECK(m->heat_affected.ultimate == row.heat_ultimate * 1e6);
    }
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
