#include "cases/model/mass_distribution.h"

#include <Eigen/Geometry>

#include "cases/attachments/gusset_plate.h"
#include "cases/model/mass_summary.h"
#include "cases/model/spread_load.h"
#include "solver/statics/rigid_fit.h"

namespace tubewright {

MassDistribution mass_distribution(const Frame& frame, const NumberedFrame& numbered) {
  MassDistribution d;
  for (size_t i = 0; i < frame.members.size(); ++i) {
    const Member& m = frame.members[i];
    const double per_length = mass_per_length(frame, m);
    if (per_length == 0) continue;
    if (numbered.slots[i].is_beam) {
      d.rods.push_back({numbered.slots[i].index, per_length * length_over_chord(numbered, m)});
      continue;
    }
    const double half = per_length * member_length(numbered, m) / 2;
    for (const std::string& end : {m.from, m.to}) {
      const int node = numbered.node.at(end);
      d.lumps.push_back({half, numbered.model.nodes[node], Eigen::Matrix3d::Zero(), {node}});
    }
  }
  for (const Gusset& g : frame.gussets) {
    const GussetPlate plate = gusset_plate(frame, g);
    const std::vector<int> on =
        node_numbers(numbered, {g.node, g.legs[0].axis_node, g.legs[1].axis_node});
    d.lumps.push_back({plate.mass,
                       numbered.model.nodes[static_cast<size_t>(on[0])] + plate.centroid,
                       Eigen::Matrix3d::Zero(), on});
  }
  for (std::size_t i = 0; i < frame.panels.size(); ++i) {
    const PanelMass p = panel_mass(frame, numbered, i);
    d.lumps.push_back(
        {p.mass, p.centre, p.inertia, node_numbers(numbered, frame.panels[i].corners)});
  }
  for (const CarriedMass& m : frame.masses) {
    d.lumps.push_back({m.mass, m.at, m.inertia.asDiagonal(), node_numbers(numbered, m.on)});
  }
  return d;
}

MassProperties mass_properties(const Model& model, const MassDistribution& distribution) {
  MassProperties p;
  Eigen::Vector3d first = Eigen::Vector3d::Zero();
  const auto ends = [&](const Rod& rod) {
    const Beam& beam = model.beams[rod.beam];
    return std::pair(model.nodes[beam.from], model.nodes[beam.to]);
  };
  for (const Rod& rod : distribution.rods) {
    const auto [from, to] = ends(rod);
    const double mass = rod.per_length * (to - from).norm();
    p.mass += mass;
    first += mass * (from + to) / 2;
  }
  for (const Lump& lump : distribution.lumps) {
    p.mass += lump.mass;
    first += lump.mass * lump.at;
  }
  if (p.mass <= 0) return p;
  p.centre = first / p.mass;
  for (const Rod& rod : distribution.rods) {
    const auto [from, to] = ends(rod);
    const double mass = rod.per_length * (to - from).norm();
    p.inertia += mass * point_inertia((from + to) / 2 - p.centre) +
                 mass / 12 * point_inertia(to - from);  // a thin rod
  }
  for (const Lump& lump : distribution.lumps) {
    p.inertia += lump.inertia + lump.mass * point_inertia(lump.at - p.centre);
  }
  return p;
}

void add_body_field(Actions& actions, const Model& model, const MassDistribution& distribution,
                    const BodyField& field) {
  const auto at = [&](const Eigen::Vector3d& r) -> Eigen::Vector3d {
    return field.at_centre + field.turning.cross(r - field.centre);
  };
  for (const Rod& rod : distribution.rods) {
    const Beam& beam = model.beams[rod.beam];
    const Eigen::Vector3d from = model.nodes[beam.from], along = model.nodes[beam.to] - from;
    actions.beams[rod.beam].line += rod.per_length * at(from + along / 2);
    if (field.turning.isZero(0)) continue;
    // The moment of rho w x s over -L/2..L/2 is rho L^3/12 e x (w x e): a pair rho L^2/12 w x e.
    const Eigen::Vector3d pair = rod.per_length * along.norm() / 12 * field.turning.cross(along);
    actions.nodal.segment<3>(dofs_per_node * beam.to) += pair;
    actions.nodal.segment<3>(dofs_per_node * beam.from) -= pair;
  }
  for (const Lump& lump : distribution.lumps) {
    add_spread(actions, model, lump.on, lump.at, lump.mass * at(lump.at),
               lump.inertia * field.turning);
  }
}

std::vector<double> nodal_masses(const Model& model, const MassDistribution& distribution) {
  std::vector<double> masses(model.nodes.size(), 0.0);
  for (const Rod& rod : distribution.rods) {
    const Beam& beam = model.beams[rod.beam];
    const double half = rod.per_length * (model.nodes[beam.to] - model.nodes[beam.from]).norm() / 2;
    masses[beam.from] += half;
    masses[beam.to] += half;
  }
  for (const Lump& lump : distribution.lumps) {
    for (const int node : lump.on) masses[node] += lump.mass / static_cast<double>(lump.on.size());
  }
  return masses;
}

}  // namespace tubewright
