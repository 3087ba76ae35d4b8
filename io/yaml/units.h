// The unit symbols of the workshop, and the dimension and SI value of an expression in them.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "io/yaml/quantity.h"
#include "solver/model/outcome.h"

namespace tubewright {

/// A unit expression's dimension and SI value.
struct Unit {
  Dimension dimension;
  double to_si = 1;
};

/// Reads `kN m`, `kg/m3`, `lbf ft`, `N·m/deg`. Else says which part is not a unit.
Outcome<Unit, Diagnostic> read_unit(std::string_view text);

}  // namespace tubewright
