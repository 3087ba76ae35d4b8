// A frame file with other sizes in it: the same text, its comments and layout kept byte for byte.
#pragma once

#include <string>

#include "cases/frame/diagnostic.h"
#include "cases/frame/frame.h"
#include "io/yaml/frame_text.h"

namespace tubewright {

/// The text of the file with the sections of `resized`, which is `frame`, as read from it, with
/// other sizes. Where all members of the file that use a section get one size, that section gets
/// it; else the others get sections of their own, named after it and the size. What comes back was
/// read again and has the sections of `resized`, member for member. Diagnostics: sizes that the
/// file's way of writing does not let it have.
Result<std::string> resized_file(const FrameText& file, const Frame& frame, const Frame& resized);

}  // namespace tubewright
