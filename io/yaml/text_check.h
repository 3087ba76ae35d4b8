// Faults of the text itself, before anything is parsed: encoding, control characters, tabs.
#pragma once

#include <string_view>

#include "cases/frame/diagnostic.h"

namespace tubewright {

/// In file order; empty = valid UTF-8 with sound line ends and no tab in an indentation.
Diagnostics check_text(std::string_view text);

}  // namespace tubewright
