// The skin of a hand-made drawing as VTK's reader has it: it closes the volume it should, turns
// without growing, and its stresses sum up to the section forces. Solved frames: read_skin.py.
#include "viz/files/tube_skin.h"

#include <vtkCell.h>
#include <vtkCellData.h>
#include <vtkPointData.h>
#include <vtkUnstructuredGrid.h>
#include <vtkXMLUnstructuredGridReader.h>

#include <Eigen/Geometry>
#include <cmath>
#include <numbers>

#include "solver/elements/beam_element.h"
#include "solver/model/section_shapes.h"
#include "tests/catch.h"
#include "tests/viz/files/read_vtk.h"

namespace tubewright::tube_skin_test {

namespace {

const Eigen::Vector3d from(0.1, 0.2, 0.3), to(0.7, 1.0, 0.3);  // 1 m apart

CaseDrawing drawing(const Section& shape, const Eigen::Vector3d& rotation, bool large) {
  CaseDrawing d;
  d.name = "K\xc3\xa4se";
  d.step = 2;
  d.large = large;
  MemberDrawing m;
  m.member = 5;
  m.section = 0;
  m.shape = shape;
  m.axes = member_axes(from, to, 0.4);
  for (const double at : {0.0, 0.3, 1.0}) {
    Station s;
    s.at = at;
    s.point = from + at * (to - from);
    s.displacement = {0.001, 0.002, -0.003};
    s.rotation = rotation;
    s.forces = {2000, 0, 0, 0, 40, -25};
    m.stations.push_back(s);
  }
  d.members = {m, m};
  d.members[1].section = -1;  // a spring
  return d;
}

vtkSmartPointer<vtkUnstructuredGrid> skin(const CaseDrawing& d) {
  return read_bytes<vtkXMLUnstructuredGridReader, vtkUnstructuredGrid>(tube_skin_file(d, 50));
}

const Section box = hollow_rectangle(0.04, 0.02, 0.002, {}, 0.3);

}  // namespace

TEST_CASE("the skin of a tube faces outward and has its perimeter along its length") {
  const auto grid = skin(drawing(box, {0, 0, 0}, false));
  REQUIRE(grid->GetNumberOfCells() == 2 * 8);  // the spring has none
  double area = 0, outward = 0;
  for (vtkIdType c = 0; c < grid->GetNumberOfCells(); ++c) {
    Eigen::Vector3d p[4];
    for (int k = 0; k < 4; ++k) p[k] = point_at(*grid, grid->GetCell(c)->GetPointId(k));
    const Eigen::Vector3d normal = (p[2] - p[0]).cross(p[3] - p[1]) / 2;
    area += normal.norm();
    // The divergence theorem: without end faces the axis is the origin, twice the section's area
    // times the length.
    const Eigen::Vector3d middle = (p[0] + p[1] + p[2] + p[3]) / 4 - 1000 * from;
    const Eigen::Vector3d along = (to - from).normalized();
    outward += normal.dot(middle - middle.dot(along) * along);
  }
  CHECK_THAT(area, WithinRel(2 * (40.0 + 20) * 1000, 1e-9));
  CHECK_THAT(outward / 2, WithinRel(40.0 * 20 * 1000, 1e-9));
}

TEST_CASE("stresses on the skin of a round are N/A + My z/I - Mz y/I at each of its points") {
  const Section tube = round_tube(0.03, 0.002, 0.3);
  const CaseDrawing made = drawing(tube, {0, 0, 0}, false);
  const auto grid = skin(made);
  vtkDataArray& normal = array_of(*grid->GetPointData(), "stress_normal");
  const Eigen::Matrix3d& axes = made.members[0].axes;
  // pi/4 (D2 - d2) and pi/64 (D4 - d4) of 30 x 2.
  const double pi = std::numbers::pi, D = 0.03, d = 0.026;
  const double A = pi / 4 * (D * D - d * d), I = pi / 64 * (std::pow(D, 4) - std::pow(d, 4));
  for (vtkIdType i = 0; i < 32; ++i) {
    const Eigen::Vector3d p = axes * (point_at(*grid, i) / 1000 - from);
    CHECK_THAT(normal.GetTuple1(i),
               WithinAbs((2000 / A + 40 * p.z() / I + 25 * p.y() / I) / 1e6, 1e-9));
  }
}

TEST_CASE("a section turned far keeps its size, a section turned a little moves by w x r") {
  const Eigen::Vector3d w(0.4, -1.2, 0.9);
  const auto far = skin(drawing(box, w, true)), small = skin(drawing(box, 1e-3 * w, false));
  const Eigen::Matrix3d R = Eigen::AngleAxisd(w.norm(), w.normalized()).toRotationMatrix();
  const Eigen::Vector3d shift(1, 2, -3);
  for (vtkIdType i = 0; i < 8; ++i) {
    const Eigen::Vector3d r = point_at(*far, i) - 1000 * from;
    const Eigen::Vector3d moved = r + vector_at(array_of(*far->GetPointData(), "displacement"), i);
    CHECK((moved - R * r - shift).norm() < 1e-9);
    const Eigen::Vector3d small_move =
        vector_at(array_of(*small->GetPointData(), "displacement"), i);
    CHECK((small_move - shift - 1e-3 * w.cross(r)).norm() < 1e-12);
  }
}

TEST_CASE("the skin names its member, its step and its case in numbers alone") {
  const auto grid = skin(drawing(box, {0, 0, 0}, false));
  CHECK(values_of(array_of(*grid->GetCellData(), "member")) == std::vector<double>(16, 5));
  CHECK(values_of(array_of(*grid->GetFieldData(), "case_name_utf8")) ==
        std::vector<double>{'K', 0xc3, 0xa4, 's', 'e'});
  CHECK(array_of(*grid->GetFieldData(), "TimeValue").GetTuple1(0) == 2);
  CHECK(strings_of(*grid->GetFieldData(), "case_name").empty());
}

}  // namespace tubewright::tube_skin_test
