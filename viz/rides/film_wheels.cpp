#include "viz/rides/film_wheels.h"

#include <vtkCellArray.h>
#include <vtkCellData.h>
#include <vtkNew.h>
#include <vtkPointData.h>
#include <vtkPoints.h>
#include <vtkPolyData.h>
#include <vtkXMLPolyDataWriter.h>

#include <cmath>
#include <numbers>

#include "io/text/workshop_units.h"
#include "viz/files/vtk_arrays.h"

namespace tubewright {

namespace {

using Places = std::vector<Eigen::Vector3d>;

/// The wheel as it lies in the frame file, upright and straight ahead; closed.
Places circle(const Wheel& wheel) {
  constexpr int sides = 48;
  Places places;
  for (int k = 0; k <= sides; ++k) {
    const double angle = 2 * std::numbers::pi * (k % sides) / sides;
    places.push_back(wheel.centre +
                     wheel_radius(wheel) * Eigen::Vector3d(std::sin(angle), 0, -std::cos(angle)));
  }
  return places;
}

Places road_below(const Wheel& wheel) {
  const Eigen::Vector3d ahead = wheel_radius(wheel) * Eigen::Vector3d::UnitX();
  return {wheel.contact - ahead, wheel.contact + ahead};
}

}  // namespace

std::string film_wheels_file(const Vehicle& vehicle, const FilmImage& image, double time,
                             double warp_scale) {
  vtkNew<vtkPoints> points;
  points->SetDataTypeToDouble();
  vtkNew<vtkCellArray> lines;
  Column displacement{"displacement", "mm", 3, {}};
  Column force{"tyre_force", "N", 1, {}}, deflection{"tyre_deflection", "mm", 1, {}};
  std::vector<int> wheel_of, is_road;
  for (size_t w = 0; w < vehicle.wheels.size(); ++w) {
    const Wheel& wheel = vehicle.wheels[w];
    const FilmWheel& now = image.wheels[w];
    for (const bool road : {false, true}) {
      const Places places = road ? road_below(wheel) : circle(wheel);
      lines->InsertNextCell(static_cast<int>(places.size()));
      for (const Eigen::Vector3d& place : places) {
        const Eigen::Vector3d at = place * mm_per_m;
        lines->InsertCellPoint(points->InsertNextPoint(at.data()));
        append(displacement,
               mm_per_m * (road ? Eigen::Vector3d(0, 0, now.road) : now.displacement));
      }
      wheel_of.push_back(static_cast<int>(w));
      is_road.push_back(road ? 1 : 0);
      append(force, now.force);
      append(deflection, now.squeezed * mm_per_m);
    }
  }
  vtkNew<vtkPolyData> data;
  data->SetPoints(points);
  data->SetLines(lines);
  add_column(*data->GetPointData(), displacement);
  data->GetPointData()->SetActiveVectors("displacement");
  add_column(*data->GetCellData(), force);
  add_column(*data->GetCellData(), deflection);
  data->GetCellData()->SetActiveScalars("tyre_force");
  add_integers(*data->GetCellData(), "wheel", wheel_of);
  add_integers(*data->GetCellData(), "road", is_road);
  vtkFieldData& about = *data->GetFieldData();
  add_strings(about, "wheel_names", names_of(vehicle.wheels));
  add_strings(about, "units", {"mm, N"});
  add_column(about, {"TimeValue", "s", 1, {time}});
  add_column(about, {"warp_scale_suggested", "1", 1, {warp_scale}});
  vtkNew<vtkXMLPolyDataWriter> writer;
  return xml_bytes(*writer, *data);
}

}  // namespace tubewright
