// Arrays, their units and texts, written by us and read back by VTK's own reader.
#include "viz/files/vtk_arrays.h"

#include <vtkPointData.h>
#include <vtkPoints.h>
#include <vtkPolyData.h>
#include <vtkXMLPolyDataReader.h>
#include <vtkXMLPolyDataWriter.h>

#include "tests/catch.h"
#include "tests/viz/files/read_vtk.h"

namespace tubewright::vtk_arrays_test {

namespace {

struct Named {
  std::string name;
};

/// Two points, with what `fill` adds, through a file's bytes and back.
template <class Fill>
vtkSmartPointer<vtkPolyData> round_trip(const Fill& fill) {
  vtkNew<vtkPoints> points;
  points->InsertNextPoint(0, 0, 0);
  points->InsertNextPoint(1, 2, 3);
  vtkNew<vtkPolyData> data;
  data->SetPoints(points);
  fill(*data);
  vtkNew<vtkXMLPolyDataWriter> writer;
  return read_bytes<vtkXMLPolyDataReader, vtkPolyData>(xml_bytes(*writer, *data));
}

}  // namespace

TEST_CASE("columns come back from a file to the last bit, with their components and units") {
  Column force{"force", "N", 1, {}}, move{"displacement", "mm", 3, {}};
  append(force, 1.0 / 3);
  append(force, -1e-300);
  append(move, Eigen::Vector3d(1, -2, 0.1));
  append(move, Eigen::Vector3d(4e200, 5, -0.7));
  CHECK(move.values == std::vector<double>{1, -2, 0.1, 4e200, 5, -0.7});
  const auto data = round_trip([&](vtkPolyData& d) {
    add_column(*d.GetPointData(), force);
    add_column(*d.GetPointData(), move);
  });
  vtkDataArray &f = array_of(*data->GetPointData(), "force"),
               &m = array_of(*data->GetPointData(), "displacement");
  CHECK(f.GetNumberOfComponents() == 1);
  CHECK(m.GetNumberOfComponents() == 3);
  CHECK(values_of(f) == force.values);
  CHECK(values_of(m) == move.values);
  CHECK(unit_of(f) == "N");
  CHECK(unit_of(m) == "mm");
}

TEST_CASE("integers and texts come back from a file, whatever letters they have") {
  const std::vector<std::string> names = {"front <left> & \"right\"", "", "Quertr\xc3\xa4ger",
                                          "a b"};
  const auto data = round_trip([&](vtkPolyData& d) {
    add_integers(*d.GetFieldData(), "member", {3, -1, 2000000000});
    add_strings(*d.GetFieldData(), "names", names);
    add_strings(*d.GetFieldData(), "none", {});
  });
  CHECK(values_of(array_of(*data->GetFieldData(), "member")) ==
        std::vector<double>{3, -1, 2000000000});
  CHECK(strings_of(*data->GetFieldData(), "names") == names);
  CHECK(strings_of(*data->GetFieldData(), "none").empty());
}

TEST_CASE("character codes are the bytes of a text in UTF-8, none of them negative") {
  const auto data = round_trip(
      [&](vtkPolyData& d) { add_character_codes(*d.GetFieldData(), "name", "A\xc3\xa4\n"); });
  CHECK(values_of(array_of(*data->GetFieldData(), "name")) ==
        std::vector<double>{65, 0xc3, 0xa4, 10});
}

TEST_CASE("the bytes of a file are XML with its arrays compressed by zlib, the same every time") {
  const auto bytes = [] {
    Column zeros{"zeros", "1", 1, std::vector<double>(10000, 0.0)};
    vtkNew<vtkPolyData> data;
    add_column(*data->GetFieldData(), zeros);
    vtkNew<vtkXMLPolyDataWriter> writer;
    return xml_bytes(*writer, *data);
  };
  const std::string once = bytes();
  CHECK(once.starts_with("<?xml version=\"1.0\"?>"));
  CHECK_THAT(once, ContainsSubstring("compressor=\"vtkZLibDataCompressor\""));
  CHECK(once.size() < 8000);  // of 80000 bytes of zeros
  CHECK(bytes() == once);
}

TEST_CASE("the names of entries are listed in their order") {
  CHECK(names_of(std::vector<Named>{{"b"}, {"a"}, {"b"}}) ==
        std::vector<std::string>{"b", "a", "b"});
  CHECK(names_of(std::vector<Named>{}).empty());
}

}  // namespace tubewright::vtk_arrays_test
