// What is welded or bolted to the tubes as bodies, and how they move.
#pragma once

#include <Eigen/Core>
#include <array>
#include <string>
#include <vector>

#include "cases/analysis/analysis.h"
#include "viz/files/member_stations.h"

class vtkPolyData;

namespace tubewright {

/// What carries each attachment and each gusset along.
struct FittedMotion {
  std::vector<std::vector<Station>> arms;       ///< as Frame::attachments, from foot to hole
  std::vector<std::array<Station, 3>> corners;  ///< as Frame::gussets: its node, its legs' ends
  bool large = false;                           ///< rotations are rotation vectors of any size
};

/// `nodes`: places in the order of Frame::nodes, `displacements`: six of each.
std::array<Station, 3> gusset_corners(const Frame& frame, const Gusset& gusset,
                                      const std::vector<Eigen::Vector3d>& nodes,
                                      const Eigen::VectorXd& displacements);

/// Puts in the faces of attachment_body() of every attachment and of gusset_body() of every gusset,
/// undeformed, mm. Point data: displacement (of its arm, from foot to hole, as it bends; what lies
/// behind its foot moves with that), rotation. Cell data: attachment, index into the field data
/// attachment_names, gussets behind.
void add_bodies(vtkPolyData& data, const Frame& frame, const FittedMotion& motion);

/// The bytes of a .vtp file: the bodies in one load case. Cell data further: utilisation (of the
/// check nearest its limit, 0 where none was made). `warp_scale` goes into the field data as a
/// suggestion.
std::string attachment_bodies_file(const Analysis& analysis, const CaseResult& result,
                                   const CaseDrawing& drawing, double warp_scale);

}  // namespace tubewright
