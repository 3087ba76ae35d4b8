// The manual page tubewright(1), made from the table of commands and the help pages.
#pragma once

#include <string>

namespace tubewright {

/// In the man macros of roff. The same for every build of a version.
std::string man_page();

}  // namespace tubewright
