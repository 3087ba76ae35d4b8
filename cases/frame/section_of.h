// Section properties of a section as described in a frame.
#pragma once

#include "cases/frame/frame.h"

namespace tubewright {

/// By EN 10219-2 / EN 10210-2 and Cowper. Requires: a valid entry.
Section section_of(const SectionEntry& entry, const Material& material);

}  // namespace tubewright
