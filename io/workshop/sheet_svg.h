// A piece of sheet metal as an SVG drawing, full size: one unit is one millimetre.
#pragma once

#include <string>

#include "cases/sheets/sheet_blanks.h"

namespace tubewright {

/// Groups `outline`, `rivets`, `tubes`, `text`. y points up in the piece and down in the file.
std::string sheet_svg(const Frame& frame, const SheetBlank& blank);

}  // namespace tubewright
