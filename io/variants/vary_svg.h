// The combinations of `vary` in one picture: mass against torsional stiffness, what is used of the
// limits as colour and form.
#pragma once

#include <string>

#include "io/variants/vary_table.h"

namespace tubewright {

/// A plain SVG that follows the reader's light or dark screen; no scripts. Without torsional
/// stiffness its upright axis is the worst utilisation. Requires: judge() has seen the table.
std::string vary_svg(const VaryTable& table);

}  // namespace tubewright
