// The pieces of sheet metal, as text and JSON.
#pragma once

#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "cases/sheets/sheet_blanks.h"
#include "io/text/terminal.h"

namespace tubewright {

/// Empty without sheets.
std::string sheets_text(const Frame& frame, const SheetBlanks& sheets, Paint paint);

/// A list of {name, sheet, material, thickness, panels, width, height, area, mass, rivets, outline,
/// openings, holes, tubes, nodes, forward, file}: mm, mm2, kg; coordinates from the lower left of
/// the rectangle, to a thousandth of a millimetre.
nlohmann::ordered_json sheets_json(const Frame& frame, const SheetBlanks& sheets);

/// What stands on a drawing: frame and sheet; material, sizes, holes; how it is seen.
std::vector<std::string> drawing_title(const Frame& frame, const SheetBlank& blank);

/// "sheet_floor", without an ending.
std::string drawing_name(const SheetBlank& blank);

}  // namespace tubewright
