// The sheets of a case as VTK's reader has them, against the statics of a panel in pure shear: the
// flow is the load over the length of the edge it runs along, the stress the flow over the sheet.
#include "viz/files/panel_quads.h"

#include <vtkCell.h>
#include <vtkCellData.h>
#include <vtkPointData.h>
#include <vtkPolyData.h>
#include <vtkXMLPolyDataReader.h>

#include <Eigen/Geometry>
#include <cmath>

#include "tests/cases/clad_frames.h"
#include "tests/catch.h"
#include "tests/viz/files/known_frames.h"
#include "tests/viz/files/read_vtk.h"

namespace tubewright::panel_quads_test {

namespace {

vtkSmartPointer<vtkPolyData> quads(const Analysis& a, int step = 1, double warp = 1) {
  return read_bytes<vtkXMLPolyDataReader, vtkPolyData>(
      panel_quads_file(a, a.cases.front(), step, warp));
}

double only_value(vtkPolyData& data, const char* name, const std::string& unit) {
  vtkDataArray& array = array_of(*data.GetCellData(), name);
  REQUIRE(array.GetNumberOfTuples() == 1);
  CHECK(unit_of(array) == unit);
  return array.GetTuple1(0);
}

}  // namespace

TEST_CASE("a panel in pure shear is drawn with its flow of F/a in N/mm and its stress in MPa") {
  Frame f = testing::shear_frame(0.8, 0.5, 1000);
  f.sheets.front().rivet = testing::rivets(0.004, 0.040);
  const Analysis a = analysed(f);
  const auto data = quads(a);
  REQUIRE(data->GetNumberOfCells() == 1);
  CHECK_THAT(only_value(*data, "shear_flow", "N/mm"), WithinRel(1.25, 1e-9));
  CHECK_THAT(only_value(*data, "shear_stress", "MPa"), WithinRel(1.25 / 1.2, 1e-9));
  CHECK_THAT(only_value(*data, "rivet_load", "N"), WithinRel(1.25 * 40, 1e-9));  // flow x pitch
  CHECK(only_value(*data, "stiffness_kept", "1") == 1);                          // far from buckled
  CHECK(only_value(*data, "critical_stress", "MPa") > 1.25 / 1.2);
  CHECK(only_value(*data, "utilisation", "1") > 0);
  CHECK(array_of(*data->GetCellData(), "panel").GetTuple1(0) == 0);
}

TEST_CASE("a panel is drawn in millimetres at its nodes and moves with them") {
  Frame f = testing::shear_frame(0.8, 0.5, 1000);
  f.sheets.front().offset = 0;
  const Analysis a = analysed(f);
  const auto data = quads(a);
  REQUIRE(data->GetNumberOfPoints() == 4);
  const Eigen::Vector3d corners[] = {{0, 0, 0}, {800, 0, 0}, {800, 500, 0}, {0, 500, 0}};
  vtkDataArray& moves = array_of(*data->GetPointData(), "displacement");
  CHECK(unit_of(moves) == "mm");
  for (int k = 0; k < 4; ++k) {
    CHECK(data->GetCell(0)->GetPointId(k) == k);
    CHECK((point_at(*data, k) - corners[k]).norm() < 1e-9);
  }
  CHECK(vector_at(moves, 0).norm() + vector_at(moves, 1).norm() == 0);  // held
  CHECK(vector_at(moves, 3).x() > 0);                                   // the way it is pushed
  // Stiff links: the sheet shears by tau/G, a hundredth of it lost to the links at most. EN
  // AW-5754: G = E/2(1 + nu) of 70 GPa and 0.3.
  const double sheared = 1.25 / 1.2 / (70e3 / 2.6) * 500;
  CHECK_THAT((vector_at(moves, 2).x() + vector_at(moves, 3).x()) / 2, WithinRel(sheared, 0.02));
}

TEST_CASE("a sheet off the members' axes is drawn where it lies and is carried round with them") {
  Frame f = testing::clad_ladder();
  f.sheets.front().offset = 0.013;
  Case& c = testing::add_case(f, "twist");
  c.forces.push_back({"l1_l", {0, 0, 200}, {}});
  for (const char* node : {"l3_l", "l3_r", "l1_r"}) {
    f.supports.push_back({node, {true, true, true}, {}, {}});
  }
  const Analysis a = analysed(f);
  const auto data = quads(a);
  REQUIRE(data->GetNumberOfCells() == 2);
  const Eigen::VectorXd& u = a.cases.front().solution.displacements;
  vtkDataArray &moves = array_of(*data->GetPointData(), "displacement"),
               &turns = array_of(*data->GetPointData(), "rotation");
  // Corners in the order left, right, rear right, rear left: seen from below, normal downward.
  for (int p = 0; p < 2; ++p) {
    for (int k = 0; k < 4; ++k) {
      const int node = a.model.panels[p].corners[k], i = 4 * p + k;
      const Eigen::Vector3d axis = 1000 * a.model.nodes[node];
      const Eigen::Vector3d arm = point_at(*data, i) - axis, w = u.segment<3>(6 * node + 3);
      CHECK_THAT(std::abs(arm.z()), WithinRel(13.0, 1e-9));
      CHECK(arm.head<2>().norm() < 1e-9);
      CHECK((vector_at(turns, i) - w).norm() < 1e-12);
      const Eigen::Vector3d expected = 1000 * u.segment<3>(6 * node) + w.cross(arm);
      CHECK((vector_at(moves, i) - expected).norm() < 1e-9);
    }
  }
  // The normal is the corners' right hand: here it points up or down, and the offset with it.
  const Eigen::Vector3d e1 = point_at(*data, 1) - point_at(*data, 0),
                        e2 = point_at(*data, 2) - point_at(*data, 1);
  CHECK(e1.cross(e2).z() * point_at(*data, 0).z() > 0);
}

TEST_CASE("the case, the panels' names, the step and the warp stand beside the quads") {
  const Analysis a = analysed(testing::shear_frame(0.8, 0.5, 1000));
  const auto data = quads(a, 7, 250);
  vtkFieldData& about = *data->GetFieldData();
  CHECK(strings_of(about, "case_name") == std::vector<std::string>{"push"});
  CHECK(strings_of(about, "frame") == std::vector<std::string>{a.frame.title});
  CHECK(strings_of(about, "panel_names") == std::vector<std::string>{"web"});
  CHECK(array_of(about, "TimeValue").GetTuple1(0) == 7);
  CHECK(array_of(about, "warp_scale_suggested").GetTuple1(0) == 250);
  CHECK(std::string(data->GetPointData()->GetVectors()->GetName()) == "displacement");
  CHECK(std::string(data->GetCellData()->GetScalars()->GetName()) == "shear_flow");
}

}  // namespace tubewright::panel_quads_test
