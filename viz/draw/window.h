// A window to look at load cases: the picture of pictures.h, to be turned and stepped through.
#pragma once

#include <vector>

#include "viz/draw/load_set.h"
#include "viz/draw/scene.h"

namespace tubewright {

/// Opens the window and returns when it is closed. Needs a display and at least one case.
///
/// Keys: right and left: next and previous case; c: colour by the next quantity; up and down: draw
/// the deflection larger or smaller; 0: not at all; f: the frame as first seen; q: close. Dragging
/// turns, Shift and dragging moves, the wheel zooms; a click on a tube tells its numbers.
void open_window(std::vector<DrawnCase> cases, View first);

}  // namespace tubewright
