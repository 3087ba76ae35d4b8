#include "viz/draw/scene.h"

#include <vtkAxesActor.h>
#include <vtkCamera.h>
#include <vtkCaptionActor2D.h>
#include <vtkCellData.h>
#include <vtkDoubleArray.h>
#include <vtkPointData.h>
#include <vtkPoints.h>
#include <vtkProperty.h>
#include <vtkSphereSource.h>
#include <vtkTextProperty.h>
#include <vtkWarpVector.h>

#include <Eigen/Core>
#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>
#include <cstdio>

#include "io/text/utf8.h"

namespace tubewright {

namespace {

constexpr double ink[3] = {0.13, 0.13, 0.15};
constexpr double pale_ink[3] = {0.45, 0.45, 0.48};
constexpr double steel[3] = {0.5, 0.52, 0.55};  ///< of what is not painted

/// From where it is seen, vehicle axes: the front left, from above.
const Eigen::Vector3d eye = Eigen::Vector3d(0.72, 0.55, 0.42).normalized();

/// Shares of the window that the frame may fill; the rest is title, legend and small print.
constexpr double left = 0.04, right = 0.84, bottom = 0.08, top = 0.84;

template <class Data>
vtkSmartPointer<vtkPointSet> deformed(Data& data, double warp) {
  data.GetPointData()->SetActiveVectors("displacement");
  vtkNew<vtkWarpVector> filter;
  filter->SetInputData(&data);
  filter->SetScaleFactor(warp);
  filter->Update();
  return vtkPointSet::SafeDownCast(filter->GetOutput());
}

void put_text(vtkTextActor& actor, double x, double y, const double colour[3]) {
  actor.GetPositionCoordinate()->SetCoordinateSystemToNormalizedViewport();
  actor.SetPosition(x, y);
  actor.GetTextProperty()->SetFontFamilyToArial();
  actor.GetTextProperty()->SetColor(colour[0], colour[1], colour[2]);
}

/// At most `most` characters of UTF-8 text, the last of them an ellipsis where there were more.
std::string shortened(const std::string& text, int most) {
  int count = 0;
  std::size_t end = text.size();  // after the last character that fits with an ellipsis
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (is_continuation(text[i])) continue;
    if (count == most - 1) end = i;
    if (++count > most) return text.substr(0, end) + "\u2026";
  }
  return text;
}

vtkSmartPointer<vtkAxesActor> compass_axes() {
  auto axes = vtkSmartPointer<vtkAxesActor>::New();
  axes->SetXAxisLabelText("forward");
  axes->SetYAxisLabelText("left");
  axes->SetZAxisLabelText("up");
  axes->SetShaftTypeToCylinder();
  axes->SetCylinderRadius(0.025);
  axes->SetConeRadius(0.2);
  axes->SetTotalLength(0.8, 0.8, 0.8);
  axes->SetNormalizedLabelPosition(1.55, 1.35, 1.2);
  for (vtkCaptionActor2D* caption : {axes->GetXAxisCaptionActor2D(), axes->GetYAxisCaptionActor2D(),
                                     axes->GetZAxisCaptionActor2D()}) {
    caption->GetTextActor()->SetTextScaleModeToNone();
    vtkTextProperty& property = *caption->GetCaptionTextProperty();
    property.SetColor(pale_ink);
    property.ItalicOff();
    property.BoldOff();
    property.ShadowOff();
  }
  for (vtkProperty* property :
       {axes->GetXAxisShaftProperty(), axes->GetYAxisShaftProperty(), axes->GetZAxisShaftProperty(),
        axes->GetXAxisTipProperty(), axes->GetYAxisTipProperty(), axes->GetZAxisTipProperty()}) {
    property->SetColor(pale_ink[0], pale_ink[1], pale_ink[2]);
  }
  // Forward points to the lower left as first seen: its word ends at the arrow.
  axes->GetXAxisCaptionActor2D()->GetCaptionTextProperty()->SetJustificationToRight();
  return axes;
}

}  // namespace

std::string warp_in_words(double warp) {
  if (warp == 0) return "not drawn";
  if (warp == 1) return "drawn to scale";
  char text[40];
  std::snprintf(text, sizeof text, "drawn \u00d7 %.4g", warp);
  return text;
}

Scene::Scene(std::vector<DrawnCase> cases) : cases_(std::move(cases)) {
  frame_->SetBackground(1, 1, 1);
  labels_->SetActiveCamera(frame_->GetActiveCamera());
  compass_->SetViewport(0.85, 0.02, 0.99, 0.24);
  compass_->AddActor(compass_axes());
  for (vtkRenderer* above : {labels_.Get(), compass_.Get()}) {
    above->SetLayer(1);
    above->InteractiveOff();
  }
  put_frame();
  put_legend();
  put_words();
  put_mark();
}

void Scene::put_frame() {
  skin_->SetMapper(skin_mapper_);
  skin_->GetProperty()->SetInterpolationToFlat();
  skin_->GetProperty()->SetAmbient(0.35);  // so that a colour is read the same on every face
  skin_->GetProperty()->SetDiffuse(0.7);
  line_mapper_->ScalarVisibilityOff();
  lines_->SetMapper(line_mapper_);
  lines_->GetProperty()->SetColor(0.62, 0.62, 0.65);
  lines_->GetProperty()->SetLineWidth(1.5F);
  panel_mapper_->ScalarVisibilityOff();
  panels_->SetMapper(panel_mapper_);
  panels_->GetProperty()->SetColor(0.55, 0.6, 0.65);
  panels_->GetProperty()->SetOpacity(0.28);
  panels_->GetProperty()->LightingOff();
  attachment_mapper_->ScalarVisibilityOff();
  attachments_->SetMapper(attachment_mapper_);
  attachments_->GetProperty()->SetInterpolationToFlat();
  attachments_->GetProperty()->SetAmbient(0.35);
  attachments_->GetProperty()->SetDiffuse(0.7);
  attachments_->GetProperty()->SetColor(steel[0], steel[1], steel[2]);
  for (vtkActor* actor : {skin_.Get(), lines_.Get(), panels_.Get(), attachments_.Get()})
    frame_->AddActor(actor);
}

void Scene::put_legend() {
  legend_->SetOrientationToVertical();
  legend_->SetUseCustomLabels(true);
  legend_->GetPositionCoordinate()->SetCoordinateSystemToNormalizedViewport();
  legend_->SetPosition(0.885, 0.3);
  legend_->SetWidth(0.09);
  legend_->SetHeight(0.5);
  legend_->SetBarRatio(0.22);
  legend_->UnconstrainedFontSizeOn();
  legend_->SetLabelFormat("%g");
  legend_->SetVerticalTitleSeparation(12);
  for (vtkTextProperty* property :
       {legend_->GetTitleTextProperty(), legend_->GetLabelTextProperty()}) {
    property->SetColor(ink[0], ink[1], ink[2]);
    property->ItalicOff();
    property->BoldOff();
    property->ShadowOff();
  }
  frame_->AddActor2D(legend_);
}

void Scene::put_words() {
  put_text(*title_, 0.03, 0.935, ink);
  title_->GetTextProperty()->BoldOn();
  put_text(*subtitle_, 0.03, 0.89, ink);
  put_text(*print_, 0.03, 0.03, pale_ink);
  for (vtkTextActor* actor : {title_.Get(), subtitle_.Get(), print_.Get()})
    frame_->AddActor2D(actor);
}

void Scene::put_mark() {
  vtkTextProperty& text = *worst_label_->GetTextProperty();
  text.SetFontFamilyToArial();
  text.SetColor(ink[0], ink[1], ink[2]);
  text.SetBackgroundColor(1, 1, 1);
  text.SetBackgroundOpacity(0.85);
  text.FrameOn();
  text.SetFrameColor(ink[0], ink[1], ink[2]);
  worst_mark_->GetProperty()->SetRepresentationToWireframe();
  worst_mark_->GetProperty()->SetColor(ink[0], ink[1], ink[2]);
  worst_mark_->GetProperty()->LightingOff();
  labels_->AddActor(worst_label_);
  labels_->AddActor(worst_mark_);
}

void Scene::place_in(vtkRenderWindow& window, int width, int height) {
  window.SetSize(width, height);
  window.SetNumberOfLayers(2);
  for (vtkRenderer* renderer : {frame_.Get(), labels_.Get(), compass_.Get()})
    window.AddRenderer(renderer);
  set_font_sizes(height);
  look_from_front_left();
}

void Scene::set_font_sizes(int height) {
  const auto points = [height](double share) { return static_cast<int>(share * height); };
  title_->GetTextProperty()->SetFontSize(points(0.032));
  subtitle_->GetTextProperty()->SetFontSize(points(0.024));
  print_->GetTextProperty()->SetFontSize(points(0.0175));
  worst_label_->GetTextProperty()->SetFontSize(points(0.02));
  worst_label_->SetDisplayOffset(points(0.025), points(0.025));
  legend_->GetLabelTextProperty()->SetFontSize(points(0.02));
  legend_->GetTitleTextProperty()->SetFontSize(points(0.018));
}

/// Parallel projection, so that equal lengths look equal; the greatest extent of all cases as seen
/// fills the place between title, legend and small print.
void Scene::look_from_front_left() {
  const int* window = frame_->GetRenderWindow()->GetSize();
  const double aspect = static_cast<double>(window[0]) / std::max(window[1], 1);
  const Eigen::Vector3d across = Eigen::Vector3d::UnitZ().cross(eye).normalized();
  const Eigen::Vector3d upward = eye.cross(across);
  Eigen::AlignedBox3d seen;  // across, upward, toward the eye
  const auto include = [&](vtkPointSet& points) {
    for (vtkIdType i = 0; i < points.GetNumberOfPoints(); ++i) {
      const Eigen::Vector3d p(points.GetPoint(i));
      seen.extend(Eigen::Vector3d(p.dot(across), p.dot(upward), p.dot(eye)));
    }
  };
  for (const DrawnCase& drawn : cases_) {
    include(*deformed(*drawn.tubes, drawn.warp_scale));
    include(*deformed(*drawn.skin, drawn.warp_scale));
    if (drawn.attachments != nullptr) include(*deformed(*drawn.attachments, drawn.warp_scale));
  }
  if (seen.isEmpty()) seen.extend(Eigen::Vector3d::Zero());
  const Eigen::Vector3d size = seen.sizes();
  // Height of the whole window in model units, from the share of it that the frame may fill.
  const double height =
      std::max({size.y() / (top - bottom), size.x() / (right - left) / aspect, 1e-3});
  const double x = seen.center().x() + (0.5 - (left + right) / 2) * height * aspect;
  const double y = seen.center().y() + (0.5 - (bottom + top) / 2) * height;
  const Eigen::Vector3d focus = x * across + y * upward + seen.center().z() * eye;
  const double distance = size.norm() + height;
  const Eigen::Vector3d from = focus + distance * eye;
  vtkCamera& camera = *frame_->GetActiveCamera();
  camera.ParallelProjectionOn();
  camera.SetFocalPoint(focus.data());
  camera.SetPosition(from.data());
  camera.SetViewUp(0, 0, 1);
  camera.SetParallelScale(height / 2);
  vtkCamera& pointer = *compass_->GetActiveCamera();
  pointer.ParallelProjectionOn();
  pointer.SetFocalPoint(0.3, 0.3, 0.35);
  const Eigen::Vector3d aside = Eigen::Vector3d(0.3, 0.3, 0.35) + 10 * eye;
  pointer.SetPosition(aside.data());
  pointer.SetViewUp(0, 0, 1);
  pointer.SetParallelScale(1.35);
  pointer.SetClippingRange(1, 30);
}

void Scene::show(const View& view) {
  const DrawnCase& drawn = cases_.at(view.number);
  const Quantity& quantity = quantities.at(view.quantity);
  const WorstPlace worst = worst_place(drawn, quantity);
  const Scale scale = round_scale(std::abs(worst.value), quantity.has_sign);

  const auto skin = deformed(*drawn.skin, view.warp);
  skin_mapper_->SetInputDataObject(skin);
  skin_mapper_->SetScalarModeToUsePointFieldData();
  skin_mapper_->SelectColorArray(quantity.array);
  const auto table = colours(quantity, scale);
  skin_mapper_->SetLookupTable(table);
  skin_mapper_->SetScalarRange(scale.low(), scale.high());
  skin_mapper_->InterpolateScalarsBeforeMappingOn();

  vtkNew<vtkPolyData> undeformed;
  undeformed->ShallowCopy(drawn.tubes);
  line_mapper_->SetInputData(undeformed);
  panels_->SetVisibility(drawn.panels != nullptr);
  if (drawn.panels != nullptr)
    panel_mapper_->SetInputDataObject(deformed(*drawn.panels, view.warp));
  attachments_->SetVisibility(drawn.attachments != nullptr);
  if (drawn.attachments != nullptr)
    attachment_mapper_->SetInputDataObject(deformed(*drawn.attachments, view.warp));

  legend_->SetLookupTable(table);
  legend_->SetTitle(quantity.unit[0] == '\0' ? "of limit" : quantity.unit);
  vtkNew<vtkDoubleArray> labels;
  for (const double tick : scale.ticks) labels->InsertNextValue(tick);
  legend_->SetCustomLabels(labels);

  title_->SetInput((shortened(drawn.frame, 40) + ": " + shortened(drawn.name, 30)).c_str());
  subtitle_->SetInput((std::string(quantity.title) + (quantity.unit[0] == '\0' ? "" : ", ") +
                       quantity.unit + "; deflection " + warp_in_words(view.warp))
                          .c_str());
  mark(worst, quantity, *skin);
  frame_->ResetCameraClippingRange();
}

void Scene::mark(const WorstPlace& worst, const Quantity& quantity, vtkPointSet& skin) {
  const bool marked = worst.point >= 0 && worst.value != 0;
  worst_label_->SetVisibility(marked);
  worst_mark_->SetVisibility(marked);
  if (!marked) return;
  double at[3];
  skin.GetPoint(worst.point, at);
  worst_label_->SetInput((with_unit(worst.value, quantity) + "  " + worst.member).c_str());
  worst_label_->SetPosition(at);
  vtkNew<vtkSphereSource> ball;
  ball->SetCenter(at);
  ball->SetRadius(0.006 * frame_->GetActiveCamera()->GetParallelScale() * 2);
  ball->SetThetaResolution(12);
  ball->SetPhiResolution(6);
  ball->Update();
  vtkNew<vtkPolyDataMapper> mapper;
  mapper->SetInputData(ball->GetOutput());
  worst_mark_->SetMapper(mapper);
}

std::string Scene::numbers_at(std::size_t number, vtkIdType cell, vtkIdType point) const {
  const DrawnCase& drawn = cases_.at(number);
  vtkDataArray* members = drawn.skin->GetCellData()->GetArray("member");
  if (members == nullptr || cell < 0 || cell >= members->GetNumberOfTuples()) return "";
  const auto member = static_cast<std::size_t>(members->GetTuple1(cell));
  std::string words = member < drawn.member_names.size() ? drawn.member_names[member] : "";
  const char* separator = " here: ";
  for (const Quantity& quantity : quantities) {
    vtkDataArray* values = drawn.skin->GetPointData()->GetArray(quantity.array);
    if (values == nullptr || point < 0 || point >= values->GetNumberOfTuples()) continue;
    words += separator + with_unit(values->GetTuple1(point), quantity) + " " + quantity.title;
    separator = ";  ";
  }
  return words;
}

void Scene::say(const std::string& words) { print_->SetInput(words.c_str()); }

}  // namespace tubewright
