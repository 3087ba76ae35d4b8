// A model that differs in few elements from one that is factorised already, solved without
// factorising again.
//
// Both have the same free DOFs. With T the DOFs where the stiffnesses differ,
//   K' = K + Z M Z',  Z' K^-1 Z = I,  M = diag(mu)
// by the eigensystem of the difference on T against K^-1 there, and
//   K'^-1 = K^-1 - Y diag(mu/(1 + mu)) Y',  Y = K^-1 Z
// (the Sherman-Morrison-Woodbury formula; W. W. Hager, SIAM Review 31 (1989) 221-239; from memory,
// in this form derived: I + mu are the eigenvalues of K^-1 K'). A tube that is lost has at most six
// mu, none below -1; mu = -1 says that nothing takes its place: the frame is a mechanism without
// it. Rounding grows by 1/(1 + mu), and one step of refinement takes it back.
#pragma once

#include <Eigen/Core>
#include <memory>
#include <mutex>
#include <optional>
#include <vector>

#include "solver/linear_algebra/factorisation.h"
#include "solver/linear_algebra/sparse_matrix.h"
#include "solver/statics/assembly.h"

namespace tubewright {

/// A stiffness matrix factorised once, for others that differ from it in little. Solves on any
/// number of threads at once.
class BaseStiffness {
 public:
  /// Cables count as taut.
  explicit BaseStiffness(const Model& model);

  /// False: it is a mechanism or nearly one, and must not be solved with.
  bool sound() const { return sound_; }
  const FreeDofs& free() const { return free_; }
  const SparseMatrix& K() const { return K_; }  ///< lower triangle

  /// K^-1 F. Requires: sound().
  Eigen::MatrixXd solve(const Eigen::MatrixXd& F) const;

  /// Columns of K^-1. Requires: sound().
  Eigen::MatrixXd inverse_columns(const std::vector<int>& columns) const;

 private:
  FreeDofs free_;
  SparseMatrix K_;
  std::optional<Factorisation> factor_;
  Eigen::MatrixXd inverse_;  ///< empty where it would be large
  bool sound_ = false;
  mutable std::mutex solving_;
};

/// Models that others are changed from, as each is held.
class BaseStiffnesses {
 public:
  /// A model that is not sound is left out.
  void add(const Model& model);
  /// The one with these free DOFs; null if there is none.
  const BaseStiffness* matching(const FreeDofs& free) const;

 private:
  std::vector<std::unique_ptr<BaseStiffness>> list_;
};

/// K'^-1 by a base's K^-1.
class StiffnessUpdate {
 public:
  /// `changed`: lower triangle of K'. Nothing where factorising is as quick or is to judge: the
  /// difference is wide, or the least 1 + mu is below `least_share_left`. Keeps a reference to the
  /// base.
  static std::optional<StiffnessUpdate> between(const BaseStiffness& base,
                                                const SparseMatrix& changed);

  Eigen::MatrixXd solve(const Eigen::MatrixXd& F) const;

  /// The least 1 + mu, 1 if nothing became softer: what is left of the stiffness against the motion
  /// that lost most of it.
  double share_left() const { return share_left_; }
  Eigen::Index rank() const { return factors_.size(); }

 private:
  StiffnessUpdate(const BaseStiffness& base, Eigen::MatrixXd Y, Eigen::VectorXd factors,
                  double share_left)
      : base_(&base), Y_(std::move(Y)), factors_(std::move(factors)), share_left_(share_left) {}

  const BaseStiffness* base_;
  Eigen::MatrixXd Y_;
  Eigen::VectorXd factors_;  ///< mu/(1 + mu)
  double share_left_ = 1;
};

/// Below it a frame is all but a mechanism: factorised afresh (true mechanisms come out below
/// 1e-15, sound frames lose down to some 1e-3; thresholds by judgement).
constexpr double least_share_left = 1e-4;

}  // namespace tubewright
