#include "cases/sheets/blank_remarks.h"

#include "tests/cases/sheets/floor_grid.h"
#include "tests/catch.h"

namespace tubewright::blank_remarks_test {

using namespace tubewright::testing;
using Eigen::Vector3d;

TEST_CASE("only tubes on the sheet's side are in its way") {
  Frame frame = floor_grid(1, 1);
  add_node(frame, "above", 0, 0, 0.3);
  add_node(frame, "below", 0, 0, -0.3);
  add_member(frame, "mast", "n0_0", "above");
  add_member(frame, "leg", "n0_0", "below");
  Diagnostics remarks;
  tell_of_tubes_through(clad_frame(frame), frame.sheets.front(), {0}, Vector3d::UnitZ(), remarks);
  CHECK_THAT(text_of(remarks), ContainsSubstring("mast"));
  CHECK_THAT(text_of(remarks), !ContainsSubstring("leg"));
  remarks.clear();
  tell_of_tubes_through(clad_frame(frame), frame.sheets.front(), {1, 2}, Vector3d::UnitZ(),
                        remarks);
  CHECK(remarks.empty());
}

TEST_CASE("pieces lap where they lie on one face of a tube, not on two sides of it") {
  const Frame frame = floor_grid(2, 1);
  const CladFrame f = clad_frame(frame);
  const auto placed = [&](const Vector3d& out, bool sided, int panel) {
    return PlacedBlank{"p" + std::to_string(panel), "floor", out, sided, f.face(panel).sides};
  };
  const Vector3d up = Vector3d::UnitZ();
  const auto laps = [&](const PlacedBlank& a, const PlacedBlank& b) {
    Diagnostics remarks;
    tell_of_laps(f, {a, b}, remarks);
    return remarks.size();
  };
  CHECK(laps(placed(up, true, 0), placed(up, true, 1)) == 1);
  CHECK(laps(placed(up, true, 0), placed(-up, true, 1)) == 0);
  CHECK(laps(placed(up, false, 0), placed(-up, true, 1)) == 1);  // on either side
  CHECK(laps(placed(up, true, 0), placed(Vector3d::UnitY(), true, 1)) == 0);
}

}  // namespace tubewright::blank_remarks_test
