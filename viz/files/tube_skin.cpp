#include "viz/files/tube_skin.h"

#include <vtkCellData.h>
#include <vtkCellType.h>
#include <vtkNew.h>
#include <vtkPointData.h>
#include <vtkPoints.h>
#include <vtkUnstructuredGrid.h>
#include <vtkXMLUnstructuredGridWriter.h>

#include "io/text/workshop_units.h"
#include "viz/files/surface_stress.h"
#include "viz/files/vtk_arrays.h"

namespace tubewright {

namespace {

struct SkinColumns {
  Column displacement{"displacement", "mm", 3, {}};
  Column rotation{"rotation", "rad", 3, {}};
  Column axial_force{"axial_force", "N", 1, {}};
  Column von_mises{"von_mises", "MPa", 1, {}};
  Column stress_normal{"stress_normal", "MPa", 1, {}};
  Column utilisation{"utilisation", "1", 1, {}};

  void add(const MemberDrawing& member, const Station& station, const Eigen::Vector3d& turned_by,
           const PointStress& stress) {
    append(displacement, (station.displacement + turned_by) * mm_per_m);
    append(rotation, station.rotation);
    append(axial_force, station.forces.N);
    append(von_mises, stress.von_mises * MPa_per_Pa);
    append(stress_normal, stress.normal * MPa_per_Pa);
    append(utilisation, stress.von_mises * member.yield_share);
  }

  void store(vtkFieldData& data) const {
    for (const Column* column :
         {&displacement, &rotation, &axial_force, &von_mises, &stress_normal, &utilisation})
      add_column(data, *column);
  }
};

/// Adds the ring of points at one station and returns its size.
vtkIdType add_ring(vtkPoints& points, SkinColumns& columns, const MemberDrawing& member,
                   const Station& station, bool large) {
  const std::vector<StressPoint> ring = surface_ring(member.shape, station.forces);
  for (const StressPoint& p : ring) {
    const Eigen::Vector3d offset = member.axes.transpose() * Eigen::Vector3d(0, p.y, p.z);
    const Eigen::Vector3d at = (station.point + offset) * mm_per_m;
    points.InsertNextPoint(at.data());
    columns.add(member, station, turned(station.rotation, offset, large),
                surface_stress(member.shape, p, station.forces));
  }
  return static_cast<vtkIdType>(ring.size());
}

/// Quads between two rings of `n` points, the second right after the first; normals point outward.
void join_rings(vtkUnstructuredGrid& grid, vtkIdType first, vtkIdType n) {
  for (vtkIdType k = 0; k < n; ++k) {
    const vtkIdType a = first + k, b = first + (k + 1) % n;
    const vtkIdType quad[4] = {a, b, b + n, a + n};
    grid.InsertNextCell(VTK_QUAD, 4, quad);
  }
}

}  // namespace

std::string tube_skin_file(const CaseDrawing& drawing, double warp_scale) {
  vtkNew<vtkPoints> points;
  points->SetDataTypeToDouble();
  vtkNew<vtkUnstructuredGrid> grid;
  SkinColumns columns;
  std::vector<int> member_of, section_of;
  for (const MemberDrawing& member : drawing.members) {
    if (member.section < 0) continue;
    for (std::size_t i = 0; i < member.stations.size(); ++i) {
      const vtkIdType n = add_ring(*points, columns, member, member.stations[i], drawing.large);
      if (i == 0) continue;
      join_rings(*grid, points->GetNumberOfPoints() - 2 * n, n);
      member_of.insert(member_of.end(), n, member.member);
      section_of.insert(section_of.end(), n, member.section);
    }
  }
  grid->SetPoints(points);
  columns.store(*grid->GetPointData());
  grid->GetPointData()->SetActiveVectors("displacement");
  grid->GetPointData()->SetActiveScalars("von_mises");
  add_integers(*grid->GetCellData(), "member", member_of);
  add_integers(*grid->GetCellData(), "section", section_of);
  add_character_codes(*grid->GetFieldData(), "case_name_utf8", drawing.name);
  add_column(*grid->GetFieldData(), {"TimeValue", "1", 1, {static_cast<double>(drawing.step)}});
  add_column(*grid->GetFieldData(), {"warp_scale_suggested", "1", 1, {warp_scale}});
  vtkNew<vtkXMLUnstructuredGridWriter> writer;
  return xml_bytes(*writer, *grid);
}

}  // namespace tubewright
