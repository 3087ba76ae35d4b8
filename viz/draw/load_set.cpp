#include "viz/draw/load_set.h"

#include <vtkDataArray.h>
#include <vtkFieldData.h>
#include <vtkNew.h>
#include <vtkPointData.h>
#include <vtkStringArray.h>
#include <vtkXMLDataElement.h>
#include <vtkXMLPolyDataReader.h>
#include <vtkXMLUnstructuredGridReader.h>
#include <vtkXMLUtilities.h>

#include <map>
#include <stdexcept>

namespace tubewright {

namespace {

template <class Reader, class Data>
vtkSmartPointer<Data> read_with(const std::filesystem::path& file) {
  vtkNew<Reader> reader;
  reader->SetFileName(file.c_str());
  reader->Update();
  vtkSmartPointer<Data> data = reader->GetOutput();
  if (reader->GetErrorCode() != 0 || data == nullptr)
    throw std::runtime_error("cannot read " + file.string());
  return data;
}

std::vector<std::string> strings_in(vtkPolyData& data, const char* name) {
  std::vector<std::string> strings;
  const auto* list = vtkStringArray::SafeDownCast(data.GetFieldData()->GetAbstractArray(name));
  for (vtkIdType i = 0; list != nullptr && i < list->GetNumberOfValues(); ++i)
    strings.push_back(const_cast<vtkStringArray*>(list)->GetValue(i));
  return strings;
}

void require_arrays(vtkDataSet& data, const std::filesystem::path& file) {
  for (const char* name : {"displacement", "von_mises"})
    if (data.GetPointData()->GetArray(name) == nullptr)
      throw std::runtime_error(file.string() + " has no array " + name);
}

void describe(DrawnCase& drawn) {
  const auto first = [&](const char* name) {
    const auto list = strings_in(*drawn.tubes, name);
    return list.empty() ? std::string() : list.front();
  };
  drawn.name = first("case_name");
  drawn.frame = first("frame");
  drawn.member_names = strings_in(*drawn.tubes, "member_names");
  vtkDataArray* scale = drawn.tubes->GetFieldData()->GetArray("warp_scale_suggested");
  if (scale != nullptr && scale->GetNumberOfTuples() > 0) drawn.warp_scale = scale->GetTuple1(0);
}

void read_part(DrawnCase& drawn, int part, const std::filesystem::path& file) {
  constexpr int tubes = 0, skin = 1, panels = 2,
                attachments = 3;  // as write_load_files() numbers them
  if (part == tubes) {
    drawn.tubes = read_with<vtkXMLPolyDataReader, vtkPolyData>(file);
    require_arrays(*drawn.tubes, file);
    describe(drawn);
  } else if (part == skin) {
    drawn.skin = read_with<vtkXMLUnstructuredGridReader, vtkUnstructuredGrid>(file);
    require_arrays(*drawn.skin, file);
    const std::string stem = file.stem().string();
    drawn.stem = stem.substr(0, stem.rfind("_skin"));
  } else if (part == panels) {
    drawn.panels = read_with<vtkXMLPolyDataReader, vtkPolyData>(file);
  } else if (part == attachments) {
    drawn.attachments = read_with<vtkXMLPolyDataReader, vtkPolyData>(file);
  }
}

}  // namespace

std::vector<DrawnCase> read_load_set(const std::filesystem::path& directory) {
  const std::filesystem::path index = directory / "loads.pvd";
  const auto root =
      vtkSmartPointer<vtkXMLDataElement>::Take(vtkXMLUtilities::ReadElementFromFile(index.c_str()));
  vtkXMLDataElement* list =
      root == nullptr ? nullptr : root->FindNestedElementWithName("Collection");
  if (list == nullptr) throw std::runtime_error("cannot read " + index.string());
  std::map<int, DrawnCase> steps;
  for (int i = 0; i < list->GetNumberOfNestedElements(); ++i) {
    vtkXMLDataElement* entry = list->GetNestedElement(i);
    int step = 0, part = 0;
    const char* file = entry->GetAttribute("file");
    if (file == nullptr || entry->GetScalarAttribute("timestep", step) == 0 ||
        entry->GetScalarAttribute("part", part) == 0)
      throw std::runtime_error("cannot read " + index.string());
    read_part(steps[step], part, directory / file);
  }
  std::vector<DrawnCase> cases;
  for (auto& [step, drawn] : steps) {
    if (drawn.tubes == nullptr || drawn.skin == nullptr)
      throw std::runtime_error(index.string() + " lists no tubes or no skin of a case");
    cases.push_back(std::move(drawn));
  }
  return cases;
}

}  // namespace tubewright
