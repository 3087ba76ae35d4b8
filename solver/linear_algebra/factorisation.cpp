#include "solver/linear_algebra/factorisation.h"

#include <Eigen/SparseCholesky>
#include <cassert>
#include <cmath>
#include <limits>
#include <optional>
#include <stdexcept>

#include "solver/linear_algebra/least_work_order.h"
#include "solver/linear_algebra/node_ordering.h"
#include "solver/linear_algebra/permuted_matrix.h"
#ifdef TUBEWRIGHT_HAS_CHOLMOD
#include "solver/linear_algebra/supernodal.h"
#endif

namespace tubewright {

namespace {

/// Measured with tests/bench: below these the simplicial factorisation is the quicker one. Mean
/// operations an entry of the factor say how much a dense kernel has to work on; the total says
/// whether its set-up pays. For OpenBLAS; with the reference BLAS about 110 would be right.
constexpr double supernodal_operations_per_entry = 40;
constexpr double supernodal_operations = 4e5;

bool fills_heavily(const PredictedWork& work) {
  return work.operations > supernodal_operations &&
         work.operations > supernodal_operations_per_entry * work.entries;
}

/// Eigen's LDLT on a matrix that comes in elimination order.
using SimplicialFactor =
    Eigen::SimplicialLDLT<SparseMatrix, Eigen::Upper, Eigen::NaturalOrdering<int>>;

}  // namespace

struct Factorisation::Impl {
  std::vector<int> order;  ///< order[k]: the unknown eliminated k-th
  FactorisationMethod method = FactorisationMethod::simplicial;
  double operations = 0;  ///< predicted
  std::optional<SimplicialFactor> ldlt;
#ifdef TUBEWRIGHT_HAS_CHOLMOD
  std::optional<SupernodalFactor> llt;
#endif
  Eigen::VectorXd root_of_inverse_pivots;  ///< of an LDLT that is positive definite
  bool positive_definite = true;
  Eigen::VectorXd pivot_ratios;

  NodeOrder choose(const NodeGraph& graph, FactorisationMethod wanted);
  Eigen::VectorXd factorise(const SparseMatrix& lower);
};

/// Sets the method and returns the order of the nodes.
NodeOrder Factorisation::Impl::choose(const NodeGraph& graph, FactorisationMethod wanted) {
  NodeOrder best = minimum_degree_order(graph);
  if (fills_heavily(best.work)) best = least_work_order(graph, std::move(best));
  const bool heavy = supernodal_available() && fills_heavily(best.work);
  assert(wanted != FactorisationMethod::supernodal || supernodal_available());
  if (wanted == FactorisationMethod::automatic) {
    method = heavy ? FactorisationMethod::supernodal : FactorisationMethod::simplicial;
  } else {
    method = wanted;
  }
  return best;
}

/// Pivots in elimination order; sets positive_definite.
Eigen::VectorXd Factorisation::Impl::factorise(const SparseMatrix& lower) {
#ifdef TUBEWRIGHT_HAS_CHOLMOD
  if (method == FactorisationMethod::supernodal) {
    llt.emplace(permuted_lower(lower, order), operations);
    positive_definite = llt->positive_definite();
    return llt->pivots();
  }
#endif
  ldlt.emplace();
  ldlt->compute(permuted_upper(lower, order));
  positive_definite = ldlt->info() == Eigen::Success;
  return ldlt->vectorD();
}

namespace {

/// D_i / |K_ii|: where K_ii is not positive the matrix is not positive definite, and neither pivot
/// nor ratio is. After a pivot that is zero or not finite no entry of D means anything.
Eigen::VectorXd ratios_to_diagonal(const Eigen::VectorXd& pivots, const SparseMatrix& lower,
                                   const std::vector<int>& order) {
  Eigen::VectorXd ratios = Eigen::VectorXd::Zero(lower.cols());
  for (Eigen::Index k = 0; k < pivots.size(); ++k) {
    if (pivots[k] == 0 || !std::isfinite(pivots[k])) break;
    const double diagonal = std::abs(lower.coeff(order[k], order[k]));
    ratios[order[k]] = diagonal > 0 ? pivots[k] / diagonal : -1;
  }
  return ratios;
}

}  // namespace

bool supernodal_available() {
#ifdef TUBEWRIGHT_HAS_CHOLMOD
  return true;
#else
  return false;
#endif
}

Factorisation::Factorisation(const SparseMatrix& lower, const std::vector<int>& node_of,
                             FactorisationMethod method)
    : impl_(std::make_unique<Impl>()) {
  const Eigen::Index n = lower.cols();
  impl_->pivot_ratios = Eigen::VectorXd::Zero(n);
  if (n == 0) return;
  const NodeGraph graph = node_graph(lower, node_of);
  const NodeOrder nodes = impl_->choose(graph, method);
  impl_->operations = nodes.work.operations;
  if (impl_->method == FactorisationMethod::simplicial &&
      nodes.work.entries > std::numeric_limits<int>::max()) {
    throw std::length_error("the stiffness matrix fills too heavily");
  }
  impl_->order = unknown_order(graph, nodes.nodes);
  const Eigen::VectorXd pivots = impl_->factorise(lower);
  impl_->pivot_ratios = ratios_to_diagonal(pivots, lower, impl_->order);
  if (!impl_->pivot_ratios.allFinite() || impl_->pivot_ratios.minCoeff() <= 0) {
    impl_->positive_definite = false;
  }
  if (impl_->positive_definite && impl_->ldlt) {
    impl_->root_of_inverse_pivots = pivots.cwiseInverse().cwiseSqrt();
  }
}

Factorisation::~Factorisation() = default;
Factorisation::Factorisation(Factorisation&&) noexcept = default;
Factorisation& Factorisation::operator=(Factorisation&&) noexcept = default;

bool Factorisation::positive_definite() const { return impl_->positive_definite; }

const Eigen::VectorXd& Factorisation::pivot_ratios() const { return impl_->pivot_ratios; }

FactorisationMethod Factorisation::method() const { return impl_->method; }

Eigen::MatrixXd Factorisation::solve(const Eigen::MatrixXd& F) const {
  assert(positive_definite());
  if (F.rows() == 0) return F;
  Eigen::MatrixXd ordered = F(impl_->order, Eigen::all);
#ifdef TUBEWRIGHT_HAS_CHOLMOD
  if (impl_->llt) {
    ordered = impl_->llt->solve(ordered);
  } else
#endif
  {
    ordered = impl_->ldlt->solve(ordered).eval();
  }
  Eigen::MatrixXd X(F.rows(), F.cols());
  X(impl_->order, Eigen::all) = ordered;
  return X;
}

// P K P' = L D L' gives G = P' L D^(1/2).
Eigen::VectorXd Factorisation::solve_root(const Eigen::VectorXd& f) const {
  assert(positive_definite());
  if (f.size() == 0) return f;
  Eigen::VectorXd ordered = f(impl_->order);
#ifdef TUBEWRIGHT_HAS_CHOLMOD
  if (impl_->llt) return impl_->llt->solve_lower(ordered);
#endif
  impl_->ldlt->matrixL().solveInPlace(ordered);
  return ordered.cwiseProduct(impl_->root_of_inverse_pivots);
}

Eigen::VectorXd Factorisation::solve_root_transposed(const Eigen::VectorXd& f) const {
  assert(positive_definite());
  if (f.size() == 0) return f;
  Eigen::VectorXd x(f.size()), ordered;
#ifdef TUBEWRIGHT_HAS_CHOLMOD
  if (impl_->llt) {
    ordered = impl_->llt->solve_upper(f);
  } else
#endif
  {
    ordered = f.cwiseProduct(impl_->root_of_inverse_pivots);
    impl_->ldlt->matrixU().solveInPlace(ordered);
  }
  x(impl_->order) = ordered;
  return x;
}

}  // namespace tubewright
