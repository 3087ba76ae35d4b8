// The answer of `compare` as a page for any browser: one file, no scripts, nothing fetched.
#pragma once

#include <string>

#include "io/variants/compare_output.h"

namespace tubewright {

std::string compare_page(const Comparison& c);

}  // namespace tubewright
