// The frame as the report draws and lists it: lengths in mm, angles in degrees. Parts refer to
// nodes and sections by their numbers.
#pragma once

#include <nlohmann/json.hpp>

#include "cases/frame/frame.h"
#include "solver/model/model.h"

namespace tubewright {

/// Puts into `data` the materials in use, sections, nodes, members, attachments, gussets, panels,
/// supports, masses and wheels. `model`: of that frame; it knows where the sheets lie and how stiff
/// joints are.
void add_frame(const Frame& frame, const Model& model, nlohmann::ordered_json& data);

}  // namespace tubewright
