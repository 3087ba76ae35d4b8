// What actions come down to as one force and one moment, for tests.
#pragma once

#include <Eigen/Geometry>

#include "solver/model/actions.h"
#include "solver/model/model.h"

namespace tubewright::testing {

struct Resultant {
  Eigen::Vector3d force = Eigen::Vector3d::Zero();
  Eigen::Vector3d moment = Eigen::Vector3d::Zero();  ///< about the point asked for
};

/// Of everything that acts on nodes and along beams, summed part by part.
inline Resultant resultant(const Model& model, const Actions& a, const Eigen::Vector3d& about) {
  Resultant r;
  const auto add = [&](const Eigen::Vector3d& at, const Eigen::Vector3d& force,
                       const Eigen::Vector3d& moment) {
    r.force += force;
    r.moment += (at - about).cross(force) + moment;
  };
  for (std::size_t n = 0; n < model.nodes.size(); ++n) {
    const auto i = static_cast<Eigen::Index>(6 * n);
    add(model.nodes[n], a.nodal.segment<3>(i), a.nodal.segment<3>(i + 3));
  }
  for (std::size_t b = 0; b < model.beams.size(); ++b) {
    const Eigen::Vector3d from = model.nodes[model.beams[b].from];
    const Eigen::Vector3d along = model.nodes[model.beams[b].to] - from;
    const double length = along.norm();
    add(from + along / 2, a.beams[b].line * length, a.beams[b].couple * length);
    for (const PointAction& p : a.beams[b].points) add(from + p.at * along, p.force, p.moment);
  }
  return r;
}

}  // namespace tubewright::testing
