#include "viz/files/tube_lines.h"

#include <vtkCellArray.h>
#include <vtkCellData.h>
#include <vtkNew.h>
#include <vtkPointData.h>
#include <vtkPoints.h>
#include <vtkPolyData.h>
#include <vtkXMLPolyDataWriter.h>

#include "io/text/workshop_units.h"
#include "viz/files/surface_stress.h"
#include "viz/files/vtk_arrays.h"

namespace tubewright {

namespace {

/// What holds at the points, in the order of the points.
struct LineColumns {
  Column displacement{"displacement", "mm", 3, {}};
  Column rotation{"rotation", "rad", 3, {}};
  Column axial_force{"axial_force", "N", 1, {}};
  Column shear_force{"shear_force", "N", 3, {}};
  Column bending_moment{"bending_moment", "N m", 3, {}};
  Column torsion{"torsion", "N m", 1, {}};
  Column von_mises{"von_mises", "MPa", 1, {}};
  Column stress_normal{"stress_normal", "MPa", 1, {}};
  Column utilisation{"utilisation", "1", 1, {}};

  void add(const MemberDrawing& member, const Station& station) {
    const SectionForces& f = station.forces;
    const Eigen::Matrix3d to_global = member.axes.transpose();
    append(displacement, station.displacement * mm_per_m);
    append(rotation, station.rotation);
    append(axial_force, f.N);
    append(shear_force, to_global * Eigen::Vector3d(0, f.Vy, f.Vz));
    append(bending_moment, to_global * Eigen::Vector3d(0, f.My, f.Mz));
    append(torsion, f.T);
    const bool stressed = member.section >= 0;
    const double worst = stressed ? worst_stress(member.shape, f).von_mises : 0;
    append(von_mises, worst * MPa_per_Pa);
    append(stress_normal, stressed ? greatest_normal_stress(member.shape, f) * MPa_per_Pa : 0);
    append(utilisation, worst * member.yield_share);
  }

  void store(vtkFieldData& data) const {
    for (const Column* column :
         {&displacement, &rotation, &axial_force, &shear_force, &bending_moment, &torsion,
          &von_mises, &stress_normal, &utilisation})
      add_column(data, *column);
  }
};

void add_description(vtkFieldData& data, const Frame& frame, const CaseDrawing& drawing,
                     double warp_scale) {
  add_strings(data, "case_name", {drawing.name});
  add_strings(data, "frame", {frame.title});
  add_strings(data, "member_names", names_of(frame.members));
  add_strings(data, "section_names", names_of(frame.sections));
  add_strings(data, "units", {"mm, N, N m, MPa, rad"});
  add_strings(
      data, "notes",
      {"utilisation: von Mises stress times the yield factor over the yield strength, 1 = at "
       "the limit; 0 where no check is possible (a spring, a yield strength not given)",
       "a spring has no section: its section is -1 and its stresses are 0"});
  const double step = drawing.step;
  add_column(data, {"TimeValue", drawing.time ? "s" : "1", 1, {drawing.time.value_or(step)}});
  add_column(data, {"warp_scale_suggested", "1", 1, {warp_scale}});
}

}  // namespace

std::string tube_lines_file(const Frame& frame, const CaseDrawing& drawing, double warp_scale) {
  vtkNew<vtkPoints> points;
  points->SetDataTypeToDouble();
  vtkNew<vtkCellArray> lines;
  LineColumns columns;
  std::vector<int> member_of, section_of;
  for (const MemberDrawing& member : drawing.members) {
    lines->InsertNextCell(static_cast<int>(member.stations.size()));
    for (const Station& station : member.stations) {
      const Eigen::Vector3d at = station.point * mm_per_m;
      lines->InsertCellPoint(points->InsertNextPoint(at.data()));
      columns.add(member, station);
    }
    member_of.push_back(member.member);
    section_of.push_back(member.section);
  }
  vtkNew<vtkPolyData> data;
  data->SetPoints(points);
  data->SetLines(lines);
  columns.store(*data->GetPointData());
  data->GetPointData()->SetActiveVectors("displacement");
  data->GetPointData()->SetActiveScalars("von_mises");
  add_integers(*data->GetCellData(), "member", member_of);
  add_integers(*data->GetCellData(), "section", section_of);
  add_description(*data->GetFieldData(), frame, drawing, warp_scale);
  vtkNew<vtkXMLPolyDataWriter> writer;
  return xml_bytes(*writer, *data);
}

}  // namespace tubewright
