// Named arrays with units into VTK data sets, and data sets into the bytes of their XML files.
#pragma once

#include <Eigen/Core>
#include <string>
#include <vector>

class vtkDataSet;
class vtkFieldData;
class vtkXMLWriter;

namespace tubewright {

/// Values of one quantity, `components` a point, in the unit named. Names are lower_snake_case.
struct Column {
  const char* name;
  const char* unit;
  int components = 1;
  std::vector<double> values;
};

void append(Column& column, double value);
void append(Column& column, const Eigen::Vector3d& value);

void add_column(vtkFieldData& data, const Column& column);
void add_integers(vtkFieldData& data, const char* name, const std::vector<int>& values);
void add_strings(vtkFieldData& data, const char* name, const std::vector<std::string>& values);

/// Text as one character code a value, for readers that know no strings.
void add_character_codes(vtkFieldData& data, const char* name, const std::string& text);

/// XML with zlib-compressed, base64-coded arrays. Throws std::runtime_error if VTK refuses.
std::string xml_bytes(vtkXMLWriter& writer, vtkDataSet& data);

/// The names of entries, for add_strings().
template <class Entries>
std::vector<std::string> names_of(const Entries& entries) {
  std::vector<std::string> list;
  for (const auto& entry : entries) list.push_back(entry.name);
  return list;
}

}  // namespace tubewright
