#include "solver/factorisation.h"

#include <Eigen/SparseCholesky>
#include <cassert>
#include <optional>

#include "solver/node_ordering.h"
#include "solver/permuted_matrix.h"
#ifdef TUBEWRIGHT_HAS_CHOLMOD
#include "solver/supernodal.h"
#endif

namespace tubewright {

namespace {

/// Measured with tests/bench: below these the simplicial factorisation is the quicker one. Mean
/// operations an entry of the factor say how much a dense kernel has to work on; the total says
/// whether its set-up pays.
constexpr double supernodal_operations_per_entry = 60;
constexpr double supernodal_operations = 2e6;

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
  std::optional<SimplicialFactor> simplicial;
#ifdef TUBEWRIGHT_HAS_CHOLMOD
  std::optional<SupernodalFactor> supernodal;
#endif
  bool positive_definite = true;
  Eigen::VectorXd pivot_ratios;

  std::vector<int> choose(const NodeGraph& graph, FactorisationMethod wanted);
  Eigen::VectorXd factorise(SparseMatrix upper);
};

/// Sets the method and returns the order of the nodes.
std::vector<int> Factorisation::Impl::choose(const NodeGraph& graph, FactorisationMethod wanted) {
  NodeOrder order = minimum_degree_order(graph);
#ifdef TUBEWRIGHT_HAS_CHOLMOD
  if (wanted == FactorisationMethod::supernodal ||
      (wanted == FactorisationMethod::automatic && fills_heavily(order.work))) {
    method = FactorisationMethod::supernodal;
    NodeOrder dissected = nested_dissection_order(graph);
    if (dissected.work.operations < order.work.operations) order = std::move(dissected);
  }
#else
  assert(wanted != FactorisationMethod::supernodal);
  (void)wanted;
#endif
  return order.nodes;
}

/// Pivots in elimination order; sets positive_definite.
Eigen::VectorXd Factorisation::Impl::factorise(SparseMatrix upper) {
#ifdef TUBEWRIGHT_HAS_CHOLMOD
  if (method == FactorisationMethod::supernodal) {
    supernodal.emplace(std::move(upper));
    positive_definite = supernodal->positive_definite();
    return supernodal->pivots();
  }
#endif
  simplicial.emplace();
  simplicial->compute(upper);
  positive_definite = simplicial->info() == Eigen::Success;
  Eigen::VectorXd D = simplicial->vectorD();
  // After an exactly zero pivot the rest of D was never written.
  if (!positive_definite) {
    Eigen::Index reached = 0;
    while (reached < D.size() && D[reached] != 0 && std::isfinite(D[reached])) ++reached;
    D.tail(D.size() - reached).setZero();
  }
  return D;
}

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
  impl_->order = unknown_order(graph, impl_->choose(graph, method));
  const Eigen::VectorXd D = impl_->factorise(permuted_upper(lower, impl_->order));
  for (Eigen::Index k = 0; k < D.size(); ++k) {
    const int i = impl_->order[k];
    impl_->pivot_ratios[i] = D[k] / lower.coeff(i, i);
  }
  if (!impl_->pivot_ratios.allFinite() || impl_->pivot_ratios.minCoeff() <= 0) {
    impl_->positive_definite = false;
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
  if (impl_->supernodal) {
    ordered = impl_->supernodal->solve(ordered);
  } else
#endif
  {
    ordered = impl_->simplicial->solve(ordered).eval();
  }
  Eigen::MatrixXd X(F.rows(), F.cols());
  X(impl_->order, Eigen::all) = ordered;
  return X;
}

}  // namespace tubewright
