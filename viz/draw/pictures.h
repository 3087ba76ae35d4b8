// Pictures of solved load cases, beside the files they are drawn from.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "viz/draw/load_set.h"

namespace tubewright {

/// Draws each case, von Mises stress on the deformed tubes, into STEM.png in `directory`. Needs a
/// display. Throws std::runtime_error if one cannot be drawn or written.
void write_pictures(const std::vector<DrawnCase>& cases, const std::filesystem::path& directory);

}  // namespace tubewright
