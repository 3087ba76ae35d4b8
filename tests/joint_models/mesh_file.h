// Reads the volume elements of a mesh that gmsh has written.
#pragma once

#include <istream>

#include "tests/joint_models/solid10.h"

namespace tubewright {

/// The 10-node tetrahedra (type 11) of a gmsh file of format 2.2, ASCII, and the nodes they use.
/// Throws std::runtime_error on anything else.
SolidMesh read_mesh(std::istream& in);

/// A curved edge can turn a thin element inside out: makes the edges of such elements straight.
/// Returns how many elements were mended.
int straighten_bad_elements(SolidMesh& mesh);

}  // namespace tubewright
