// One tube on the faces of another, with all that stands on the other beside it: EN 1993-1-8:2005
// 7.5 (7.5.2 N/N_Rd + M_ip/M_ip,Rd + M_op/M_op,Rd, 7.5.3 two planes; MEMORY), on plain data.
//
// Within the standard: T, Y, X joints, K and N joints with a gap or an overlap, in one plane or
// two. Beyond it, counted as comparisons:
// - Several tubes on one face: each by itself by its T or Y resistance; and all that push (or pull,
//   or turn) a face the same way as one square tube on the length that they cover together.
// - K joints: forces that do not balance, by more than a fifth, count by the T or Y rule; moments
//   that are not secondary count beside the axial force as those of a T joint.
// - A tube that meets the other between two faces, as far as its edge: its force is split into
//   those square to either face, each against the resistance of a joint on that face. Derived: a
//   mechanism of both faces is no weaker than the worse of each by itself, so the root of the
//   squares of both shares is safe, for N as for M_ip; the shares of M_op, which turns both faces
//   at once, add up.
// - A tube turned about its axis: its footprint holds the circle of its width, and no footprint
//   within another resists more (upper bound of plastic design): pi/4, as a round tube.
// - At the open end of the other tube half the resistance, as half the folds of the face are
//   missing (ISO 14346 halves near an open end, MEMORY); closed by a tube as wide, all of it.
// - Rules of steel for stainless steel and, with the heated strength, for aluminium.
// Torsion of a tube, and shear, are left to the checks of its section and its weld.
#pragma once

#include <array>
#include <string>
#include <vector>

#include "cases/checks/check_result.h"
#include "cases/joints/tube_joint.h"

namespace tubewright {

/// The tube that is stood on. Faces in the order +y, -y, +z, -z of its local axes.
struct ChordTube {
  double height = 0;  ///< along z
  double width = 0;   ///< along y
  double wall = 0;
  double fy = 0;
  double E = 210e9;
  BucklingCurve curve = BucklingCurve::c;
  double stress = 0;        ///< greatest compression at the joint from N and M, + compression
  double axial_share = 0;   ///< |N|/N_pl, the greater side
  bool ends = false;        ///< here
  bool open = false;        ///< and nothing as wide closes it
  bool bent = false;        ///< it changes direction there
  double factor = 1;        ///< on all resistances: what another metal takes off
  std::string other_metal;  ///< than structural steel
};

struct StandingTube {
  JointBrace brace;                 ///< M_ip and M_op with one sign for all on a face
  std::array<double, 4> onto = {};  ///< normals of the faces on its direction across the chord
  double along = 0;                 ///< cosine of its angle to the chord's x axis
  double chord_moment = 0;          ///< its moment about the chord's axis, N m
  bool turned = false;              ///< about its own axis, against the face
  bool secondary = false;           ///< moments from stiff joints of a triangulated frame, 5.1.5(3)
};

/// Of `tubes[which]`.
CheckResult face_joint_check(const ChordTube& chord, const std::vector<StandingTube>& tubes,
                             size_t which);

}  // namespace tubewright
