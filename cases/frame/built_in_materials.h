// Materials that every frame file may name without defining them.
#pragma once

#include <vector>

#include "cases/frame/frame.h"

namespace tubewright {

/// Sources beside each row in the .cpp.
const std::vector<MaterialEntry>& built_in_materials();

/// The frame's own material of that name, else the built-in one, else nullptr.
const MaterialEntry* find_material(const Frame& frame, const std::string& name);

}  // namespace tubewright
