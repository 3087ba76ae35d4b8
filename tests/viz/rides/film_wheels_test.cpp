#include "viz/rides/film_wheels.h"

#include <vtkCell.h>
#include <vtkCellData.h>
#include <vtkPointData.h>
#include <vtkPolyData.h>
#include <vtkXMLPolyDataReader.h>

#include "tests/catch.h"
#include "tests/viz/files/read_vtk.h"

namespace tubewright::film_wheels_test {

namespace {

Vehicle two_wheels() {
  Vehicle vehicle;
  for (const double y : {0.4, -0.4}) {
    Wheel wheel;
    wheel.name = y > 0 ? "left" : "right";
    wheel.contact = {0.7, y, 0};
    wheel.centre = {0.7, y, 0.25};
    vehicle.wheels.push_back(wheel);
  }
  return vehicle;
}

vtkSmartPointer<vtkPolyData> wheels() {
  FilmImage image;
  image.wheels = {{{0.001, 0, 0.03}, 900, 0.01, 0.04}, {{0, 0, -0.002}, 0, -0.005, 0}};
  return read_bytes<vtkXMLPolyDataReader, vtkPolyData>(
      film_wheels_file(two_wheels(), image, 0.625, 2));
}

}  // namespace

TEST_CASE("a wheel is a circle round its centre that touches the road where nothing moves") {
  const auto data = wheels();
  REQUIRE(data->GetNumberOfCells() == 4);
  for (const vtkIdType cell : {0, 2}) {
    const double y = cell == 0 ? 400 : -400;
    double lowest = 1;
    for (vtkIdType k = 0; k < data->GetCell(cell)->GetNumberOfPoints(); ++k) {
      const Eigen::Vector3d p = point_at(*data, data->GetCell(cell)->GetPointId(k));
      CHECK(std::abs((p - Eigen::Vector3d(700, y, 250)).norm() - 250) < 1e-9);
      lowest = std::min(lowest, p.z());
    }
    CHECK(std::abs(lowest) < 1e-9);
    for (const vtkIdType k : {0, 1}) {
      CHECK(point_at(*data, data->GetCell(cell + 1)->GetPointId(k)).z() == 0);
    }
  }
}

TEST_CASE("the circle moves as the wheel's centre, the line as the road, in mm") {
  const auto data = wheels();
  vtkDataArray& moved = array_of(*data->GetPointData(), "displacement");
  CHECK(unit_of(moved) == "mm");
  const auto of = [&](vtkIdType cell) {
    return vector_at(moved, data->GetCell(cell)->GetPointId(1));
  };
  CHECK((of(0) - Eigen::Vector3d(1, 0, 30)).norm() < 1e-9);
  CHECK((of(1) - Eigen::Vector3d(0, 0, 40)).norm() < 1e-9);
  CHECK((of(2) - Eigen::Vector3d(0, 0, -2)).norm() < 1e-9);
  CHECK(of(3).norm() == 0);
}

TEST_CASE("each says whose it is, the force and the deflection of its tyre, and the time") {
  const auto data = wheels();
  vtkFieldData& cells = *data->GetCellData();
  CHECK(values_of(array_of(cells, "wheel")) == std::vector<double>{0, 0, 1, 1});
  CHECK(values_of(array_of(cells, "road")) == std::vector<double>{0, 1, 0, 1});
  CHECK(values_of(array_of(cells, "tyre_force")) == std::vector<double>{900, 900, 0, 0});
  CHECK(values_of(array_of(cells, "tyre_deflection")) == std::vector<double>{10, 10, -5, -5});
  CHECK(unit_of(array_of(cells, "tyre_force")) == "N");
  CHECK(strings_of(*data->GetFieldData(), "wheel_names") ==
        std::vector<std::string>{"left", "right"});
  CHECK(array_of(*data->GetFieldData(), "TimeValue").GetTuple1(0) == 0.625);
}

}  // namespace tubewright::film_wheels_test
