// The files of solved load cases, read back to be drawn. Drawing runs in a program of its own,
// since a graphics library may end it without a word; what it draws is what any viewer would be
// given.
#pragma once

#include <vtkPolyData.h>
#include <vtkSmartPointer.h>
#include <vtkUnstructuredGrid.h>

#include <filesystem>
#include <string>
#include <vector>

namespace tubewright {

/// One load case; arrays and units as in viz/files/tube_lines.h, tube_skin.h, panel_quads.h
/// and attachment_bodies.h.
struct DrawnCase {
  std::string name;
  std::string frame;  ///< title
  std::string stem;   ///< of its files: "loads_01_braking"
  std::vector<std::string> member_names;
  double warp_scale = 1;  ///< suggested, the same in all cases
  vtkSmartPointer<vtkPolyData> tubes;
  vtkSmartPointer<vtkUnstructuredGrid> skin;
  vtkSmartPointer<vtkPolyData> panels;       ///< null without sheets
  vtkSmartPointer<vtkPolyData> attachments;  ///< null without any
};

/// What `loads.pvd` in `directory` lists, in its order. Throws std::runtime_error if a file is
/// missing or is not what write_load_files() writes.
std::vector<DrawnCase> read_load_set(const std::filesystem::path& directory);

}  // namespace tubewright
