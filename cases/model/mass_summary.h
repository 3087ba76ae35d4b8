// What the frame weighs, and where.
#pragma once

#include <Eigen/Core>

#include "cases/frame/frame.h"
#include "cases/model/build_model.h"

namespace tubewright {

/// kg and m. Joints and welds weigh nothing; tubes run from node to node.
struct MassSummary {
  double tubes = 0;  ///< and gussets
  double panels = 0;
  double carried = 0;
  double total = 0;
  Eigen::Vector3d centre = Eigen::Vector3d::Zero();  ///< zero if the frame weighs nothing
};

MassSummary mass_summary(const Frame& frame, const NumberedFrame& numbered);

/// Mass per metre of a member, kg/m; 0 for a spring.
double mass_per_length(const Frame& frame, const Member& member);

/// A panel as a flat plate of even thickness.
struct PanelMass {
  double mass = 0;
  Eigen::Vector3d centre = Eigen::Vector3d::Zero();
  Eigen::Matrix3d inertia = Eigen::Matrix3d::Zero();  ///< about its centre, kg m2
};

PanelMass panel_mass(const Frame& frame, const NumberedFrame& numbered, std::size_t panel);

}  // namespace tubewright
