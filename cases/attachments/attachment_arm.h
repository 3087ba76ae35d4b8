// An attachment as a part of the model: from the tube's axis to its outside a block that does not
// give way, from there to the hole the plate or the bolt, and between them the face of the tube.
#pragma once

#include <Eigen/Core>

#include "cases/frame/frame.h"
#include "solver/model/model.h"

namespace tubewright {

struct AttachmentArm {
  Section block;  ///< solid, as large as the tube: stiff beside everything else
  Section plate;  ///< of the plate, plates or bolt; its z along the tube
  double plate_roll = 0;
  /// Of the tube's face, at the foot; first bending about the axis across the tube. With an
  /// eccentric hole along and across the line from the foot to the hole, not square to the face.
  JointFlexibility face;
};

/// The two plates of a pair and the ears of a saddle bend on their own, between foot and bolt. A
/// saddle stands on the walls beside the face, which do not give in their planes. A moment about
/// the tube's axis pushes one of them and pulls the other: each on a face that gives way as under a
/// single tab, so C_N D/b^2 (gap + thickness)^2/4. The same in a cross tab: its halves taken as two
/// pushes, a third of the square of half its width. Moments that turn a cross tab about its own
/// foot: as the smallest square foot there is a number for. Through plates: both faces. A bush
/// through the tube and a bolt: turned by a moment their ends push both walls in their own plane,
/// which do not give; what gives is the bush or bolt inside, h0/(3 E I). (All of this paragraph:
/// judgement.)
AttachmentArm attachment_arm(const Frame& frame, const Attachment& attachment,
                             const Eigen::Vector3d& foot, const Eigen::Vector3d& hole);

}  // namespace tubewright
