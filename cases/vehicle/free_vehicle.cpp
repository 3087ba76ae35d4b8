#include "cases/vehicle/free_vehicle.h"

#include <Eigen/Geometry>
#include <algorithm>

#include "cases/model/spread_load.h"
#include "solver/linear_algebra/dense.h"
#include "solver/statics/determinate_restraint.h"
#include "solver/statics/rigid_fit.h"

namespace tubewright {

namespace {

bool contains(const std::vector<int>& list, int value) {
  return std::find(list.begin(), list.end(), value) != list.end();
}

/// A force and moment of the road on wheel `w`. On a rigid upright any of its nodes will do: there
/// the rest counts as a moment.
void add_at_wheel(const FreeVehicle& v, size_t w, const Eigen::Vector3d& at,
                  const Eigen::Vector3d& force, Actions& actions) {
  if (force.isZero(0)) return;
  add_spread(actions, v.model, v.carriers[w], at, force, Eigen::Vector3d::Zero());
}

}  // namespace

std::vector<int> brake_mount(const Frame& frame, const NumberedFrame& numbered,
                             const Wheel& wheel) {
  std::vector<int> mount = node_numbers(numbered, wheel.brake_mount);
  if (!mount.empty()) return mount;
  std::vector<int> carriers = node_numbers(numbered, wheel.carrier);
  if (wheel.hold == WheelHold::spread) return carriers;
  for (const Member& m : frame.members) {
    if (m.kind == MemberKind::beam) continue;
    const int from = numbered.node.at(m.from), to = numbered.node.at(m.to);
    for (const auto& [here, there] : {std::pair{from, to}, std::pair{to, from}}) {
      if (contains(carriers, here) && !contains(carriers, there) && !contains(mount, there)) {
        mount.push_back(there);
      }
    }
  }
  return mount.empty() ? carriers : mount;
}

FreeVehicle free_vehicle(const Frame& frame, const NumberedFrame& numbered) {
  FreeVehicle v;
  v.model = numbered.model;
  v.model.supports = determinate_restraint(v.model);
  v.distribution = mass_distribution(frame, numbered);
  v.mass = mass_properties(v.model, v.distribution);
  v.rigid = rigid_vehicle(*frame.vehicle, v.mass);
  for (const Wheel& wheel : frame.vehicle->wheels) {
    v.carriers.push_back(node_numbers(numbered, wheel.carrier));
    v.brake_mounts.push_back(brake_mount(frame, numbered, wheel));
    v.centres.push_back(wheel.centre);
  }
  return v;
}

BalancedActions balanced_actions(const FreeVehicle& v, const TyreForces& forces,
                                 const std::vector<NodeAction>& extra_forces,
                                 const std::vector<NodeAction>& extra_moments,
                                 const NumberedFrame& numbered) {
  BalancedActions result;
  Actions& actions = result.actions;
  Balance& balance = result.balance;
  actions = no_actions(v.model);
  const auto count = [&](const Eigen::Vector3d& at, const Eigen::Vector3d& force) {
    balance.force += force;
    balance.moment += (at - v.mass.centre).cross(force);
  };
  for (size_t w = 0; w < forces.wheels.size(); ++w) {
    const TyreForce& f = forces.wheels[w];
    add_at_wheel(v, w, v.rigid.contact[w], f.at_contact, actions);
    add_at_wheel(v, w, v.centres[w], f.at_centre, actions);
    count(v.rigid.contact[w], f.at_contact);
    count(v.centres[w], f.at_centre);
    if (f.mount_couple == 0) continue;
    const Eigen::Vector3d couple = f.mount_couple * Eigen::Vector3d::UnitY();
    const std::vector<int>& mount = v.brake_mounts[w];
    add_spread(actions, v.model, mount, v.model.nodes[mount.front()], Eigen::Vector3d::Zero(),
               couple);
    balance.moment += couple;
  }
  for (const HandlingForce& f : forces.handling) {
    add_spread(actions, v.model, node_numbers(numbered, f.on), f.at, f.force,
               Eigen::Vector3d::Zero());
    count(f.at, f.force);
  }
  for (const NodeAction& f : extra_forces) {
    const int node = numbered.node.at(f.node);
    actions.nodal.segment<3>(dofs_per_node * node) += f.value;
    count(v.model.nodes[node], f.value);
  }
  for (const NodeAction& m : extra_moments) {
    actions.nodal.segment<3>(dofs_per_node * numbered.node.at(m.node) + 3) += m.value;
    balance.moment += m.value;
  }
  balance.gravity = forces.gravity;
  balance.acceleration = forces.gravity + balance.force / v.mass.mass;
  balance.angular = solve_symmetric(v.mass.inertia, balance.moment);
  add_body_field(actions, v.model, v.distribution,
                 {forces.gravity - balance.acceleration, -balance.angular, v.mass.centre});
  return result;
}

void add_balanced(const FreeVehicle& v, const Actions& other, Actions& actions) {
  add_actions(actions, other, 1);
  Eigen::Vector3d force = Eigen::Vector3d::Zero(), moment = Eigen::Vector3d::Zero();
  const auto count = [&](const Eigen::Vector3d& at, const Eigen::Vector3d& f,
                         const Eigen::Vector3d& m) {
    force += f;
    moment += (at - v.mass.centre).cross(f) + m;
  };
  for (size_t n = 0; n < v.model.nodes.size(); ++n) {
    const auto f = other.nodal.segment<6>(dofs_per_node * static_cast<Eigen::Index>(n));
    count(v.model.nodes[n], f.head<3>(), f.tail<3>());
  }
  for (size_t b = 0; b < other.beams.size(); ++b) {
    const Beam& beam = v.model.beams[b];
    const Eigen::Vector3d &from = v.model.nodes[beam.from], &to = v.model.nodes[beam.to];
    for (const PointAction& p : other.beams[b].points) {
      count(from + p.at * (to - from), p.force, p.moment);
    }
  }
  add_body_field(actions, v.model, v.distribution,
                 {-force / v.mass.mass, -solve_symmetric(v.mass.inertia, moment), v.mass.centre});
}

void add_wheel_force(const FreeVehicle& v, size_t w, const Eigen::Vector3d& force,
                     Actions& actions) {
  add_at_wheel(v, w, v.rigid.contact[w], force, actions);
}

std::vector<double> contact_displacements(const FreeVehicle& v,
                                          const Eigen::VectorXd& displacements) {
  std::vector<double> up;
  for (size_t w = 0; w < v.carriers.size(); ++w) {
    Actions unit = no_actions(v.model);
    add_at_wheel(v, w, v.rigid.contact[w], Eigen::Vector3d::UnitZ(), unit);
    up.push_back(unit.nodal.dot(displacements));
  }
  return up;
}

void centre_motion(const FreeVehicle& v, StaticSolution& solution) {
  std::vector<Eigen::Vector3d> displacements;
  for (size_t n = 0; n < v.model.nodes.size(); ++n) {
    displacements.emplace_back(
        solution.displacements.segment<3>(dofs_per_node * static_cast<Eigen::Index>(n)));
  }
  const RigidMotion mean =
      fit_rigid_motion(v.model.nodes, displacements, nodal_masses(v.model, v.distribution));
  move_rigidly(v.model, mean.centre, -mean.translation, -mean.rotation, solution);
}

}  // namespace tubewright
