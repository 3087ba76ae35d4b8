#include "solver/statics/mechanism.h"

#include <algorithm>
#include <cmath>

#include "solver/elements/rigid_bodies.h"
#include "solver/linear_algebra/eigenpairs.h"
#include "solver/model/disjoint_sets.h"
#include "solver/statics/rigid_fit.h"

namespace tubewright {

namespace {

constexpr int most_motions = 12;
constexpr double shift = 1e-9;        // makes the scaled matrix definite
constexpr double null_limit = 1e-13;  // eigenvalue of the unit-diagonal matrix that counts as zero
constexpr double negligible = 1e-6;   // share of the greatest movement that counts as none

/// Columns: eigenvectors of the smallest eigenvalues of S, those that count as zero, at least one.
Eigen::MatrixXd null_vectors(const SparseMatrix& S, const FreeDofs& free) {
  const EigenSystem least = least_eigenpairs(S, free.node_of, most_motions, shift);
  Eigen::Index count = 0;
  while (count < std::min<Eigen::Index>(least.values.size(), most_motions) &&
         least.values[count] < null_limit) {
    ++count;
  }
  return least.vectors.leftCols(std::max<Eigen::Index>(1, count));
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

bool is_stable(const Factorisation& K) {
  return K.positive_definite() &&
         (K.pivot_ratios().size() == 0 || K.pivot_ratios().minCoeff() > least_pivot_ratio);
}

Mechanism find_mechanism(const Model& model, const FreeDofs& free, const SparseMatrix& K,
                         const std::vector<bool>& slack) {
  const Eigen::Index n = K.cols();
  Eigen::VectorXd scale(n);
  for (Eigen::Index i = 0; i < n; ++i) {
    const double k = K.coeff(i, i);
    scale[i] = k > 0 ? 1 / std::sqrt(k) : 1.0;
  }
  const SparseMatrix S = scale.asDiagonal() * K * scale.asDiagonal();
  const Eigen::MatrixXd null = null_vectors(S, free);

  const double length = typical_length(model);
  Eigen::MatrixXd motions = Eigen::MatrixXd::Zero(dof_count(model), null.cols());
  for (Eigen::Index i = 0; i < n; ++i) motions.row(free.unknown[i]) = scale[i] * null.row(i);
  for (Eigen::Index k = 0; k < motions.cols(); ++k) {
    Eigen::VectorXd u = motions.col(k);
    follow_masters(model, free.masters, u);
    for (Eigen::Index i = 0; i < u.size(); ++i) {
      if (i % dofs_per_node >= 3) u[i] *= length / 2;  // as far as it moves a member's end
    }
    motions.col(k) = u;
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
