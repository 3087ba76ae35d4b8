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

/// Columns: the model's six rigid-body motions, six entries a node, turns by what they move at the
/// edge of the frame.
Eigen::MatrixXd rigid_motions_of(const Model& model) {
  Eigen::AlignedBox3d box;
  for (const Eigen::Vector3d& node : model.nodes) box.extend(node);
  const double arm = box.diagonal().norm();
  Eigen::MatrixXd motion = Eigen::MatrixXd::Zero(dof_count(model), rigid_motions);
  for (size_t n = 0; n < model.nodes.size(); ++n) {
    const Eigen::Vector3d r = model.nodes[n] - box.center();
    const auto row = dofs_per_node * static_cast<Eigen::Index>(n);
    motion.block<3, 3>(row, 0).setIdentity();
    for (int axis = 0; axis < 3; ++axis) {
      const Eigen::Vector3d turn = Eigen::Vector3d::Unit(axis) / arm;
      motion.block<3, 1>(row, 3 + axis) = turn.cross(r);
      motion.block<3, 1>(row + 3, 3 + axis) = turn;
    }
  }
  return motion;
}

/// Combinations of the columns of `motions` on which the quadratic form `Q` is nothing.
Eigen::MatrixXd where_nothing(const Eigen::MatrixXd& motions, const Eigen::MatrixXd& Q) {
  constexpr double nothing = 1e-9;  // of the greatest: rounding leaves about 1e-16
  const EigenSystem system = symmetric_eigensystem(Q);
  const auto count = (system.values.array() <= nothing * system.values.maxCoeff()).count();
  return motions * system.vectors.leftCols(count);
}

/// Rigid-body motions that a free model keeps on this ground, on all DOFs.
Eigen::MatrixXd rigid_motions_left(const Model& model, const std::vector<GroundStiffness>& ground) {
  Eigen::MatrixXd motions = rigid_motions_of(model);
  if (ground.empty()) return motions;
  Eigen::MatrixXd resisted = Eigen::MatrixXd::Zero(rigid_motions, rigid_motions);
  for (const GroundStiffness& g : ground) {
    Eigen::MatrixXd part(g.K.rows(), rigid_motions);
    for (size_t n = 0; n < g.nodes.size(); ++n) {
      part.middleRows<dofs_per_node>(dofs_per_node * static_cast<Eigen::Index>(n)) =
          motions.middleRows<dofs_per_node>(dofs_per_node * g.nodes[n]);
    }
    resisted += part.transpose() * g.K * part;
  }
  return where_nothing(motions, resisted);
}

/// The motions on the free DOFs, mass-normalised; without those that move no mass.
Eigen::MatrixXd mass_normalised(const Eigen::MatrixXd& motions, const FreeDofs& free,
                                const SparseMatrix& M) {
  Eigen::MatrixXd on_free = motions(free.unknown, Eigen::all);
  if (on_free.cols() == 0) return on_free;
  const Eigen::MatrixXd image = M.selfadjointView<Eigen::Lower>() * on_free;
  const EigenSystem mass = symmetric_eigensystem(Eigen::MatrixXd(on_free.transpose() * image));
  constexpr double nothing = 1e-14;  // of the greatest
  Eigen::Index first = 0;
  while (first < mass.values.size() && mass.values[first] <= nothing * mass.values.maxCoeff()) {
    ++first;
  }
  const Eigen::Index kept = mass.values.size() - first;
  return on_free * mass.vectors.rightCols(kept) *
         mass.values.tail(kept).cwiseSqrt().cwiseInverse().asDiagonal();
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
  for_each_mass(model, added,
                [&](std::span<const int> nodes, const auto& M) { add_product(nodes, M, u, f); });
  return f;
}

namespace {

/// A model's matrices on its free DOFs.
struct ModeMatrices {
  FreeDofs free;
  SparseMatrix K, M;
  Eigen::MatrixXd rigid;  ///< columns: rigid-body motions, mass-normalised
};

ModeMatrices mode_matrices(const Model& model, const std::vector<AddedMass>& added,
                           const std::vector<GroundStiffness>& ground) {
  ModeMatrices m{number_free_dofs(model), {}, {}, {}};
  const std::vector<bool> taut(model.bars.size(), false);
  m.K = assemble_stiffness(model, m.free, taut);
  if (!ground.empty()) {
    m.K += assemble_parts(model, m.free, [&](const ElementVisitor& visit) {
      for (const GroundStiffness& g : ground) visit(g.nodes, g.K);
    });
  }
  const std::vector<ZeroStiffnessDof> loose = restrain_zero_stiffness_dofs(m.K, m.free);
  m.M = assemble_parts(model, m.free,
                       [&](const ElementVisitor& visit) { for_each_mass(model, added, visit); });
  const bool held = !model.supports.empty();
  Eigen::MatrixXd motions =
      held ? Eigen::MatrixXd(dof_count(model), 0) : rigid_motions_left(model, ground);
  for (const ZeroStiffnessDof& l : loose) {  // they do not turn along: they are held by hand
    if (motions.cols() == 0) break;
    const Eigen::Index row = dofs_per_node * l.node + 3;
    const Eigen::RowVectorXd turn = l.axis.transpose() * motions.middleRows<3>(row);
    motions.middleRows<3>(row) -= l.axis * turn;
  }
  m.rigid = mass_normalised(motions, m.free, m.M);
  return m;
}

/// The elastic modes: K x = omega^2 M x turned round, M x = mu (K + s M) x, omega^2 = 1/mu - s.
Eigenpairs elastic_pairs(const ModeMatrices& m, double shift, int count) {
  const SparseMatrix B = m.K + shift * m.M;
  return largest_eigenpairs(m.M, B, m.free.node_of, count, m.rigid);
}

/// K + s M has to be definite where the model is free. With a small s it nearly is not, and its
/// inverse has rounding of the size of the rigid motions in it: only good enough for a first look
/// at the first omega^2, which is then the shift.
double shift_for(const ModeMatrices& m, double mass) {
  if (m.rigid.cols() == 0) return 0;
  constexpr double first_look = 1e-9, least = 1e-12;
  const double scale = m.K.diagonal().sum() / mass;
  const Eigenpairs look = elastic_pairs(m, first_look * scale, 1);
  if (look.values.empty()) return first_look * scale;
  return std::max(1 / look.values.front() - first_look * scale, least * scale);
}

Mode mode_of(const Model& model, const FreeDofs& free, const Eigen::VectorXd& shape,
             double frequency) {
  Mode mode;
  mode.frequency = frequency;
  mode.shape = Eigen::VectorXd::Zero(dof_count(model));
  mode.shape(free.unknown) = shape;
  follow_masters(model, free.masters, mode.shape);
  return mode;
}

}  // namespace

Outcome<Modes, Mechanism> natural_modes(const Model& model, const std::vector<AddedMass>& added,
                                        int count, const std::vector<GroundStiffness>& ground) {
  if (auto mechanism = part_that_moves(model, !model.supports.empty())) return *mechanism;
  const ModeMatrices m = mode_matrices(model, added, ground);
  Modes result;
  const double mass = m.M.diagonal().sum();
  if (!(mass > 0)) {  // nothing that could swing
    result.complete = true;
    return result;
  }
  for (const auto& motion : m.rigid.colwise()) {
    result.modes.push_back(mode_of(model, m.free, motion, 0));
    result.modes.back().rigid = true;
  }
  const double shift = shift_for(m, mass);
  const Eigenpairs pairs = elastic_pairs(m, shift, count);
  result.complete = pairs.complete;
  for (size_t k = 0; k < pairs.values.size(); ++k) {
    const double square = std::max(0.0, 1 / pairs.values[k] - shift);
    const Eigen::VectorXd shape =
        pairs.vectors.col(static_cast<Eigen::Index>(k)) / std::sqrt(pairs.values[k]);
    result.modes.push_back(
        mode_of(model, m.free, shape, std::sqrt(square) / (2 * std::numbers::pi)));
  }
  return result;
}

}  // namespace tubewright
