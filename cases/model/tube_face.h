// The face of a tube that a sheet lies on.
#pragma once

#include <Eigen/Core>

#include "cases/frame/frame.h"
#include "cases/model/build_model.h"

namespace tubewright {

struct TubeFace {
  double width = 0;  ///< m; NaN where only properties are given
  double tilt = 0;   ///< angle between face and sheet, rad; 0 of round tubes and of links
};

/// Of the member in that slot of the model, for a sheet of this normal (unit vector). A link's
/// smaller side is taken: how it is turned is not known.
TubeFace tube_face(const SectionEntry& section, const NumberedFrame& numbered,
                   const MemberSlot& slot, const Eigen::Vector3d& normal);

/// How far a tube reaches from its axis along a normal, m. NaN where only properties are given.
struct TubeReach {
  double face = 0;  ///< to the middle of the nearest face
  double edge = 0;  ///< to the outermost edge; as far as the face unless the tube is tilted
};

/// Of the member in that slot of the model. How a link is turned is not known: its reach goes from
/// half the smaller side to half the greater.
TubeReach tube_reach(const SectionEntry& section, const NumberedFrame& numbered,
                     const MemberSlot& slot, const Eigen::Vector3d& normal);

}  // namespace tubewright
