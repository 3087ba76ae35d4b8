// The text of a frame file, with the name that messages give it.
#pragma once

#include <string>

namespace tubewright {

struct FrameText {
  std::string name;  ///< file name as the user typed it
  std::string text;  ///< UTF-8, a byte order mark is allowed
};

}  // namespace tubewright
