// How stiff the joint between a sheet and its tubes is, from what the frame file says.
#pragma once

#include "cases/frame/frame.h"

namespace tubewright {

/// Stiffness of one open-end blind rivet, N/m: what may be expected and how far it may be off.
struct RivetStiffness {
  double low = 0;
  double usual = 0;
  double high = 0;
};

/// 2, 3.5, 6 kN/mm at 3.2 mm; 2.5, 4.5, 8 at 4.0 mm; 3, 5, 10 at 4.8 mm; straight lines between, in
/// proportion to the diameter beyond. Judgement, no source: seams of profiled sheet with 4.8 mm
/// blind rivets are designed with 0.30 mm/kN (3.3 kN/mm, stressed-skin recommendations, from
/// memory), and a hole-filling rivet has 18 to 37 kN/mm by published formulas.
RivetStiffness blind_rivet_stiffness(double diameter);

/// Stiffness of a sheet's rivets: as given, else the usual one.
double rivet_stiffness(const RivetJoint& rivet);

/// Of rivets and of bond along an edge, N/m per metre; both act side by side.
struct JointStiffness {
  double rivets = 0;
  double bond = 0;
  /// What the bond under a continuous sheet gives way by under flow that only passes through, m2/N.
  double through = 0;

  /// Without rivets or bond the edge is perfect: `rigid`.
  double total() const { return rivets + bond > 0 ? rivets + bond : rigid; }

  /// `carry_over` of solver/model/model.h: 1 of rivets, which flow passing through does not load;
  /// 1/cosh(lambda w) of a bond (derived, sheet_joint.h). Beside a bond rivets stand in its middle,
  /// which such flow does not move: it then gives way as the bond alone.
  double carry_over() const;
};
JointStiffness joint_stiffness(const Sheet& sheet, const Material& material);

}  // namespace tubewright
