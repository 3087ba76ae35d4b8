#include "viz/files/vtk_arrays.h"

#include <vtkDataSet.h>
#include <vtkDoubleArray.h>
#include <vtkErrorCode.h>
#include <vtkFieldData.h>
#include <vtkInformation.h>
#include <vtkInformationStringKey.h>
#include <vtkIntArray.h>
#include <vtkNew.h>
#include <vtkStringArray.h>
#include <vtkUnsignedCharArray.h>
#include <vtkXMLWriter.h>

#include <algorithm>
#include <stdexcept>

namespace tubewright {

void append(Column& column, double value) { column.values.push_back(value); }

void append(Column& column, const Eigen::Vector3d& value) {
  column.values.insert(column.values.end(), value.begin(), value.end());
}

void add_column(vtkFieldData& data, const Column& column) {
  vtkNew<vtkDoubleArray> array;
  array->SetName(column.name);
  array->SetNumberOfComponents(column.components);
  array->SetNumberOfTuples(static_cast<vtkIdType>(column.values.size()) / column.components);
  std::copy(column.values.begin(), column.values.end(), array->GetPointer(0));
  array->GetInformation()->Set(vtkDataArray::UNITS_LABEL(), column.unit);
  data.AddArray(array);
}

void add_integers(vtkFieldData& data, const char* name, const std::vector<int>& values) {
  vtkNew<vtkIntArray> array;
  array->SetName(name);
  for (const int value : values) array->InsertNextValue(value);
  data.AddArray(array);
}

void add_strings(vtkFieldData& data, const char* name, const std::vector<std::string>& values) {
  vtkNew<vtkStringArray> array;
  array->SetName(name);
  for (const std::string& value : values) array->InsertNextValue(value);
  data.AddArray(array);
}

void add_character_codes(vtkFieldData& data, const char* name, const std::string& text) {
  vtkNew<vtkUnsignedCharArray> array;
  array->SetName(name);
  for (const char c : text) array->InsertNextValue(static_cast<unsigned char>(c));
  data.AddArray(array);
}

std::string xml_bytes(vtkXMLWriter& writer, vtkDataSet& data) {
  vtkObject::GlobalWarningDisplayOff();  // VTK's own messages would go to stderr
  writer.SetInputData(&data);
  writer.SetDataModeToBinary();
  writer.SetCompressorTypeToZLib();
  writer.WriteToOutputStringOn();
  const int written = writer.Write();
  if (!written || writer.GetErrorCode() != vtkErrorCode::NoError)
    throw std::runtime_error(std::string("VTK: ") +
                             vtkErrorCode::GetStringFromErrorCode(writer.GetErrorCode()));
  return writer.GetOutputString();
}

}  // namespace tubewright
