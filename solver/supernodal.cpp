#include "solver/supernodal.h"

#include <cholmod.h>

#include <algorithm>
#include <numeric>

namespace tubewright {

namespace {

struct Workspace {
  cholmod_common common;

  Workspace() {
    cholmod_start(&common);
    common.print = 0;
  }
  ~Workspace() { cholmod_finish(&common); }
  Workspace(const Workspace&) = delete;
  Workspace& operator=(const Workspace&) = delete;
};

/// A view of a matrix that CHOLMOD reads and does not own: the upper triangle.
cholmod_sparse view(int n, int* start, int* rows, double* values) {
  cholmod_sparse A = {};
  A.nrow = A.ncol = static_cast<size_t>(n);
  A.nzmax = static_cast<size_t>(start[n]);
  A.p = start;
  A.i = rows;
  A.x = values;
  A.stype = 1;
  A.itype = CHOLMOD_INT;
  A.xtype = values != nullptr ? CHOLMOD_REAL : CHOLMOD_PATTERN;
  A.dtype = CHOLMOD_DOUBLE;
  A.sorted = 0;
  A.packed = 1;
  return A;
}

}  // namespace

NodeOrder nested_dissection_order(const NodeGraph& graph) {
  const int n = graph.size();
  std::vector<int> start(n + 1, 0), rows;
  rows.reserve(graph.neighbours.size() / 2 + n);
  for (int node = 0; node < n; ++node) {
    for (int e = graph.start[node]; e < graph.start[node + 1]; ++e) {
      if (graph.neighbours[e] < node) rows.push_back(graph.neighbours[e]);
    }
    rows.push_back(node);
    start[node + 1] = static_cast<int>(rows.size());
  }
  Workspace w;
  cholmod_sparse A = view(n, start.data(), rows.data(), nullptr);
  std::vector<int> nodes(n);
  if (cholmod_metis(&A, nullptr, 0, 0, nodes.data(), &w.common) == 0) {
    return minimum_degree_order(graph);  // out of memory, or CHOLMOD built without METIS
  }
  return postordered(graph, nodes);
}

struct SupernodalFactor::Impl {
  mutable Workspace w;
  SparseMatrix upper;
  cholmod_factor* L = nullptr;
  bool ok = false;

  ~Impl() { cholmod_free_factor(&L, &w.common); }
};

SupernodalFactor::SupernodalFactor(SparseMatrix upper) : impl_(std::make_unique<Impl>()) {
  Impl& f = *impl_;
  f.upper = std::move(upper);
  f.w.common.nmethods = 1;
  f.w.common.method[0].ordering = CHOLMOD_NATURAL;  // the matrix comes in its order
  f.w.common.postorder = 0;
  f.w.common.supernodal = CHOLMOD_SUPERNODAL;
  f.w.common.quick_return_if_not_posdef = 1;
  cholmod_sparse A = view(static_cast<int>(f.upper.cols()), f.upper.outerIndexPtr(),
                          f.upper.innerIndexPtr(), f.upper.valuePtr());
  f.L = cholmod_analyze(&A, &f.w.common);
  if (f.L == nullptr) return;
  cholmod_factorize(&A, f.L, &f.w.common);
  f.ok = f.w.common.status == CHOLMOD_OK && f.L->minor == f.L->n && pivots().allFinite();
  f.upper = SparseMatrix();
}

SupernodalFactor::~SupernodalFactor() = default;

bool SupernodalFactor::positive_definite() const { return impl_->ok; }

// Each supernode s is a dense block of nsrow rows; its columns are super[s] to super[s + 1] - 1.
Eigen::VectorXd SupernodalFactor::pivots() const {
  const cholmod_factor* L = impl_->L;
  if (L == nullptr || L->x == nullptr || !L->is_super) return {};
  Eigen::VectorXd D = Eigen::VectorXd::Zero(static_cast<Eigen::Index>(L->n));
  const auto* super = static_cast<const int*>(L->super);
  const auto* rows = static_cast<const int*>(L->pi);
  const auto* values = static_cast<const int*>(L->px);
  const auto* x = static_cast<const double*>(L->x);
  for (size_t s = 0; s < L->nsuper; ++s) {
    const int nsrow = rows[s + 1] - rows[s];
    for (int j = super[s]; j < super[s + 1] && static_cast<size_t>(j) < L->minor; ++j) {
      const auto column = static_cast<size_t>(j - super[s]);
      const double diagonal = x[static_cast<size_t>(values[s]) + column * (nsrow + 1)];
      D[j] = diagonal * diagonal;
    }
  }
  return D;
}

Eigen::MatrixXd SupernodalFactor::solve(const Eigen::MatrixXd& F) const {
  cholmod_dense B = {};
  B.nrow = static_cast<size_t>(F.rows());
  B.ncol = static_cast<size_t>(F.cols());
  B.nzmax = B.nrow * B.ncol;
  B.d = B.nrow;
  B.x = const_cast<double*>(F.data());  // read only
  B.xtype = CHOLMOD_REAL;
  B.dtype = CHOLMOD_DOUBLE;
  cholmod_dense* X = cholmod_solve(CHOLMOD_A, impl_->L, &B, &impl_->w.common);
  Eigen::MatrixXd result = Eigen::Map<const Eigen::MatrixXd>(static_cast<const double*>(X->x),
                                                             F.rows(), F.cols());
  cholmod_free_dense(&X, &impl_->w.common);
  return result;
}

}  // namespace tubewright
