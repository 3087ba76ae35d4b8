// The checks of a gusset, by the force in the bar that it is (cases/attachments/gusset_plate.h).
//
// face: each tube's face under its leg, as under a tab along the tube; of plates at the sides the
// walls beside. weld: along each leg, N and V by the angles of the bar, N off the middle of the leg
// by where the bar's line crosses the face. plate: a section from the corner over the free edge,
// S/(h t) + 6 S e/(h^2 t), e from its middle to the line of the bar, against the yield strength.
// free_edge: L_e/t <= 2 sqrt(E/f_y) where it is pressed (MEMORY). Nothing is fastened to the plate,
// so it has neither holes for a net section nor a width from fastener to fastener (Whitmore). The
// rules are of steel: other metals have no number.
#pragma once

#include <vector>

#include "cases/attachment_checks/attachment_check.h"
#include "cases/attachments/gusset_plate.h"

namespace tubewright {

struct GussetResult {
  double force = 0;  ///< in the bar, tension positive, N, without the safety factor
  std::vector<NamedCheck> checks;
};

/// Greatest stress of the section from the corner over the free edge under a force in the bar, Pa.
double gusset_stress(const GussetPlate& plate, double thickness, double force);

/// `force` in its bar without, `factor` on all forces; `tubes`: section forces at the ends of each
/// beam of the model.
GussetResult gusset_result(const Frame& frame, const NumberedFrame& numbered, size_t which,
                           double force, const BeamEnds& tubes, double factor);

}  // namespace tubewright
