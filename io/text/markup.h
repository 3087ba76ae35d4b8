// Text of the user inside HTML, XML and SVG.
#pragma once

#include <string>

namespace tubewright {

/// `&`, `<`, `>` and `"` written as what they stand for.
std::string escaped(const std::string& text);

}  // namespace tubewright
