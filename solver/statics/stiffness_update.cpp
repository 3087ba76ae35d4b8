#include "solver/statics/stiffness_update.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "solver/linear_algebra/dense.h"
#include "solver/statics/mechanism.h"
#include "solver/statics/zero_stiffness_dofs.h"

namespace tubewright {

namespace {

/// Free DOFs up to which the whole inverse is kept: 18 MB, and quick to make.
constexpr size_t most_kept = 1500;
/// DOFs that a difference may touch: beyond them its eigensystem costs more than a factorisation.
constexpr size_t most_touched = 72;
/// Of the greatest stiffness: entries of a difference below are rounding.
constexpr double rounding = 1e-14;
/// Of the greatest stiffness of the difference: eigenvalues below are rounding.
constexpr double no_stiffness = 1e-13;

/// Rows, ascending, in which lower triangles differ by more than `least`.
std::vector<int> touched_rows(const SparseMatrix& difference, double least) {
  std::vector<bool> touched(static_cast<size_t>(difference.rows()), false);
  for (int column = 0; column < difference.outerSize(); ++column) {
    for (SparseMatrix::InnerIterator it(difference, column); it; ++it) {
      if (!(std::abs(it.value()) > least)) continue;
      touched[static_cast<size_t>(it.row())] = touched[static_cast<size_t>(column)] = true;
    }
  }
  std::vector<int> rows;
  for (size_t i = 0; i < touched.size(); ++i) {
    if (touched[i]) rows.push_back(static_cast<int>(i));
  }
  return rows;
}

/// The block of a lower triangle on `rows`, ascending.
Eigen::MatrixXd lower_block(const SparseMatrix& lower, const std::vector<int>& rows) {
  const auto n = static_cast<Eigen::Index>(rows.size());
  Eigen::MatrixXd block(n, n);
  for (Eigen::Index j = 0; j < n; ++j) {
    for (Eigen::Index i = j; i < n; ++i) {
      block(i, j) = block(j, i) =
          lower.coeff(rows[static_cast<size_t>(i)], rows[static_cast<size_t>(j)]);
    }
  }
  return block;
}

}  // namespace

BaseStiffness::BaseStiffness(const Model& model) : free_(number_free_dofs(model)) {
  K_ = assemble_stiffness(model, free_, std::vector<bool>(model.bars.size(), false));
  restrain_zero_stiffness_dofs(K_, free_);
  factor_.emplace(K_, free_.node_of);
  sound_ = surely_resists(*factor_, K_);
  const auto n = static_cast<Eigen::Index>(free_.unknown.size());
  if (sound_ && free_.unknown.size() <= most_kept) {
    inverse_ = factor_->solve(Eigen::MatrixXd::Identity(n, n));
  }
}

Eigen::MatrixXd BaseStiffness::solve(const Eigen::MatrixXd& F) const {
  const std::lock_guard lock(solving_);
  return factor_->solve(F);
}

Eigen::MatrixXd BaseStiffness::inverse_columns(const std::vector<int>& columns) const {
  if (inverse_.size() > 0) return inverse_(Eigen::all, columns);
  Eigen::MatrixXd units = Eigen::MatrixXd::Zero(static_cast<Eigen::Index>(free_.unknown.size()),
                                                static_cast<Eigen::Index>(columns.size()));
  for (Eigen::Index c = 0; c < units.cols(); ++c) units(columns[static_cast<size_t>(c)], c) = 1;
  return solve(units);
}

void BaseStiffnesses::add(const Model& model) {
  auto base = std::make_unique<BaseStiffness>(model);
  if (base->sound()) list_.push_back(std::move(base));
}

const BaseStiffness* BaseStiffnesses::matching(const FreeDofs& free) const {
  for (const auto& base : list_) {
    if (base->free().unknown == free.unknown && base->free().masters == free.masters) {
      return base.get();
    }
  }
  return nullptr;
}

std::optional<StiffnessUpdate> StiffnessUpdate::between(const BaseStiffness& base,
                                                        const SparseMatrix& changed) {
  const SparseMatrix difference = changed - base.K();
  const double greatest = base.K().diagonal().cwiseAbs().maxCoeff();
  const std::vector<int> rows = touched_rows(difference, rounding * greatest);
  const Eigen::Index n = changed.rows();
  if (rows.empty()) return StiffnessUpdate(base, Eigen::MatrixXd(n, 0), Eigen::VectorXd(0), 1);
  if (rows.size() > most_touched) return std::nullopt;
  // difference = Q C Q' on the touched rows
  const EigenSystem own = symmetric_eigensystem(lower_block(difference, rows));
  const double rounded = no_stiffness * own.values.cwiseAbs().maxCoeff();
  std::vector<int> kept;
  for (int k = 0; k < static_cast<int>(own.values.size()); ++k) {
    if (std::abs(own.values[k]) > rounded) kept.push_back(k);
  }
  const Eigen::MatrixXd Q = own.vectors(Eigen::all, kept);
  const Eigen::VectorXd C = own.values(kept);
  const Eigen::MatrixXd KQ = base.inverse_columns(rows) * Q;
  const Eigen::MatrixXd R = Q.transpose() * KQ(rows, Eigen::all);
  // R C R v = mu R v with v' R v = 1: then C = V M V', and Z = Q V
  const auto against = symmetric_eigensystem(R * C.asDiagonal() * R, R);
  if (!against) return std::nullopt;
  const Eigen::VectorXd& mu = against->values;
  const double share_left = std::min(1.0, 1 + mu.minCoeff());
  if (!(share_left >= least_share_left)) return std::nullopt;
  return StiffnessUpdate(base, KQ * against->vectors, mu.array() / (1 + mu.array()), share_left);
}

Eigen::MatrixXd StiffnessUpdate::solve(const Eigen::MatrixXd& F) const {
  Eigen::MatrixXd X = base_->solve(F);
  // Y' F = Z' K^-1 F
  X -= Y_ * (factors_.asDiagonal() * (Y_.transpose() * F)).eval();
  return X;
}

}  // namespace tubewright
