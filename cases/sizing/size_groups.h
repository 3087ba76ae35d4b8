// Which tubes get one size together, and which sizes there are for them.
#pragma once

#include <string>
#include <vector>

#include "cases/sizing/size_study.h"

namespace tubewright {

struct SizeGroups {
  std::vector<SizedTubes> groups;  ///< those of the file, then the others by their first members
  std::vector<std::string> without_size;  ///< tubes that the list has no size for
};

/// The file's `groups`; of the tubes outside them and outside `keep`, those that tube_groups() puts
/// together. Errors: see size_study().
Result<SizeGroups> size_groups(const Frame& frame, bool cheapest);

}  // namespace tubewright
