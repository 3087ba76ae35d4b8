#include "cases/rides/ride_model.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "cases/model/mechanism_report.h"
#include "cases/model/spread_load.h"
#include "cases/studies/frame_modes.h"
#include "cases/validate/ride_errors.h"
#include "cases/vehicle/vehicle_cases.h"
#include "cases/wheels/rolling.h"
#include "solver/dynamics/ride_start.h"
#include "solver/elements/bar_element.h"
#include "solver/stability/modes.h"
#include "solver/statics/determinate_restraint.h"
#include "solver/statics/statics.h"

namespace tubewright {

namespace {

/// Unit loads of the force coordinates on the frame's nodes, one a column, six rows a node.
struct ForceCoordinates {
  Eigen::MatrixXd loads;
  std::vector<RideTyre> tyres;
  std::vector<RideDamper> dampers;
};

Eigen::VectorXd wheel_load(const FreeVehicle& v, size_t w, const Eigen::Vector3d& at,
                           const Eigen::Vector3d& force) {
  Actions actions = no_actions(v.model);
  add_spread(actions, v.model, v.carriers[w], at, force, Eigen::Vector3d::Zero());
  return actions.nodal;
}

Eigen::VectorXd stretching_load(const Model& model, const Bar& bar) {
  Eigen::VectorXd load =
      Eigen::VectorXd::Zero(dofs_per_node * static_cast<Eigen::Index>(model.nodes.size()));
  const Eigen::Vector3d n = bar_direction(model, bar);
  load.segment<3>(dofs_per_node * static_cast<Eigen::Index>(bar.from)) -= n;
  load.segment<3>(dofs_per_node * static_cast<Eigen::Index>(bar.to)) += n;
  return load;
}

/// `carried`: mass that each wheel stands under, kg.
ForceCoordinates force_coordinates(const Frame& frame, const NumberedFrame& numbered,
                                   const FreeVehicle& v, const std::vector<double>& carried) {
  ForceCoordinates c;
  std::vector<Eigen::VectorXd> columns;
  const auto add = [&](Eigen::VectorXd load) {
    columns.push_back(std::move(load));
    return static_cast<int>(columns.size()) - 1;
  };
  const Vehicle& vehicle = *frame.vehicle;
  for (size_t w = 0; w < vehicle.wheels.size(); ++w) {
    const Wheel& wheel = vehicle.wheels[w];
    RideTyre tyre;
    tyre.vertical = add(wheel_load(v, w, wheel.contact, Eigen::Vector3d::UnitZ()));
    tyre.longitudinal = add(wheel_load(v, w, wheel.centre, Eigen::Vector3d::UnitX()));
    tyre.stiffness = tyre_rate(vehicle, wheel);
    tyre.damping = tyre_damping(vehicle, wheel, carried[w]);
    c.tyres.push_back(tyre);
  }
  for (size_t m = 0; m < frame.members.size(); ++m) {
    const Member& member = frame.members[m];
    if (member.kind != MemberKind::spring || member.damping == 0) continue;
    const Bar& bar = v.model.bars[static_cast<size_t>(numbered.slots[m].index)];
    c.dampers.push_back({add(stretching_load(v.model, bar)), member.damping});
  }
  c.loads.resize(columns.front().size(), static_cast<Eigen::Index>(columns.size()));
  for (size_t k = 0; k < columns.size(); ++k) {
    c.loads.col(static_cast<Eigen::Index>(k)) = columns[k];
  }
  return c;
}

std::vector<double> standing_masses(const Frame& frame, const VehicleFacts& facts) {
  std::vector<double> masses;
  for (const double load : facts.standing) masses.push_back(load / frame.gravity);
  return masses;
}

struct Shapes {
  RefinedModel fine;
  std::vector<AddedMass> added;
  Modes modes;
  bool all = false;
};

/// Elastic modes up to the frequency asked for, on tubes cut finely enough for it.
Result<Shapes> shapes_of(const Frame& frame, const NumberedFrame& numbered, const FreeVehicle& v,
                         const RideModes& wanted) {
  Shapes s;
  Model free = v.model;
  free.supports.clear();
  // Motions are sums of those by unit forces, one of which may well push a cable.
  for (Bar& bar : free.bars) bar.tension_only = false;
  // Inertia acts at the ends of pieces: end moments miss q l^2/12 of a piece, not of the tube.
  constexpr int least_pieces = 4;
  s.fine = refine(free, pieces_for_modes(free, wanted.up_to, least_pieces));
  s.added = added_masses(free, v.distribution);
  for (int count = std::min(12, wanted.most);; count = std::min(2 * count, wanted.most)) {
    auto found = natural_modes(s.fine.model, s.added, count);
    if (const auto* mechanism = found.error())
      return failure_of_cut_frame(frame, numbered, *mechanism);
    s.modes = std::move(*found);
    const int elastic = static_cast<int>(std::count_if(s.modes.modes.begin(), s.modes.modes.end(),
                                                       [](const Mode& m) { return !m.rigid; }));
    s.all = elastic < count || s.modes.modes.back().frequency > wanted.up_to;
    if (s.all || count == wanted.most) break;
  }
  std::erase_if(s.modes.modes,
                [&](const Mode& m) { return !m.rigid && m.frequency > wanted.up_to; });
  return s;
}

/// M phi, one mode a column.
Eigen::MatrixXd masses_times(const Shapes& s) {
  Eigen::MatrixXd product(s.modes.modes.front().shape.size(),
                          static_cast<Eigen::Index>(s.modes.modes.size()));
  for (size_t j = 0; j < s.modes.modes.size(); ++j) {
    product.col(static_cast<Eigen::Index>(j)) =
        apply_mass(s.fine.model, s.added, s.modes.modes[j].shape);
  }
  return product;
}

Actions nodal_actions(const Model& model, const Eigen::VectorXd& loads) {
  Actions actions = no_actions(model);
  actions.nodal = loads;
  return actions;
}

/// Upward displacement of each carried mass in each mode.
Eigen::MatrixXd carried_rows(const Frame& frame, const NumberedFrame& numbered, const Model& model,
                             const Eigen::MatrixXd& shapes) {
  Eigen::MatrixXd up(static_cast<Eigen::Index>(frame.masses.size()), shapes.cols());
  for (size_t m = 0; m < frame.masses.size(); ++m) {
    const CarriedMass& mass = frame.masses[m];
    Actions unit = no_actions(model);
    add_spread(unit, model, node_numbers(numbered, mass.on), mass.at, Eigen::Vector3d::UnitZ(),
               Eigen::Vector3d::Zero());
    up.row(static_cast<Eigen::Index>(m)) =
        unit.nodal.transpose() * shapes.topRows(unit.nodal.size());
  }
  return up;
}

}  // namespace

Result<RideModel> ride_model(const Frame& frame, const NumberedFrame& numbered,
                             const RideModes& wanted) {
  RideModel r;
  r.vehicle = free_vehicle(frame, numbered);
  const auto facts = vehicle_facts(frame, numbered);
  if (const auto* failure = facts.error()) {
    return failure_diagnostics(frame, numbered, *failure, "");
  }
  const ForceCoordinates c =
      force_coordinates(frame, numbered, r.vehicle, standing_masses(frame, *facts));
  Result<Shapes> found = shapes_of(frame, numbered, r.vehicle, wanted);
  if (auto* diagnostics = found.error()) return std::move(*diagnostics);
  const Shapes& s = *found;
  r.fine = s.fine;
  r.all_modes = s.all;

  const auto all = static_cast<Eigen::Index>(s.modes.modes.size());
  const Eigen::Index forces = c.loads.cols(), known = c.loads.rows();
  Eigen::MatrixXd shapes(s.modes.modes.front().shape.size(), all);
  RideSystem& system = r.system;
  system.circular_frequency.resize(all);
  system.damping_ratio.setZero(all);
  for (Eigen::Index j = 0; j < all; ++j) {
    const Mode& mode = s.modes.modes[static_cast<size_t>(j)];
    shapes.col(j) = mode.shape;
    system.circular_frequency[j] = mode.rigid ? 0 : 2 * std::numbers::pi * mode.frequency;
    if (!mode.rigid) system.damping_ratio[j] = frame.vehicle->structural_damping;
    r.rigid += mode.rigid;
    r.highest_mode = std::max(r.highest_mode, mode.frequency);
  }
  const Eigen::MatrixXd M_shapes = masses_times(s);
  system.modes = c.loads.transpose() * shapes.topRows(known);
  system.tyres = c.tyres;
  system.dampers = c.dampers;
  // The weight of all moves a free body as one: elastic modes and those left out have none of it.
  Eigen::VectorXd down = Eigen::VectorXd::Zero(shapes.rows());
  for (Eigen::Index z = 2; z < down.size(); z += dofs_per_node) down[z] = -frame.gravity;
  system.weight_modal = M_shapes.transpose() * down;
  system.weight_modal.tail(all - r.rigid).setZero();
  system.weight_displacement.setZero(forces);

  // Unit forces, balanced by the inertia of the whole as a rigid body.
  const Eigen::Index elastic = all - r.rigid;
  r.loads.setZero(shapes.rows(), forces + elastic);
  r.loads.topLeftCorner(known, forces) = c.loads;
  r.loads.leftCols(forces) -=
      M_shapes.leftCols(r.rigid) * system.modes.leftCols(r.rigid).transpose();
  for (Eigen::Index j = 0; j < elastic; ++j) {
    const double omega = system.circular_frequency[r.rigid + j];
    r.loads.col(forces + j) = omega * omega * M_shapes.col(r.rigid + j);
  }
  r.static_answer.resize(elastic, forces);
  for (Eigen::Index j = 0; j < elastic; ++j) {
    const double omega = system.circular_frequency[r.rigid + j];
    r.static_answer.row(j) = system.modes.col(r.rigid + j).transpose() / (omega * omega);
  }
  Model held = s.fine.model;
  held.supports = determinate_restraint(held);
  std::vector<Actions> units;
  for (Eigen::Index k = 0; k < forces; ++k) {
    units.push_back(nodal_actions(held, r.loads.col(k)));
  }
  const auto solved = StaticSolver(held).displacements(units);
  if (const auto* failure = solved.error()) {
    return failure_of_cut_frame(frame, numbered, failure->mechanism);
  }
  Eigen::MatrixXd answers(shapes.rows(), forces);
  for (Eigen::Index k = 0; k < forces; ++k) answers.col(k) = (*solved)[static_cast<size_t>(k)];
  answers -= shapes.leftCols(r.rigid) * (M_shapes.leftCols(r.rigid).transpose() * answers);
  r.rigid_shapes = shapes.leftCols(r.rigid);
  r.give.resize(shapes.rows(), forces + elastic);
  r.give << answers, shapes.rightCols(elastic);
  const Eigen::MatrixXd whole = c.loads.transpose() * answers.topRows(known);
  const Eigen::MatrixXd residual = whole - system.modes.rightCols(elastic) * r.static_answer;
  system.residual_flexibility = (residual + residual.transpose()) / 2;
  // What rounding leaves of a diagonal entry that is next to nothing.
  for (Eigen::Index k = 0; k < forces; ++k) {
    double& own = system.residual_flexibility(k, k);
    own = std::max(own, 0.0);
  }

  const auto standing = standing_ride(
      system, Eigen::VectorXd::Zero(static_cast<Eigen::Index>(c.tyres.size())), false);
  if (!standing) return Diagnostics{error_at(frame.vehicle->place, does_not_stand())};
  r.standing.assign(standing->tyre_forces.begin(), standing->tyre_forces.end());
  for (const CarriedMass& mass : frame.masses) r.carried.push_back(mass.name);
  r.carried_up = carried_rows(frame, numbered, r.vehicle.model, shapes);
  return r;
}

Actions ride_actions(const RideModel& model, const Eigen::VectorXd& x) {
  const Model& whole = model.vehicle.model;
  const Eigen::VectorXd loads = model.loads * x;
  Actions actions = no_actions(whole);
  actions.nodal = loads.head(actions.nodal.size());
  for (size_t b = 0; b < whole.beams.size(); ++b) {
    const std::vector<int>& nodes = model.fine.nodes[b];
    const auto pieces = static_cast<double>(nodes.size() - 1);
    for (size_t k = 1; k + 1 < nodes.size(); ++k) {
      const auto row = dofs_per_node * static_cast<Eigen::Index>(nodes[k]);
      actions.beams[b].points.push_back(
          {static_cast<double>(k) / pieces, loads.segment<3>(row), loads.segment<3>(row + 3)});
    }
  }
  return actions;
}

}  // namespace tubewright
