// The text of a frame file, from disk or from standard input.
#pragma once

#include <cstddef>
#include <string>

#include "io/yaml/frame_text.h"
#include "io/yaml/strict_yaml.h"
#include "solver/model/outcome.h"

namespace tubewright {

/// The text, or why it cannot be read, in words. Reads `path`, or standard input for `-` (then
/// named `<stdin>`). Stops just beyond `most` bytes, what a frame file may hold, so that an endless
/// stream ends; whoever parses the text reports its size.
Outcome<FrameText, std::string> read_source(const std::string& path, std::size_t most = most_bytes);

}  // namespace tubewright
