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

/// What is written, body by body.
struct BodyColumns {
  vtkNew<vtkPoints> points;
  vtkNew<vtkCellArray> faces;
  Column displacement{"displacement", "mm", 3, {}};
  Column rotation{"rotation", "rad", 3, {}};
  Column used{"utilisation", "1", 1, {}};
  std::vector<int> number;
  std::vector<std::string> names;

  BodyColumns() { points->SetDataTypeToDouble(); }

  void add_point(const Eigen::Vector3d& p, const Station& moves_with, bool large) {
    const Eigen::Vector3d at = p * mm_per_m;
    points->InsertNextPoint(at.data());
    const Eigen::Vector3d moved =
        moves_with.displacement + turned(moves_with.rotation, p - moves_with.point, large);
    append(displacement, moved * mm_per_m);
    append(rotation, moves_with.rotation);
  }

  /// Of the body whose points were added last.
  void add_faces(const DrawnBody& body, const std::string& name, const NamedCheck* nearest) {
    const vtkIdType first =
        points->GetNumberOfPoints() - static_cast<vtkIdType>(body.points.size());
    for (const std::vector<int>& face : body.faces) {
      faces->InsertNextCell(static_cast<int>(face.size()));
      for (const int corner : face) faces->InsertCellPoint(first + corner);
      number.push_back(static_cast<int>(names.size()));
      append(used, nearest == nullptr ? 0 : *nearest->result.utilisation);
    }
    names.push_back(name);
  }
};

/// A node as what moves with it sees it.
Station node_station(const Analysis& analysis, const CaseResult& result, const std::string& name) {
  const auto& nodes = analysis.frame.nodes;
  const auto found =
      std::find_if(nodes.begin(), nodes.end(), [&](const Node& node) { return node.name == name; });
  const auto number = found - nodes.begin();
  Station station;
  station.point = analysis.model.nodes[static_cast<std::size_t>(number)];
  station.displacement = result.solution.displacements.segment<3>(dofs_per_node * number);
  station.rotation = result.solution.displacements.segment<3>(dofs_per_node * number + 3);
  return station;
}

}  // namespace

std::string attachment_bodies_file(const Analysis& analysis, const CaseResult& result,
                                   const CaseDrawing& drawing, double warp_scale) {
  BodyColumns columns;
  for (const ArmDrawing& arm : drawing.arms) {
    const auto which = static_cast<std::size_t>(arm.attachment);
    const Attachment& attachment = analysis.frame.attachments[which];
    const DrawnBody body = attachment_body(analysis.frame, attachment, arm.stations.front().point,
                                           arm.stations.back().point);
    for (const Eigen::Vector3d& p : body.points)
      columns.add_point(p, beside(arm.stations, p), drawing.large);
    columns.add_faces(body, attachment.name, nearest_limit(result.attachments[which].checks));
  }
  for (std::size_t i = 0; i < analysis.frame.gussets.size(); ++i) {
    const Gusset& gusset = analysis.frame.gussets[i];
    const DrawnBody body = gusset_body(analysis.frame, gusset);
    const Station nodes[] = {node_station(analysis, result, gusset.node),
                             node_station(analysis, result, gusset.legs[0].axis_node),
                             node_station(analysis, result, gusset.legs[1].axis_node)};
    for (std::size_t k = 0; k < body.points.size(); ++k)
      columns.add_point(nodes[0].point + body.points[k], nodes[k % 3], drawing.large);
    columns.add_faces(body, gusset.name, nearest_limit(result.gussets[i].checks));
  }
  vtkNew<vtkPolyData> data;
  data->SetPoints(columns.points);
  data->SetPolys(columns.faces);
  add_column(*data->GetPointData(), columns.displacement);
  add_column(*data->GetPointData(), columns.rotation);
  data->GetPointData()->SetActiveVectors("displacement");
  add_column(*data->GetCellData(), columns.used);
  add_integers(*data->GetCellData(), "attachment", columns.number);
  vtkFieldData& about = *data->GetFieldData();
  add_strings(about, "case_name", {result.name});
  add_strings(about, "frame", {analysis.frame.title});
  add_strings(about, "attachment_names", columns.names);
  add_strings(about, "units", {"mm, rad"});
  add_column(about, {"TimeValue", "1", 1, {static_cast<double>(drawing.step)}});
  add_column(about, {"warp_scale_suggested", "1", 1, {warp_scale}});
  vtkNew<vtkXMLPolyDataWriter> writer;
  return xml_bytes(*writer, *data);
}

}  // namespace tubewright
