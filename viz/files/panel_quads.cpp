#include "viz/files/panel_quads.h"

#include <vtkCellArray.h>
#include <vtkCellData.h>
#include <vtkNew.h>
#include <vtkPointData.h>
#include <vtkPoints.h>
#include <vtkPolyData.h>
#include <vtkXMLPolyDataWriter.h>

#include <Eigen/Geometry>

#include "io/text/workshop_units.h"
#include "solver/elements/shear_panel.h"
#include "viz/files/vtk_arrays.h"

namespace tubewright {

std::string panel_quads_file(const Analysis& analysis, const CaseResult& result, int step,
                             double warp_scale) {
  vtkNew<vtkPoints> points;
  points->SetDataTypeToDouble();
  vtkNew<vtkCellArray> quads;
  Column displacement{"displacement", "mm", 3, {}};
  Column rotation{"rotation", "rad", 3, {}};
  Column flow{"shear_flow", "N/mm", 1, {}};
  Column stress{"shear_stress", "MPa", 1, {}};
  Column critical{"critical_stress", "MPa", 1, {}};
  Column kept{"stiffness_kept", "1", 1, {}};
  Column rivet{"rivet_load", "N", 1, {}};
  Column used{"utilisation", "1", 1, {}};
  std::vector<int> number;
  std::vector<std::string> names;
  for (std::size_t p = 0; p < result.panels.size(); ++p) {
    const Panel& panel = analysis.model.panels[p];
    const PanelResult& r = result.panels[p];
    const Eigen::Vector3d arm = panel.offset * panel_geometry(analysis.model, panel).normal;
    quads->InsertNextCell(4);
    for (const int node : panel.corners) {
      const auto u = result.solution.displacements.segment<6>(6 * node);
      const Eigen::Vector3d turn = u.tail<3>();
      const Eigen::Vector3d at =
          (analysis.model.nodes[static_cast<std::size_t>(node)] + arm) * mm_per_m;
      quads->InsertCellPoint(points->InsertNextPoint(at.data()));
      append(displacement, (u.head<3>() + turn.cross(arm)) * mm_per_m);
      append(rotation, turn);
    }
    append(flow, r.flow * N_mm_per_N_m);
    append(stress, r.shear_stress * MPa_per_Pa);
    append(critical, r.critical_stress * MPa_per_Pa);
    append(kept, r.stage.secant_ratio);
    append(rivet, r.rivet_load.value_or(0));
    const NamedCheck* nearest = nearest_limit(r.checks);
    append(used, nearest == nullptr ? 0 : *nearest->result.utilisation);
    number.push_back(static_cast<int>(p));
    names.push_back(analysis.frame.panels[p].name);
  }
  vtkNew<vtkPolyData> data;
  data->SetPoints(points);
  data->SetPolys(quads);
  add_column(*data->GetPointData(), displacement);
  add_column(*data->GetPointData(), rotation);
  data->GetPointData()->SetActiveVectors("displacement");
  for (const Column* column : {&flow, &stress, &critical, &kept, &rivet, &used}) {
    add_column(*data->GetCellData(), *column);
  }
  add_integers(*data->GetCellData(), "panel", number);
  data->GetCellData()->SetActiveScalars("shear_flow");
  vtkFieldData& about = *data->GetFieldData();
  add_strings(about, "case_name", {result.name});
  add_strings(about, "frame", {analysis.frame.title});
  add_strings(about, "panel_names", names);
  add_strings(about, "units", {"mm, N, N/mm, MPa, rad"});
  add_column(about, {"TimeValue", "1", 1, {static_cast<double>(step)}});
  add_column(about, {"warp_scale_suggested", "1", 1, {warp_scale}});
  vtkNew<vtkXMLPolyDataWriter> writer;
  return xml_bytes(*writer, *data);
}

}  // namespace tubewright
