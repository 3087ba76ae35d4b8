// Loads that suspension links, springs and cables put on the frame.
#pragma once

#include <Eigen/Core>
#include <limits>
#include <string>
#include <vector>

#include "cases/frame/frame.h"
#include "cases/model/build_model.h"
#include "solver/statics/statics.h"

namespace tubewright {

/// A node where members that carry axial force only meet the frame.
struct PickUp {
  int node = 0;
  Eigen::Vector3d force = Eigen::Vector3d::Zero();  ///< of all of them together on the frame, N
};

/// The nodes of beams that links, springs or cables end at, in the order of the nodes. Nodes of
/// rigid uprights are not among them. Of the first `bars` bars: gussets stand behind them.
std::vector<PickUp> pick_ups(const Model& model, const StaticSolution& solution,
                             size_t bars = std::numeric_limits<size_t>::max());

/// Of these the nodes, by name, that are no attachment: what holds the link there was not looked
/// at.
std::vector<std::string> pick_ups_without_attachment(const Frame& frame);

}  // namespace tubewright
