#include "viz/files/attachment_bodies.h"

#include <vtkCellArray.h>
#include <vtkCellData.h>
#include <vtkNew.h>
#include <vtkPointData.h>
#include <vtkPoints.h>
#include <vtkPolyData.h>
#include <vtkXMLPolyDataWriter.h>

#include <algorithm>

#include "io/text/workshop_units.h"
#include "viz/files/attachment_shape.h"
#include "viz/files/vtk_arrays.h"

namespace tubewright {

namespace {

/// The cross-section of the arm that a point moves with: beside it, or the nearer end.
Station beside(const std::vector<Station>& arm, const Eigen::Vector3d& point) {
  const Eigen::Vector3d axis = arm.back().point - arm.front().point;
  const double s = std::clamp((point - arm.front().point).dot(axis) / axis.squaredNorm(), 0.0, 1.0);
  const auto next = std::find_if(arm.begin() + 1, arm.end() - 1,
                                 [s](const Station& station) { return station.at >= s; });
  const Station &a = *(next - 1), &b = *next;
  const double share = (s - a.at) / (b.at - a.at);
  Station between = a;
  between.at = s;
  between.point = a.point + share * (b.point - a.point);
  between.displacement = a.displacement + share * (b.displacement - a.displacement);
  between.rotation = a.rotation + share * (b.rotation - a.rotation);
  return between;
}

}  // namespace

std::string attachment_bodies_file(const Analysis& analysis, const CaseResult& result,
                                   const CaseDrawing& drawing, double warp_scale) {
  vtkNew<vtkPoints> points;
  points->SetDataTypeToDouble();
  vtkNew<vtkCellArray> faces;
  Column displacement{"displacement", "mm", 3, {}};
  Column rotation{"rotation", "rad", 3, {}};
  Column used{"utilisation", "1", 1, {}};
  std::vector<int> number;
  for (const ArmDrawing& arm : drawing.arms) {
    const auto which = static_cast<std::size_t>(arm.attachment);
    const DrawnBody body = attachment_body(analysis.frame, analysis.frame.attachments[which],
                                           arm.stations.front().point, arm.stations.back().point);
    const vtkIdType first = points->GetNumberOfPoints();
    for (const Eigen::Vector3d& p : body.points) {
      const Eigen::Vector3d at = p * mm_per_m;
      points->InsertNextPoint(at.data());
      const Station station = beside(arm.stations, p);
      append(displacement,
             (station.displacement + turned(station.rotation, p - station.point, drawing.large)) *
                 mm_per_m);
      append(rotation, station.rotation);
    }
    const NamedCheck* nearest = nearest_limit(result.attachments[which]);
    for (const std::vector<int>& face : body.faces) {
      faces->InsertNextCell(static_cast<int>(face.size()));
      for (const int corner : face) faces->InsertCellPoint(first + corner);
      number.push_back(arm.attachment);
      append(used, nearest == nullptr ? 0 : *nearest->result.utilisation);
    }
  }
  vtkNew<vtkPolyData> data;
  data->SetPoints(points);
  data->SetPolys(faces);
  add_column(*data->GetPointData(), displacement);
  add_column(*data->GetPointData(), rotation);
  data->GetPointData()->SetActiveVectors("displacement");
  add_column(*data->GetCellData(), used);
  add_integers(*data->GetCellData(), "attachment", number);
  vtkFieldData& about = *data->GetFieldData();
  add_strings(about, "case_name", {result.name});
  add_strings(about, "frame", {analysis.frame.title});
  add_strings(about, "attachment_names", names_of(analysis.frame.attachments));
  add_strings(about, "units", {"mm, rad"});
  add_column(about, {"TimeValue", "1", 1, {static_cast<double>(drawing.step)}});
  add_column(about, {"warp_scale_suggested", "1", 1, {warp_scale}});
  vtkNew<vtkXMLPolyDataWriter> writer;
  return xml_bytes(*writer, *data);
}

}  // namespace tubewright
