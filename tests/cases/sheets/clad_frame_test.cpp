#include "cases/sheets/clad_frame.h"

#include <Eigen/Geometry>

#include "tests/cases/sheets/floor_grid.h"
#include "tests/catch.h"

namespace tubewright::clad_frame_test {

using namespace tubewright::testing;
using Eigen::Vector3d;

TEST_CASE("the sides of a panel close, and go round the other way seen from behind") {
  const Frame frame = floor_grid(2, 1);
  const CladFrame f = clad_frame(frame);
  REQUIRE(f.faces.size() == 2);
  for (const double up : {1.0, -1.0}) {
    const Vector3d view(0, 0, up);
    const std::vector<PanelSide> sides = sides_seen_from(f.face(0), view);
    REQUIRE(sides.size() == 4);
    Vector3d twice_area = Vector3d::Zero();
    for (std::size_t i = 0; i < 4; ++i) {
      CHECK(sides[i].to == sides[(i + 1) % 4].from);
      twice_area += f.at(sides[i].from).cross(f.at(sides[i].to));
    }
    // Anticlockwise against the view: 2 x 500 x 400 mm2.
    CHECK_THAT(twice_area.dot(view), WithinRel(0.4, 1e-12));
  }
}

TEST_CASE("panels are known by the members along them: two along the rail between") {
  const Frame frame = floor_grid(2, 1);
  const CladFrame f = clad_frame(frame);
  int shared = 0;
  for (const auto& [member, panels] : f.panels_at) {
    CHECK((panels.size() == 1 || f.member(member).name == "cross1_0"));
    shared += panels.size() == 2;
  }
  CHECK(shared == 1);
}

TEST_CASE("outside is the side that the offset points to") {
  Frame frame = floor_grid(1, 1);
  const Vector3d above = outside(clad_frame(frame), 0);
  frame.sheets.front().offset = -0.0131;
  CHECK((outside(clad_frame(frame), 0) + above).norm() < 1e-12);
}

TEST_CASE("a post comes through a sheet on its own side only, a tube 19 degrees up not at all") {
  Frame frame = floor_grid(1, 1);
  const int node = 0;
  const int first = static_cast<int>(frame.members.size());
  add_node(frame, "top", 0, 0, 0.3);
  add_node(frame, "low", -0.3, 0, 0.3 * std::tan(19 * 3.14159265 / 180));
  add_node(frame, "steep", 0, -0.3, 0.3 * std::tan(21 * 3.14159265 / 180));
  for (const char* to : {"top", "low", "steep"})
    add_member(frame, std::string("to_") + to, "n0_0", to);
  const CladFrame f = clad_frame(frame);
  const Vector3d up = Vector3d::UnitZ();
  CHECK(comes_through(f, node, first, up, true));
  CHECK_FALSE(comes_through(f, node, first, -up, true));
  CHECK(comes_through(f, node, first, -up, false));
  CHECK_FALSE(comes_through(f, node, first + 1, up, true));
  CHECK(comes_through(f, node, first + 2, up, true));
}

}  // namespace tubewright::clad_frame_test
