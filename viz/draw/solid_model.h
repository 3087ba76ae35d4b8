// Solved load cases as .glb files (glTF 2.0, ISO/IEC 12113): for phones, browsers and any general
// 3D viewer.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "viz/draw/load_set.h"

namespace tubewright {

/// One case as the bytes of a .glb file, in m with y up and the vehicle facing +z, as glTF wants
/// it. The nodes are `tubes` (the skin, in the colours of von Mises stress), `attachments`,
/// `sheets` and `legend` (a colour bar with numbers that stands to the left of the vehicle). The
/// tubes are deformed; the animation `deflection` swings them to the unloaded frame and back. The
/// scene's `extras` tell frame, case, quantity, unit, range, and how many times the deflection is
/// drawn. Needs no display.
std::string glb_of(const DrawnCase& drawn);

/// Writes STEM.glb for each case into `directory`. Throws std::runtime_error if it cannot.
void write_solid_models(const std::vector<DrawnCase>& cases,
                        const std::filesystem::path& directory);

}  // namespace tubewright
