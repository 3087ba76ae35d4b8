// The bodies of attachments of a solved case as VTK's reader has them: they move with their arms.
#include "viz/files/attachment_bodies.h"

#include <vtkCellData.h>
#include <vtkPointData.h>
#include <vtkPolyData.h>
#include <vtkXMLPolyDataReader.h>

#include <set>

#include "tests/cases/attachments/gusset_frames.h"
#include "tests/viz/files/known_frames.h"
#include "tests/viz/files/read_vtk.h"

namespace tubewright::attachment_bodies_test {

namespace {

vtkSmartPointer<vtkPolyData> bodies(const Analysis& a) {
  const CaseResult& result = a.cases.front();
  return read_bytes<vtkXMLPolyDataReader, vtkPolyData>(
      attachment_bodies_file(a, result, draw_case(a, result, 1), 1));
}

Eigen::Vector3d displacement_of(const Analysis& a, const std::string& name) {
  for (std::size_t n = 0; n < a.frame.nodes.size(); ++n) {
    if (a.frame.nodes[n].name == name)
      return 1e3 * a.cases[0].solution.displacements.segment<3>(6 * static_cast<Eigen::Index>(n));
  }
  FAIL("no node " + name);
  return {};
}

}  // namespace

TEST_CASE("a tab moves with its foot and its hole, and bears its utilisation") {
  Frame f = testing::cantilever_40();
  f.attachments = {testing::tab("ear", "rail", 0.9, Face::top)};
  f.attachments[0].bolt.reset();
  testing::push(f, "ear", {0, 0, -500});
  const Analysis a = analysed(testing::expanded(f));
  const auto data = bodies(a);
  vtkDataArray& moves = array_of(*data->GetPointData(), "displacement");
  CHECK(unit_of(moves) == "mm");
  // What lies over the hole, 45 mm above the axis, goes down with it.
  const Eigen::Vector3d hole = displacement_of(a, "ear");
  bool found = false;
  for (vtkIdType i = 0; i < data->GetNumberOfPoints(); ++i) {
    const Eigen::Vector3d p = point_at(*data, i);
    if (std::abs(p.z() - 60) > 1e-6 || std::abs(p.x() - 900) > 1e-6) continue;
    found = true;
    CHECK_THAT(vector_at(moves, i).z(), WithinRel(hole.z(), 1e-3));
  }
  CHECK(found);
  vtkDataArray& used = array_of(*data->GetCellData(), "utilisation");
  CHECK(used.GetTuple1(0) == *nearest_limit(a.cases[0].attachments[0].checks)->result.utilisation);
}

TEST_CASE("a gusset's corners move with the nodes at its legs' ends; names stand in order") {
  Frame f = testing::gusset_frame({});
  f.attachments = {testing::tab("ear", "arm", 0.9, Face::top)};
  testing::push(f, "ear", {0, 0, -500});
  const Analysis a = analysed(testing::expanded(f));
  const auto data = bodies(a);
  std::set<int> numbers;
  vtkDataArray& number = array_of(*data->GetCellData(), "attachment");
  for (vtkIdType c = 0; c < number.GetNumberOfTuples(); ++c)
    numbers.insert(static_cast<int>(number.GetTuple1(c)));
  CHECK(numbers == std::set<int>{0, 1});
  // The last six points are the gusset's: its tips lie 20 mm off the axis nodes and turn with them.
  vtkDataArray& moves = array_of(*data->GetPointData(), "displacement");
  const vtkIdType tip = data->GetNumberOfPoints() - 2;
  CHECK((point_at(*data, tip) - Eigen::Vector3d(80, -2, 20)).cwiseAbs().x() < 1e-9);
  CHECK(std::abs(vector_at(moves, tip).z() - displacement_of(a, "g.1").z()) <
        0.1 * displacement_of(a, "g.1").norm() + 1e-6);
}

}  // namespace tubewright::attachment_bodies_test
