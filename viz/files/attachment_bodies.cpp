#include "viz/files/attachment_bodies.h"

#include <vtkCellArray.h>
#include <vtkCellData.h>
#include <vtkDataArray.h>
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
  void add_faces(const DrawnBody& body, const std::string& name) {
    const vtkIdType first =
        points->GetNumberOfPoints() - static_cast<vtkIdType>(body.points.size());
    for (const std::vector<int>& face : body.faces) {
      faces->InsertNextCell(static_cast<int>(face.size()));
      for (const int corner : face) faces->InsertCellPoint(first + corner);
      number.push_back(static_cast<int>(names.size()));
    }
    names.push_back(name);
  }
};

/// A node as what moves with it sees it.
Station node_station(const Frame& frame, const std::string& name,
                     const std::vector<Eigen::Vector3d>& nodes,
                     const Eigen::VectorXd& displacements) {
  const auto found = std::find_if(frame.nodes.begin(), frame.nodes.end(),
                                  [&](const Node& node) { return node.name == name; });
  const auto number = found - frame.nodes.begin();
  Station station;
  station.point = nodes[static_cast<std::size_t>(number)];
  station.displacement = displacements.segment<3>(dofs_per_node * number);
  station.rotation = displacements.segment<3>(dofs_per_node * number + 3);
  return station;
}

FittedMotion motion_in(const Analysis& analysis, const CaseResult& result,
                       const CaseDrawing& drawing) {
  FittedMotion motion;
  motion.large = drawing.large;
  for (const ArmDrawing& arm : drawing.arms) motion.arms.push_back(arm.stations);
  for (const Gusset& gusset : analysis.frame.gussets) {
    motion.corners.push_back(gusset_corners(analysis.frame, gusset, analysis.model.nodes,
                                            result.solution.displacements));
  }
  return motion;
}

/// One value a face.
Column utilisations(vtkPolyData& bodies, const CaseResult& result) {
  Column used{"utilisation", "1", 1, {}};
  vtkDataArray& number = *bodies.GetCellData()->GetArray("attachment");
  for (vtkIdType face = 0; face < number.GetNumberOfTuples(); ++face) {
    const auto i = static_cast<std::size_t>(number.GetTuple1(face));
    const std::size_t before = result.attachments.size();
    const NamedCheck* nearest = i < before ? nearest_limit(result.attachments[i].checks)
                                           : nearest_limit(result.gussets[i - before].checks);
    append(used, nearest == nullptr ? 0 : *nearest->result.utilisation);
  }
  return used;
}

}  // namespace

std::array<Station, 3> gusset_corners(const Frame& frame, const Gusset& gusset,
                                      const std::vector<Eigen::Vector3d>& nodes,
                                      const Eigen::VectorXd& displacements) {
  return {node_station(frame, gusset.node, nodes, displacements),
          node_station(frame, gusset.legs[0].axis_node, nodes, displacements),
          node_station(frame, gusset.legs[1].axis_node, nodes, displacements)};
}

void add_bodies(vtkPolyData& data, const Frame& frame, const FittedMotion& motion) {
  BodyColumns columns;
  for (std::size_t i = 0; i < motion.arms.size(); ++i) {
    const std::vector<Station>& arm = motion.arms[i];
    const DrawnBody body =
        attachment_body(frame, frame.attachments[i], arm.front().point, arm.back().point);
    for (const Eigen::Vector3d& p : body.points) columns.add_point(p, beside(arm, p), motion.large);
    columns.add_faces(body, frame.attachments[i].name);
  }
  for (std::size_t i = 0; i < motion.corners.size(); ++i) {
    const std::array<Station, 3>& nodes = motion.corners[i];
    const DrawnBody body = gusset_body(frame, frame.gussets[i]);
    for (std::size_t k = 0; k < body.points.size(); ++k)
      columns.add_point(nodes[0].point + body.points[k], nodes[k % 3], motion.large);
    columns.add_faces(body, frame.gussets[i].name);
  }
  data.SetPoints(columns.points);
  data.SetPolys(columns.faces);
  add_column(*data.GetPointData(), columns.displacement);
  add_column(*data.GetPointData(), columns.rotation);
  data.GetPointData()->SetActiveVectors("displacement");
  add_integers(*data.GetCellData(), "attachment", columns.number);
  add_strings(*data.GetFieldData(), "attachment_names", columns.names);
}

std::string attachment_bodies_file(const Analysis& analysis, const CaseResult& result,
                                   const CaseDrawing& drawing, double warp_scale) {
  vtkNew<vtkPolyData> data;
  add_bodies(*data, analysis.frame, motion_in(analysis, result, drawing));
  add_column(*data->GetCellData(), utilisations(*data, result));
  vtkFieldData& about = *data->GetFieldData();
  add_strings(about, "case_name", {result.name});
  add_strings(about, "frame", {analysis.frame.title});
  add_strings(about, "units", {"mm, rad"});
  add_column(about, {"TimeValue", "1", 1, {static_cast<double>(drawing.step)}});
  add_column(about, {"warp_scale_suggested", "1", 1, {warp_scale}});
  vtkNew<vtkXMLPolyDataWriter> writer;
  return xml_bytes(*writer, *data);
}

}  // namespace tubewright
