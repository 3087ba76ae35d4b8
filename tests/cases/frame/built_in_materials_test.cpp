#include "cases/frame/built_in_materials.h"

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
        "EN AW-5251-H22", "EN AW-5754-H22", "EN AW-5754-H111", "EN AW-6082-T6"}) {
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
