// Input that is allowed and can hardly be meant: units mixed up, factors that make every check
// idle, sheets far from their tubes. A frame with such input is never proven.
#pragma once

#include "cases/frame/diagnostic.h"
#include "cases/frame/frame.h"

namespace tubewright {

/// Warnings, in the order of the parts of the file. Requires: validate() found no error.
Diagnostics input_doubts(const Frame& frame);

}  // namespace tubewright
