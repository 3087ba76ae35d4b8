// A piece of sheet metal as a DXF drawing, full size in millimetres.
//
// Release 12 in ASCII (published by Autodesk as the AutoCAD DXF Reference; written here from
// memory), the one that every program reads: LINE, CIRCLE, POLYLINE and TEXT on the layers OUTLINE,
// RIVETS, TUBES, TEXT. That release has no entry for the unit ($INSUNITS came later); the drawing
// says it in words.
#pragma once

#include <string>

#include "cases/sheets/sheet_blanks.h"

namespace tubewright {

std::string sheet_dxf(const Frame& frame, const SheetBlank& blank);

}  // namespace tubewright
