// A load case to draw whose every number is known: two square plates side by side.
#pragma once

#include <vtkCellData.h>
#include <vtkDoubleArray.h>
#include <vtkIntArray.h>
#include <vtkNew.h>
#include <vtkPointData.h>
#include <vtkPoints.h>

#include <array>
#include <functional>
#include <string>

#include "viz/draw/load_set.h"

namespace tubewright {

/// Adds a point array of `parts` numbers a point, given by the point's place.
template <class Data>
void add_array(Data& data, const char* name, int parts,
               const std::function<std::array<double, 3>(const double*)>& value) {
  vtkNew<vtkDoubleArray> values;
  values->SetName(name);
  values->SetNumberOfComponents(parts);
  for (vtkIdType i = 0; i < data.GetNumberOfPoints(); ++i)
    values->InsertNextTuple(value(data.GetPoint(i)).data());
  data.GetPointData()->AddArray(values);
}

/// In mm: the skin is the strip 0 <= x <= 2000, 0 <= y <= 1000 in the plane z = 0 out of a plate
/// `front` (cell 0, x >= 1000) and a plate `rear` (cell 1); the tubes are the line y = 500. Every
/// point moves by (0, 0, x / 1000) mm, `warp_scale` times drawn. Von Mises stress is x / 10 MPa,
/// the axial force 100 - x N, utilisation x / 4000; there is no stress along the tube.
inline DrawnCase hand_made_case() {
  DrawnCase drawn;
  drawn.name = "push";
  drawn.frame = "Bench";
  drawn.stem = "loads_01_push";
  drawn.member_names = {"rear", "front"};
  drawn.warp_scale = 50;

  vtkNew<vtkPoints> corners;
  for (const double x : {0.0, 1000.0, 2000.0})
    for (const double y : {0.0, 1000.0}) corners->InsertNextPoint(x, y, 0);
  drawn.skin = vtkSmartPointer<vtkUnstructuredGrid>::New();
  drawn.skin->SetPoints(corners);
  const std::array<std::array<vtkIdType, 4>, 2> plates = {{{2, 4, 5, 3}, {0, 2, 3, 1}}};
  vtkNew<vtkIntArray> member;
  member->SetName("member");
  for (const int index : {1, 0}) member->InsertNextValue(index);
  for (const auto& plate : plates) drawn.skin->InsertNextCell(VTK_QUAD, 4, plate.data());
  drawn.skin->GetCellData()->AddArray(member);

  vtkNew<vtkPoints> ends;
  ends->InsertNextPoint(0, 500, 0);
  ends->InsertNextPoint(2000, 500, 0);
  drawn.tubes = vtkSmartPointer<vtkPolyData>::New();
  drawn.tubes->SetPoints(ends);
  drawn.tubes->AllocateEstimate(1, 2);
  const std::array<vtkIdType, 2> line = {0, 1};
  drawn.tubes->InsertNextCell(VTK_LINE, 2, line.data());

  const auto moved = [](const double* p) { return std::array{0.0, 0.0, p[0] / 1000}; };
  const auto stress = [](const double* p) { return std::array{p[0] / 10, 0.0, 0.0}; };
  add_array(*drawn.skin, "displacement", 3, moved);
  add_array(*drawn.tubes, "displacement", 3, moved);
  add_array(*drawn.skin, "von_mises", 1, stress);
  add_array(*drawn.tubes, "von_mises", 1, stress);
  add_array(*drawn.skin, "axial_force", 1, [](const double* p) {
    return std::array{100 - p[0], 0.0, 0.0};
  });
  add_array(*drawn.skin, "utilisation", 1, [](const double* p) {
    return std::array{p[0] / 4000, 0.0, 0.0};
  });
  return drawn;
}

}  // namespace tubewright
