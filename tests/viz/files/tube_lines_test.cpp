// A hand-made drawing as VTK's reader has it: section forces as vectors are the same two in
// whatever way the member is turned. Solved frames are read back in read_tubes.py.
#include "viz/files/tube_lines.h"

#include <vtkCell.h>
#include <vtkCellData.h>
#include <vtkPointData.h>
#include <vtkPolyData.h>
#include <vtkXMLPolyDataReader.h>

#include <cmath>
#include <numbers>

#include "solver/elements/beam_element.h"
#include "solver/model/section_shapes.h"
#include "tests/catch.h"
#include "tests/viz/files/read_vtk.h"

namespace tubewright::tube_lines_test {

namespace {

const Eigen::Vector3d from(0.1, 0.2, 0.3), to(0.7, 1.0, 0.3);
const Eigen::Vector3d shear(-160, 120, 90), moment(16, -12, 5);  // both square to the member

/// One member of two stations, rolled, its forces given in global axes.
CaseDrawing drawing(double roll) {
  CaseDrawing d;
  d.name = "hand <made> & \"small\"";
  d.step = 3;
  MemberDrawing m;
  m.section = 0;
  m.shape = round_tube(0.03, 0.002, 0.3);
  m.axes = member_axes(from, to, roll);
  m.yield_share = 1 / 235e6;
  const Eigen::Vector3d V = m.axes * shear, M = m.axes * moment;
  for (const double at : {0.0, 1.0}) {
    Station s;
    s.at = at;
    s.point = from + at * (to - from);
    s.displacement = {0.001 * at, 0.002, -0.003};
    s.rotation = {0.01, 0.02 * at, 0};
    s.forces = {2000, V.y(), V.z(), 30, M.y(), M.z()};
    m.stations.push_back(s);
  }
  d.members = {m, m};
  d.members[1].member = 1;
  d.members[1].section = -1;  // a spring
  d.members[1].shape = {};
  return d;
}

vtkSmartPointer<vtkPolyData> lines(const CaseDrawing& d) {
  Frame frame;
  frame.title = "test";
  return read_bytes<vtkXMLPolyDataReader, vtkPolyData>(tube_lines_file(frame, d, 50));
}

}  // namespace

TEST_CASE("shear and moment on a section are the same vectors however the member is rolled") {
  for (const double roll : {0.0, 0.7, 2.5}) {
    const auto data = lines(drawing(roll));
    vtkFieldData& at = *data->GetPointData();
    for (const vtkIdType i : {0, 1}) {
      CHECK((vector_at(array_of(at, "shear_force"), i) - shear).norm() < 1e-9);
      CHECK((vector_at(array_of(at, "bending_moment"), i) - moment).norm() < 1e-9);
      CHECK(array_of(at, "axial_force").GetTuple1(i) == 2000);
      CHECK(array_of(at, "torsion").GetTuple1(i) == 30);
    }
  }
}

TEST_CASE("the stress along a round tube is N/A and M/W added up, whatever the roll") {
  // pi/4 (D2 - d2) and pi/32 (D4 - d4)/D of 30 x 2; the vector of the moment has the length M.
  const double pi = std::numbers::pi, D = 0.03, d = 0.026;
  const double A = pi / 4 * (D * D - d * d);
  const double W = pi / 32 * (std::pow(D, 4) - std::pow(d, 4)) / D;
  for (const double roll : {0.0, 0.7}) {
    const auto data = lines(drawing(roll));
    vtkDataArray& normal = array_of(*data->GetPointData(), "stress_normal");
    CHECK(unit_of(normal) == "MPa");
    CHECK_THAT(normal.GetTuple1(0), WithinRel((2000 / A + moment.norm() / W) / 1e6, 1e-9));
  }
}

TEST_CASE("points and moves come in millimetres, turns in radians, a line a member") {
  const auto data = lines(drawing(0.3));
  REQUIRE(data->GetNumberOfCells() == 2);
  REQUIRE(data->GetNumberOfPoints() == 4);  // members share none
  CHECK((point_at(*data, 1) - 1000 * to).norm() < 1e-9);
  CHECK(data->GetCell(1)->GetPointId(0) == 2);
  CHECK((vector_at(array_of(*data->GetPointData(), "displacement"), 1) - Eigen::Vector3d(1, 2, -3))
            .norm() < 1e-12);
  CHECK((vector_at(array_of(*data->GetPointData(), "rotation"), 1) - Eigen::Vector3d(0.01, 0.02, 0))
            .norm() < 1e-15);
}

TEST_CASE("a spring has no stress and the section number -1, and names keep every letter") {
  const auto data = lines(drawing(0.3));
  CHECK(values_of(array_of(*data->GetCellData(), "section")) == std::vector<double>{0, -1});
  CHECK(values_of(array_of(*data->GetCellData(), "member")) == std::vector<double>{0, 1});
  for (const char* name : {"von_mises", "stress_normal", "utilisation"}) {
    CHECK(array_of(*data->GetPointData(), name).GetTuple1(0) > 0);
    CHECK(array_of(*data->GetPointData(), name).GetTuple1(2) == 0);
  }
  const double used = array_of(*data->GetPointData(), "utilisation").GetTuple1(0);
  CHECK_THAT(array_of(*data->GetPointData(), "von_mises").GetTuple1(0),
             WithinRel(used * 235, 1e-12));
  CHECK(strings_of(*data->GetFieldData(), "case_name") ==
        std::vector<std::string>{"hand <made> & \"small\""});
  CHECK(array_of(*data->GetFieldData(), "TimeValue").GetTuple1(0) == 3);
}

}  // namespace tubewright::tube_lines_test
