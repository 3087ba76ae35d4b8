// Measured heights of a road, from a CSV file.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "cases/frame/frame.h"
#include "solver/model/outcome.h"

namespace tubewright {

/// Rows of three numbers in mm: x, left, right, parted by commas, semicolons, tabs or spaces. Empty
/// lines and lines that begin with # are skipped, and so is a first line of words. x ascends; two
/// rows at one x are an edge. Else what is wrong, with the number of the line.
Outcome<std::vector<ProfileRow>, std::string> read_profile(std::string_view text);

}  // namespace tubewright
