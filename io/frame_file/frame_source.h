// The text of a frame file, from disk or from standard input.
#pragma once

#include <string>
#include <variant>

#include "io/yaml/frame_text.h"

namespace tubewright {

/// A file that could not be read, and why in words.
struct ReadFailure {
  std::string reason;
};

/// Reads `path`, or standard input for `-` (then named `<stdin>`). Stops just beyond what a frame
/// file may hold, so that an endless stream ends; whoever parses the text reports its size.
std::variant<FrameText, ReadFailure> read_source(const std::string& path);

}  // namespace tubewright
