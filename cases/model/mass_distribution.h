// Where the mass sits: tubes as uniform rods, everything else as lumps resting on nodes.
#pragma once

#include <Eigen/Core>
#include <vector>

#include "cases/frame/frame.h"
#include "cases/model/build_model.h"
#include "solver/model/actions.h"

namespace tubewright {

/// The mass of a beam, spread evenly along it.
struct Rod {
  int beam = 0;           ///< in the model
  double per_length = 0;  ///< kg/m, of the line between its ends
};

/// A carried mass, a panel, a gusset, or half a link or cable.
struct Lump {
  double mass = 0;
  Eigen::Vector3d at = Eigen::Vector3d::Zero();
  Eigen::Matrix3d inertia = Eigen::Matrix3d::Zero();  ///< about its own centre, kg m2
  std::vector<int> on;                                ///< nodes that carry it
};

struct MassDistribution {
  std::vector<Rod> rods;
  std::vector<Lump> lumps;
};

MassDistribution mass_distribution(const Frame& frame, const NumberedFrame& numbered);

struct MassProperties {
  double mass = 0;
  Eigen::Vector3d centre = Eigen::Vector3d::Zero();
  Eigen::Matrix3d inertia = Eigen::Matrix3d::Zero();  ///< tensor about the centre, kg m2
};

MassProperties mass_properties(const Model& model, const MassDistribution& distribution);

/// Specific body force, gravity less acceleration, at every point: b(r) = b_c + w x (r - c), m/s2;
/// w is minus the angular acceleration.
struct BodyField {
  Eigen::Vector3d at_centre = Eigen::Vector3d::Zero();
  Eigen::Vector3d turning = Eigen::Vector3d::Zero();
  Eigen::Vector3d centre = Eigen::Vector3d::Zero();
};

/// Adds what the field does to every mass. Resultant and moment are exact: m b_c and I w about the
/// centre. Along a tube the even part is a line load; the rest, which grows from minus to plus from
/// end to end, goes to its ends as the pair of forces of the same moment.
void add_body_field(Actions& actions, const Model& model, const MassDistribution& distribution,
                    const BodyField& field);

/// Share of the mass that each node stands for, kg; for means over the frame.
std::vector<double> nodal_masses(const Model& model, const MassDistribution& distribution);

}  // namespace tubewright
