// A section as the frame file writes it.
#pragma once

#include <nlohmann/json.hpp>
#include <string>

#include "cases/frame/frame.h"

namespace tubewright {

/// Its keys: `shape`, `side` or `height` and `width` or `diameter`, `wall`; mm. Of properties that
/// are given the name and those known: `A` mm2, `Iy` mm4, `Wy` mm3 and so on.
nlohmann::ordered_json section_keys(const SectionEntry& section);

}  // namespace tubewright
