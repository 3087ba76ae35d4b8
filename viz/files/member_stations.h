// One load case sampled along every member: the places that are drawn, and what holds there.
//
// SI units. Everything is evaluated from the finished results; nothing is solved here.
#pragma once

#include <Eigen/Core>
#include <optional>
#include <string>
#include <vector>

#include "cases/analysis/analysis.h"
#include "solver/elements/beam_field.h"
#include "solver/model/section.h"

namespace tubewright {

/// A cross-section along a member.
struct Station {
  double at = 0;                 ///< fraction of the length from `from`
  Eigen::Vector3d point;         ///< on the undeformed axis, global
  Eigen::Vector3d displacement;  ///< global
  Eigen::Vector3d rotation;      ///< of the cross-section, global, rad
  SectionForces forces;
};

struct MemberDrawing {
  int member = 0;    ///< index in Frame::members
  int section = -1;  ///< index in Frame::sections; -1 for a spring, which has none
  Section shape;     ///< its properties; empty for a spring
  Eigen::Matrix3d axes = Eigen::Matrix3d::Identity();  ///< rows: local x, y, z in global components
  double yield_share = 0;  ///< utilisation per Pa of von Mises stress; 0 = yield cannot be checked
  std::vector<Station> stations;  ///< ascending, ends included, no two in one place
};

/// The part of an attachment that stands out of its tube, from its foot to its hole.
struct ArmDrawing {
  int attachment = 0;  ///< index in Frame::attachments
  std::vector<Station> stations;
};

struct CaseDrawing {
  std::string name;
  int step = 1;        ///< 1, 2, ...: the case's time in a viewer
  bool large = false;  ///< rotations are rotation vectors of any size
  std::vector<MemberDrawing> members;
  std::vector<ArmDrawing> arms;
  std::optional<double> time = {};  ///< in a viewer, s; none: the step
};

/// How a point that lies `offset` from the axis moves as its cross-section turns. `large`: the
/// rotation is a rotation vector of any size, else a small one.
Eigen::Vector3d turned(const Eigen::Vector3d& rotation, const Eigen::Vector3d& offset, bool large);

/// Index in Frame::sections; -1 for a spring.
int section_number(const Frame& frame, int member);

/// A bar stays straight and turns as its ends move apart sideways; its twist about itself is free.
std::vector<Station> bar_stations(const Eigen::Vector3d& from, const Eigen::Vector3d& to,
                                  const Eigen::Vector3d& moved_from,
                                  const Eigen::Vector3d& moved_to, double N);

CaseDrawing draw_case(const Analysis& analysis, const CaseResult& result, int step);

/// Where a field is looked at; `before` = on the `from` side of a point load at `value`.
struct Cut {
  double at = 0;     ///< where it is drawn
  double value = 0;  ///< where its section forces are taken
  bool before = false;
};

/// Both ends, every point load (each side of it, since forces jump there), `worst`, and uniform
/// eighths between: at least nine. The near side of a jump is drawn a thousandth of the length
/// before it, so that no two stations coincide.
std::vector<Cut> cuts(const BeamState& beam, double worst);

}  // namespace tubewright
