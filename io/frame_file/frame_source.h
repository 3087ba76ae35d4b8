// The text of a frame file, from disk or from standard input.
#pragma once

#include <string>

#include "io/yaml/frame_text.h"
#include "solver/model/outcome.h"

namespace tubewright {

/// The text, or why it cannot be read, in words. Reads `path`, or standard input for `-` (then
/// named `<stdin>`). Stops just beyond what a frame file may hold, so that an endless stream ends;
/// whoever parses the text reports its size.
Outcome<FrameText, std::string> read_source(const std::string& path);

}  // namespace tubewright
