// What if the frame comes out otherwise than drawn: the worst item under each change.
//
// Walls of cold-formed tube may be 10 % thinner (EN 10219-2), loads 20 % heavier, welded joints as
// soft as still counts as rigid (EN 1993-1-8 5.2.2.5: 8 E I/L, from memory), blind rivets softer or
// stiffer by their band.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "cases/analysis/analysis.h"

namespace tubewright {

struct WhatIf {
  std::string words;                ///< "walls 10 % thinner"
  std::optional<WorstOfAll> worst;  ///< none: no check could be made, or the frame had no answer
};

/// The first row is the frame as drawn, from its analysis; the others are solved with the same
/// options. Changes that do not touch the frame are left out. `only`: the cases, as for analyse().
std::vector<WhatIf> what_ifs(const Analysis& drawn, const std::vector<std::string>& only);

}  // namespace tubewright
