// VTK files of the solved load cases, for general 3D viewers: an index `loads.pvd` with one time
// step a case, and for each case the tubes as lines (.vtp) and their true outer surface (.vtu).
//
// The mesh is undeformed, in mm; warp it by `displacement` (mm). Stresses are in MPa, so a viewer
// shows the numbers of the report. Every array carries its unit.
#pragma once

#include <optional>
#include <string>

#include "cases/analysis/analysis.h"
#include "io/text/write_file_atomically.h"

namespace tubewright {

/// Writes `loads.pvd` and the files it lists into `directory`, which is made if it is missing.
/// Every file appears whole or not at all, `loads.pvd` last: what it does not list is left over
/// from an earlier run. Removes the pictures of an earlier run. The same analysis gives the same
/// bytes.
std::optional<WriteFailure> write_load_files(const Analysis& analysis,
                                             const std::string& directory);

}  // namespace tubewright
