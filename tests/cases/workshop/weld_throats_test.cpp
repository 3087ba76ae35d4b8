// Which welds have to be thicker than the wall.
#include "cases/workshop/weld_throats.h"

#include "tests/cases/small_frames.h"
#include "tests/catch.h"
#include "tests/truth.h"

namespace tubewright::weld_throats_test {

using namespace tubewright::testing;

namespace {

constexpr Source full_strength =
    seen_in("EN 1993-1-8 7.3.1(4): 1.10 walls of S355, sqrt(2) 0.9 1.25 355/510 = 1.107");

}  // namespace

TEST_CASE("welds of S355 are to be 1.11 walls thick, those of S235 no thicker than the wall",
          "[truth]") {
  // 0.92, 0.96, 1.10 walls: EN 1993-1-8 7.3.1(4) (MEMORY); sqrt(2) 0.9 1.25 355/510 = 1.107.
  Frame f = rectangle();
  for (const char* steel : {"S235", "S275"}) {
    f.sections[0].material = steel;
    CHECK(weld_throats(f, build_model(f)).empty());
  }
  f.sections[0].material = "S355";
  const std::vector<WeldThroat> list = weld_throats(f, build_model(f));
  REQUIRE(list.size() == 1);
  CHECK(list[0].section == "tube");
  CHECK(list[0].members == std::vector<std::string>{"AB", "BC", "CD", "DA"});
  truth("S355, wall 2 mm: throat, m", full_strength, list[0].throat,
        within_rel(1.107 * 0.002, 1e-3));

  f.members[1].weld_throat = 0.003;
  CHECK(weld_throats(f, build_model(f))[0].members.size() == 3);
}

}  // namespace tubewright::weld_throats_test
