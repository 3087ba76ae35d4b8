#include "solver/statics/mechanism.h"

#include <algorithm>
#include <cmath>

#include "solver/elements/rigid_bodies.h"
#include "solver/linear_algebra/eigenpairs.h"
#include "solver/model/disjoint_sets.h"
#include "solver/statics/assembly.h"
#include "solver/statics/rigid_fit.h"
#include "solver/statics/unit_stiffness.h"
#include "solver/statics/zero_stiffness_dofs.h"

namespace tubewright {

namespace {

constexpr int most_motions = 12;
constexpr double shift = 1e-9;       // makes the scaled matrix definite
constexpr double negligible = 1e-6;  // share of the greatest movement that counts as none
/// Eigenvalue of the unit-diagonal matrix below which a vector may be a free motion. Rounding
/// leaves 1e-16 to 1e-13 of it; a chain of a thousand sound pieces has less than 1e-12 as well.
constexpr double candidate_limit = 1e-9;
/// Energy of a vector of unit length that counts as none. Summed over elements it has no rounding
/// of the sum's size in it: free motions come out below 1e-20, that chain above 1e-14.
constexpr double no_energy = 1e-17;
/// As candidate_limit, of the model's own stiffness: above it no motion is free.
constexpr double sure_limit = 1e-10;

/// 1/sqrt(K_ii), or 1 where that is not positive.
Eigen::VectorXd unit_scale(const SparseMatrix& K) {
  Eigen::VectorXd scale = K.diagonal();
  for (double& s : scale) s = s > 0 ? 1 / std::sqrt(s) : 1.0;
  return scale;
}

/// Columns: displacements, six a node, for vectors of the free DOFs.
Eigen::MatrixXd all_displacements(const Model& model, const FreeDofs& free,
                                  const Eigen::MatrixXd& vectors) {
  Eigen::MatrixXd u = Eigen::MatrixXd::Zero(dof_count(model), vectors.cols());
  for (Eigen::Index k = 0; k < vectors.cols(); ++k) {
    Eigen::VectorXd one = Eigen::VectorXd::Zero(u.rows());
    one(free.unknown) = vectors.col(k);
    follow_masters(model, free.masters, one);
    u.col(k) = one;
  }
  return u;
}

/// Columns: displacements that strain nothing, independent of each other.
Eigen::MatrixXd free_motions(const Model& model, const std::vector<bool>& slack) {
  const Model unit = with_unit_stiffness(model);
  const FreeDofs free = number_free_dofs(unit);
  SparseMatrix K = assemble_stiffness(unit, free, slack);
  const std::vector<ZeroStiffnessDof> loose = restrain_zero_stiffness_dofs(K, free);
  const Eigen::VectorXd scale = unit_scale(K);
  const SparseMatrix S = scale.asDiagonal() * K * scale.asDiagonal();
  const EigenSystem least = least_eigenpairs(S, free.node_of, most_motions, shift);
  Eigen::Index count = 0;
  while (count < least.values.size() && least.values[count] < candidate_limit) ++count;
  Eigen::MatrixXd candidates = all_displacements(
      model, free,
      scale.asDiagonal() * least.vectors.leftCols(std::min(count, least.vectors.cols())));
  if (candidates.cols() == 0) return candidates;
  Eigen::MatrixXd energy = element_energies(unit, slack, candidates);
  for (const ZeroStiffnessDof& l : loose) {  // these are held by hand
    const Eigen::RowVectorXd turn =
        l.axis.transpose() * candidates.middleRows<3>(dofs_per_node * l.node + 3);
    energy += turn.transpose() * turn;
  }
  const EigenSystem ritz = symmetric_eigensystem(energy);
  Eigen::Index none = 0;
  while (none < ritz.values.size() && ritz.values[none] < no_energy) ++none;
  return candidates * ritz.vectors.leftCols(std::min<Eigen::Index>(none, most_motions));
}

/// The part (nodes joined by elements) that each node belongs to.
std::vector<int> connected_parts(const Model& model, const std::vector<bool>& slack) {
  DisjointSets parts(model.nodes.size());
  for (const Beam& b : model.beams) parts.join(b.from, b.to);
  for (size_t i = 0; i < model.bars.size(); ++i) {
    if (!slack[i]) parts.join(model.bars[i].from, model.bars[i].to);
  }
  const std::vector<int> masters = masters_of(model);
  for (size_t i = 0; i < masters.size(); ++i) parts.join(static_cast<int>(i), masters[i]);
  return parts.firsts();
}

/// Mean distance of the ends of elements: turns rotations into lengths.
double typical_length(const Model& model) {
  double sum = 0;
  for (const Beam& b : model.beams) sum += (model.nodes[b.to] - model.nodes[b.from]).norm();
  for (const Bar& b : model.bars) sum += (model.nodes[b.to] - model.nodes[b.from]).norm();
  return sum / static_cast<double>(std::max<size_t>(1, model.beams.size() + model.bars.size()));
}

/// Does the part of `node` move as one piece? Fits a translation and a rotation to its nodes. A
/// part that spins about its own line moves no node: there the rotations must agree.
bool moves_rigidly(const Model& model, const Eigen::VectorXd& motion, const std::vector<int>& part,
                   int node) {
  std::vector<Eigen::Vector3d> r, u;
  double moved = 0, spin_difference = 0;
  const Eigen::Vector3d spin = motion.segment<3>(dofs_per_node * node + 3);
  for (int i = 0; i < static_cast<int>(part.size()); ++i) {
    if (part[i] != part[node]) continue;
    r.push_back(model.nodes[i]);
    u.emplace_back(motion.segment<3>(dofs_per_node * i));
    moved = std::hypot(moved, u.back().norm());
    spin_difference =
        std::max(spin_difference, (motion.segment<3>(dofs_per_node * i + 3) - spin).norm());
  }
  const double none = negligible * motion.norm();
  if (moved <= none) return spin_difference <= none;
  const RigidMotion fit = fit_rigid_motion(r, u, std::vector<double>(r.size(), 1.0));
  double misfit = 0;
  for (size_t k = 0; k < r.size(); ++k) misfit = std::hypot(misfit, (u[k] - fit.at(r[k])).norm());
  return misfit < negligible * moved;
}

/// Column operations that give each motion one unknown that is 1 in it and 0 in all others: the one
/// that moves most. Rows are weighted so that translations are preferred to rotations.
std::vector<Eigen::Index> reduce(Eigen::MatrixXd& motions) {
  std::vector<Eigen::Index> pivots;
  for (Eigen::Index k = 0; k < motions.cols(); ++k) {
    Eigen::Index row = 0, column = 0;
    motions.rightCols(motions.cols() - k).cwiseAbs().maxCoeff(&row, &column);
    motions.col(k).swap(motions.col(k + column));
    motions.col(k) /= motions(row, k);
    for (Eigen::Index j = 0; j < motions.cols(); ++j) {
      if (j != k) motions.col(j) -= motions(row, j) * motions.col(k);
    }
    pivots.push_back(row);
  }
  return pivots;
}

std::vector<int> moving_nodes(const Eigen::VectorXd& motion) {
  std::vector<std::pair<double, int>> found;
  const double greatest = motion.cwiseAbs().maxCoeff();
  for (Eigen::Index n = 0; n < motion.size() / dofs_per_node; ++n) {
    const double size = motion.segment<6>(dofs_per_node * n).cwiseAbs().maxCoeff();
    if (size > negligible * greatest) found.emplace_back(-size, static_cast<int>(n));
  }
  std::sort(found.begin(), found.end());
  std::vector<int> nodes;
  for (const auto& [size, node] : found) nodes.push_back(node);
  return nodes;
}

}  // namespace

bool surely_resists(const Factorisation& factor, const SparseMatrix& lower) {
  if (!factor.positive_definite()) return false;
  if (lower.cols() == 0) return true;
  // Inverse iteration on S = D^-1/2 K D^-1/2, from a vector that no motion is square to.
  const Eigen::VectorXd root = unit_scale(lower).cwiseInverse();
  Eigen::VectorXd x(lower.cols());
  for (Eigen::Index i = 0; i < x.size(); ++i) {
    x[i] = std::sin(1.0 + 12.9898 * static_cast<double>(i));
  }
  double least = 0;
  constexpr int rounds = 3;
  for (int i = 0; i < rounds; ++i) {
    const Eigen::VectorXd start = x.normalized();
    x = root.cwiseProduct(factor.solve(root.cwiseProduct(start)).col(0));
    least = 1 / x.norm();
  }
  return least > sure_limit;  // false for NaN
}

Mechanism find_mechanism(const Model& model, const std::vector<bool>& slack) {
  Eigen::MatrixXd motions = free_motions(model, slack);
  if (motions.cols() == 0) return {};
  const double length = typical_length(model);
  for (Eigen::Index i = 0; i < motions.rows(); ++i) {
    // Rotations as far as they move a member's end.
    if (i % dofs_per_node >= 3) motions.row(i) *= length / 2;
  }
  const std::vector<Eigen::Index> pivots = reduce(motions);

  const std::vector<int> part = connected_parts(model, slack);
  Mechanism mechanism;
  for (size_t k = 0; k < pivots.size(); ++k) {
    FreeMotion motion;
    motion.node = static_cast<int>(pivots[k]) / dofs_per_node;
    motion.direction = static_cast<int>(pivots[k]) % dofs_per_node;
    motion.moving = moving_nodes(motions.col(static_cast<Eigen::Index>(k)));
    motion.rigid_body =
        moves_rigidly(model, motions.col(static_cast<Eigen::Index>(k)), part, motion.node);
    mechanism.motions.push_back(std::move(motion));
  }
  return mechanism;
}

}  // namespace tubewright
