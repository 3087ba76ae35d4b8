// Which checks an attachment needs, made with the forces of a case: N off the face, V and moments
// at its foot, what pulls at its hole. Every force times the safety factor of the case.
//
// face: the tube's face under the plate, nut or washer. weak_way: a single plate turned about its
// own foot, which has no number. weld. plate: its yield at the foot. bolt: shear, tension, and
// bending where it stands out of the tube (pins, EN 1993-1-8 Table 3.10). bearing: of plate or wall
// at the hole, tear-out by e1. plate_net: the plate torn at the hole. net_section: the tube with
// its holes. crushing: the tube's faces under the preload of a bolt without a spacer.
//
// A pair: each plate takes half of N and of what turns it its own way, and N = M/(gap + t) of what
// turns both about the tube's axis; on the face the sum of both against one plate's resistance
// (judgement, safe: two lines load a face less than one in its middle). A saddle: on the walls
// beside, its weld one line an ear. A nut: as a round tube, pi/4 of a square one of its diameter
// (Table 7.11 note). A bush through the tube: half of N on each face, moments as forces on both
// walls in their planes. Rules are of steel: other metals have no number.
#pragma once

#include <Eigen/Core>
#include <vector>

#include "cases/frame/frame.h"
#include "cases/joints/joint_forces.h"
#include "cases/joints/panel_result.h"
#include "cases/model/build_model.h"
#include "solver/elements/beam_field.h"

namespace tubewright {

/// Global axes, N and N m, on the attachment: from the tube at its foot, and at its hole.
struct AttachmentForces {
  Eigen::Vector3d foot = Eigen::Vector3d::Zero();
  Eigen::Vector3d foot_moment = Eigen::Vector3d::Zero();
  Eigen::Vector3d hole = Eigen::Vector3d::Zero();
};

/// Of the beam from foot to hole; `last`: its last piece, where it is cut into pieces.
AttachmentForces attachment_forces(const BeamState& first, const BeamState& last);

struct AttachmentResult {
  AttachmentForces forces;  ///< without the safety factor
  std::vector<NamedCheck> checks;
};

/// `tubes`: section forces at the ends of each beam of the model; `factor`: on all forces.
AttachmentResult attachment_result(const Frame& frame, const NumberedFrame& numbered, size_t which,
                                   const AttachmentForces& forces, const BeamEnds& tubes,
                                   double factor);

/// Distance along its tube to the nearest end that nothing is joined to, m; infinite if none.
double to_open_end(const Frame& frame, const NumberedFrame& numbered, const Attachment& attachment);

}  // namespace tubewright
