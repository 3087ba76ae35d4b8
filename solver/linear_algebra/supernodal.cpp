#include "solver/linear_algebra/supernodal.h"

#include <new>
#include <stdexcept>

#include "solver/linear_algebra/blas_threads.h"
#include "solver/linear_algebra/cholmod_workspace.h"

namespace tubewright {

struct SupernodalFactor::Impl {
  CholmodWorkspace workspace;
  cholmod_factor* L = nullptr;
  bool positive_definite = false;

  ~Impl() { cholmod_free_factor(&L, &workspace.common); }

  void take_over_order();
  void check_resources() const;
  /// `system`: which of CHOLMOD's systems with the factor.
  Eigen::MatrixXd solve(int system, const Eigen::MatrixXd& F);
};

void SupernodalFactor::Impl::take_over_order() {
  cholmod_common& c = workspace.common;
  c.nmethods = 1;
  c.method[0].ordering = CHOLMOD_NATURAL;  // the matrix comes in its order,
  c.postorder = 0;                         // and that is a postorder
  c.supernodal = CHOLMOD_SUPERNODAL;
  c.quick_return_if_not_posdef = 1;
  // Merging columns counted in whole nodes of six DOFs; the best of several settings measured.
  c.nrelax[0] = 12;
  c.nrelax[1] = 36;
  c.nrelax[2] = 96;
}

void SupernodalFactor::Impl::check_resources() const {
  const int status = workspace.common.status;
  if (status == CHOLMOD_OUT_OF_MEMORY) throw std::bad_alloc();
  if (status == CHOLMOD_TOO_LARGE)
    throw std::length_error("the stiffness matrix fills too heavily");
}

SupernodalFactor::SupernodalFactor(SparseMatrix lower, double operations)
    : impl_(std::make_unique<Impl>()) {
  Impl& f = *impl_;
  f.take_over_order();
  const SingleThreaded single;
  const BlasThreads threads(operations >= work_for_blas_threads);
  cholmod_sparse A = lower_view(static_cast<int>(lower.cols()), lower.outerIndexPtr(),
                                lower.innerIndexPtr(), lower.valuePtr());
  f.L = cholmod_analyze(&A, &f.workspace.common);
  f.check_resources();
  if (f.L == nullptr) return;
  cholmod_factorize(&A, f.L, &f.workspace.common);
  f.check_resources();
  f.positive_definite =
      f.workspace.common.status == CHOLMOD_OK && f.L->minor == f.L->n && pivots().allFinite();
}

SupernodalFactor::~SupernodalFactor() = default;

bool SupernodalFactor::positive_definite() const { return impl_->positive_definite; }

// Supernode s is a dense block of pi[s + 1] - pi[s] rows that starts at x[px[s]]; its columns are
// super[s] to super[s + 1] - 1, its first rows the same.
Eigen::VectorXd SupernodalFactor::pivots() const {
  const cholmod_factor* L = impl_->L;
  if (L == nullptr || L->x == nullptr || !L->is_super) return {};
  Eigen::VectorXd D = Eigen::VectorXd::Zero(static_cast<Eigen::Index>(L->n));
  const auto* super = static_cast<const int*>(L->super);
  const auto* pi = static_cast<const int*>(L->pi);
  const auto* px = static_cast<const int*>(L->px);
  const auto* x = static_cast<const double*>(L->x);
  for (size_t s = 0; s < L->nsuper; ++s) {
    const auto rows = static_cast<size_t>(pi[s + 1] - pi[s]);
    for (int j = super[s]; j < super[s + 1] && static_cast<size_t>(j) < L->minor; ++j) {
      const auto column = static_cast<size_t>(j - super[s]);
      const double diagonal = x[static_cast<size_t>(px[s]) + column * (rows + 1)];
      D[j] = diagonal * diagonal;
    }
  }
  return D;
}

Eigen::MatrixXd SupernodalFactor::Impl::solve(int system, const Eigen::MatrixXd& F) {
  cholmod_dense B = {};
  B.nrow = static_cast<size_t>(F.rows());
  B.ncol = static_cast<size_t>(F.cols());
  B.nzmax = B.nrow * B.ncol;
  B.d = B.nrow;
  B.x = const_cast<double*>(F.data());  // read only
  B.xtype = CHOLMOD_REAL;
  B.dtype = CHOLMOD_DOUBLE;
  const SingleThreaded single;
  const BlasThreads threads(false);
  cholmod_dense* X = cholmod_solve(system, L, &B, &workspace.common);
  if (X == nullptr) throw std::bad_alloc();
  Eigen::MatrixXd result =
      Eigen::Map<const Eigen::MatrixXd>(static_cast<const double*>(X->x), F.rows(), F.cols());
  cholmod_free_dense(&X, &workspace.common);
  return result;
}

Eigen::MatrixXd SupernodalFactor::solve(const Eigen::MatrixXd& F) const {
  return impl_->solve(CHOLMOD_A, F);
}

Eigen::MatrixXd SupernodalFactor::solve_lower(const Eigen::MatrixXd& F) const {
  return impl_->solve(CHOLMOD_L, F);
}

Eigen::MatrixXd SupernodalFactor::solve_upper(const Eigen::MatrixXd& F) const {
  return impl_->solve(CHOLMOD_Lt, F);
}

}  // namespace tubewright
