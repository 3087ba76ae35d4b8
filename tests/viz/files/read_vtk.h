// What was written, read back from its bytes by VTK's own readers.
#pragma once

#include <vtkAbstractArray.h>
#include <vtkDataArray.h>
#include <vtkDataSet.h>
#include <vtkFieldData.h>
#include <vtkInformation.h>
#include <vtkInformationStringKey.h>
#include <vtkNew.h>
#include <vtkSmartPointer.h>
#include <vtkStringArray.h>

#include <Eigen/Core>
#include <stdexcept>
#include <string>
#include <vector>

namespace tubewright {

/// `Reader`: vtkXMLPolyDataReader or vtkXMLUnstructuredGridReader.
template <class Reader, class Data>
vtkSmartPointer<Data> read_bytes(const std::string& bytes) {
  vtkNew<Reader> reader;
  reader->ReadFromInputStringOn();
  reader->SetInputString(bytes);
  reader->Update();
  if (reader->GetErrorCode() != 0) throw std::runtime_error("VTK cannot read it");
  return reader->GetOutput();
}

inline vtkDataArray& array_of(vtkFieldData& data, const char* name) {
  vtkDataArray* array = data.GetArray(name);
  if (array == nullptr) throw std::runtime_error(std::string("no array ") + name);
  return *array;
}

inline std::string unit_of(vtkDataArray& array) {
  const char* unit = array.GetInformation()->Get(vtkDataArray::UNITS_LABEL());
  return unit == nullptr ? "" : unit;
}

inline std::vector<double> values_of(vtkDataArray& array) {
  std::vector<double> values;
  for (vtkIdType i = 0; i < array.GetNumberOfTuples(); ++i) {
    for (int c = 0; c < array.GetNumberOfComponents(); ++c) {
      values.push_back(array.GetComponent(i, c));
    }
  }
  return values;
}

inline Eigen::Vector3d vector_at(vtkDataArray& array, vtkIdType i) {
  return {array.GetComponent(i, 0), array.GetComponent(i, 1), array.GetComponent(i, 2)};
}

inline Eigen::Vector3d point_at(vtkDataSet& data, vtkIdType i) {
  const double* p = data.GetPoint(i);
  return {p[0], p[1], p[2]};
}

inline std::vector<std::string> strings_of(vtkFieldData& data, const char* name) {
  auto* list = vtkStringArray::SafeDownCast(data.GetAbstractArray(name));
  std::vector<std::string> strings;
  for (vtkIdType i = 0; list != nullptr && i < list->GetNumberOfValues(); ++i) {
    strings.push_back(list->GetValue(i));
  }
  return strings;
}

}  // namespace tubewright
