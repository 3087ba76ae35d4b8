#include "solver/stability/modes.h"

#include <Eigen/Geometry>
#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "solver/elements/beam_matrices.h"
#include "solver/elements/rigid_bodies.h"
#include "solver/linear_algebra/dense.h"
#include "solver/linear_algebra/eigenpairs.h"
#include "solver/statics/assembly.h"
#include "solver/statics/determinate_restraint.h"
#include "solver/statics/zero_stiffness_dofs.h"

namespace tubewright {

namespace {

constexpr int rigid_motions = 6;

void for_each_mass(const Model& model, const std::vector<AddedMass>& added,
                   const ElementVisitor& visit) {
  for (const Beam& beam : model.beams) {
    const BeamElement e = beam_element(model, beam);
    visit(std::array{beam.from, beam.to}, seen_from_joints(e, local_mass(e)));
  }
  for (const AddedMass& m : added) visit(m.nodes, m.M);
}

/// How many of its rigid-body motions a free model keeps on this ground.
int rigid_motions_left(const Model& model, const std::vector<GroundStiffness>& ground) {
  if (ground.empty()) return rigid_motions;
  Eigen::AlignedBox3d box;
  for (const Eigen::Vector3d& node : model.nodes) box.extend(node);
  const double arm = box.diagonal().norm();  // turns count by what they move here
  Eigen::Matrix<double, 6, 6> resisted = Eigen::Matrix<double, 6, 6>::Zero();
  for (const GroundStiffness& g : ground) {
    Eigen::MatrixXd motion = Eigen::MatrixXd::Zero(g.K.rows(), rigid_motions);
    for (size_t n = 0; n < g.nodes.size(); ++n) {
      const Eigen::Vector3d r = model.nodes[g.nodes[n]] - box.center();
      const auto row = dofs_per_node * static_cast<Eigen::Index>(n);
      motion.block<3, 3>(row, 0).setIdentity();
      for (int axis = 0; axis < 3; ++axis) {
        const Eigen::Vector3d turn = Eigen::Vector3d::Unit(axis) / arm;
        motion.block<3, 1>(row, 3 + axis) = turn.cross(r);
        motion.block<3, 1>(row + 3, 3 + axis) = turn;
      }
    }
    resisted += motion.transpose() * g.K * motion;
  }
  constexpr double nothing = 1e-9;  // of the greatest: rounding leaves about 1e-16
  const Eigen::VectorXd values = symmetric_eigensystem(Eigen::MatrixXd(resisted)).values;
  return static_cast<int>((values.array() <= nothing * values.maxCoeff()).count());
}

/// Free motions of the model held by nothing but supports that take nothing, or as it is held.
std::optional<Mechanism> part_that_moves(const Model& model, bool held) {
  Model restrained = model;
  if (!held) restrained.supports = determinate_restraint(model);
  // Nodes all on one line: no translations stop the model from spinning about it.
  if (!held && restrained.supports.size() < rigid_motions) return std::nullopt;
  const std::vector<bool> taut(model.bars.size(), false);
  const FreeDofs free = number_free_dofs(restrained);
  SparseMatrix K = assemble_stiffness(restrained, free, taut);
  restrain_zero_stiffness_dofs(K, free);
  if (surely_resists(Factorisation(K, free.node_of), K)) return std::nullopt;
  Mechanism found = find_mechanism(restrained, taut);
  if (found.empty()) return std::nullopt;
  return found;
}

}  // namespace

Eigen::VectorXd apply_mass(const Model& model, const std::vector<AddedMass>& added,
                           const Eigen::VectorXd& u) {
  Eigen::VectorXd f = Eigen::VectorXd::Zero(u.size());
  for_each_mass(model, added, [&](std::span<const int> nodes, const auto& M) {
    for (size_t a = 0; a < nodes.size(); ++a) {
      for (size_t b = 0; b < nodes.size(); ++b) {
        f.segment<6>(dofs_per_node * nodes[a]) +=
            M.template block<6, 6>(6 * a, 6 * b) * u.segment<6>(dofs_per_node * nodes[b]);
      }
    }
  });
  return f;
}

// K x = omega^2 M x turned round: M x = mu (K + s M) x, omega^2 = 1/mu - s. A free model needs s >
// 0; it is kept small against the first elastic omega^2 so that the rigid motions stand far apart.
Outcome<Modes, Mechanism> natural_modes(const Model& model, const std::vector<AddedMass>& added,
                                        int count, const std::vector<GroundStiffness>& ground) {
  const bool held = !model.supports.empty();
  if (auto mechanism = part_that_moves(model, held)) return *mechanism;
  const FreeDofs free = number_free_dofs(model);
  const std::vector<bool> taut(model.bars.size(), false);
  SparseMatrix K = assemble_stiffness(model, free, taut);
  if (!ground.empty()) {
    K += assemble_parts(model, free, [&](const ElementVisitor& visit) {
      for (const GroundStiffness& g : ground) visit(g.nodes, g.K);
    });
  }
  restrain_zero_stiffness_dofs(K, free);
  const int at_rest = held ? 0 : rigid_motions_left(model, ground);
  const SparseMatrix M = assemble_parts(
      model, free, [&](const ElementVisitor& visit) { for_each_mass(model, added, visit); });

  Modes result;
  const double mass = M.diagonal().sum();
  if (!(mass > 0)) {  // nothing that could swing
    result.complete = true;
    return result;
  }
  constexpr double small_shift = 1e-9;
  const double shift = held ? 0 : small_shift * K.diagonal().sum() / mass;
  const SparseMatrix B = K + shift * M;
  const Eigenpairs pairs = largest_eigenpairs(M, B, free.node_of, count + at_rest);
  result.complete = pairs.complete;
  for (size_t k = 0; k < pairs.values.size(); ++k) {
    const double square = 1 / pairs.values[k] - shift;
    Mode mode;
    mode.rigid = static_cast<int>(k) < at_rest;
    mode.frequency = mode.rigid ? 0 : std::sqrt(std::max(0.0, square)) / (2 * std::numbers::pi);
    mode.shape = Eigen::VectorXd::Zero(dof_count(model));
    mode.shape(free.unknown) =
        pairs.vectors.col(static_cast<Eigen::Index>(k)) / std::sqrt(pairs.values[k]);
    follow_masters(model, free.masters, mode.shape);
    result.modes.push_back(std::move(mode));
  }
  return result;
}

}  // namespace tubewright
