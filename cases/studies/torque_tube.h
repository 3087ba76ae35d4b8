// Does a panel close a torque tube? A mechanical answer, panel by panel.
#pragma once

#include <vector>

#include "cases/frame/diagnostic.h"
#include "cases/frame/frame.h"
#include "solver/model/model.h"

namespace tubewright {

/// How many times stiffer each panel makes the frame against twisting the panel's own four corners
/// out of plane, all other panels in place: 1 = not at all, infinite if the frame is loose without
/// it. The free frame, held by supports that take nothing. Empty if the frame is a mechanism.
std::vector<double> twist_gain_of_panels(const Model& model);

/// Below this gain a panel does next to nothing in torsion.
constexpr double least_twist_gain = 1.05;

/// One warning for each panel that does next to nothing.
Diagnostics idle_panels(const Frame& frame);

}  // namespace tubewright
