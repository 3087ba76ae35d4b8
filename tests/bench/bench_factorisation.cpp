// Order + factor + solve of real frame stiffness matrices: this program's factorisation against a
// plain Eigen SimplicialLDLT and a plain CHOLMOD, both with their defaults, in one run.
//
//   build/release/tests/bench/bench_factorisation [most unknowns, default 300000] [cold]
//
// Each row: the frame, its unknowns, seconds (the best of several runs) and the ratio of ours to
// the better of the two; the goal is a ratio of at most 1. A run that would need more than about a
// minute, going by the last size, is left out and shown as "-".
//
// The C library is told to keep freed memory, for all three alike: otherwise it hands memory back
// to the system after every run, by a rule of thumb that depends on the sizes of the last blocks,
// and fetching it again takes up to half of the time of a ladder. `cold` leaves it as it is. With a
// supernodal method the BLAS decides: name the library that libblas.so.3 leads to beside the
// numbers.
#include <Eigen/SparseCholesky>
#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <functional>
#include <limits>
#include <string>

#include "solver/linear_algebra/factorisation.h"
#include "solver/model/section_shapes.h"
#include "solver/statics/assembly.h"
#ifdef TUBEWRIGHT_HAS_CHOLMOD
#include <cholmod.h>
#endif
#ifdef __GLIBC__
#include <malloc.h>
#endif

using namespace tubewright;

namespace {

constexpr double too_long = 60;  // seconds
constexpr double never = std::numeric_limits<double>::infinity();

/// nx by ny by nz cubic bays of 25x25x2 tube with a diagonal on every floor, held at x = 0.
Model lattice(int nx, int ny, int nz) {
  Model m;
  m.sections.push_back(hollow_rectangle(0.025, 0.025, 0.002, cold_formed_corners(0.002), 0.3));
  m.materials.push_back({210e9, 81e9, 7850, 235e6, 360e6});
  const auto at = [&](int i, int j, int k) { return (i * (ny + 1) + j) * (nz + 1) + k; };
  const auto join = [&](int a, int b) { m.beams.push_back({a, b, 0, 0, 0, welded, welded}); };
  for (int i = 0; i <= nx; ++i) {
    for (int j = 0; j <= ny; ++j) {
      for (int k = 0; k <= nz; ++k) {
        m.nodes.emplace_back(0.5 * i, 0.45 * j, 0.4 * k);
        if (i > 0) join(at(i - 1, j, k), at(i, j, k));
        if (j > 0) join(at(i, j - 1, k), at(i, j, k));
        if (k > 0) join(at(i, j, k - 1), at(i, j, k));
        if (i > 0 && j > 0) join(at(i - 1, j - 1, k), at(i, j, k));
        if (i == 0) m.supports.push_back({at(0, j, k), {true, true, true, true, true, true}});
      }
    }
  }
  return m;
}

double seconds(const std::function<void()>& work) {
  const auto start = std::chrono::steady_clock::now();
  work();
  return std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
}

/// The best of several runs, at least three, for about half a second.
double best_of(const std::function<void()>& work) {
  double best = never, spent = 0;
  for (int run = 0; run < 1000 && (run < 3 || spent < 0.5) && spent < too_long; ++run) {
    const double t = seconds(work);
    best = std::min(best, t);
    spent += t;
  }
  return best;
}

/// A competitor, with the time and size of its last run to judge the next by.
struct Competitor {
  double last_time = 0;
  double last_size = 1;

  double time(double size, const std::function<void()>& work) {
    const double growth = size / last_size;
    if (last_time * growth * growth > too_long) return never;
    last_time = best_of(work);
    last_size = size;
    return last_time;
  }
};

/// Freed memory stays with the process, up to blocks of 32 MB (the C library's own limit).
void keep_freed_memory() {
#ifdef __GLIBC__
  mallopt(M_MMAP_THRESHOLD, 32 << 20);
  mallopt(M_TRIM_THRESHOLD, std::numeric_limits<int>::max());
#endif
}

void print_seconds(double t) {
  if (t == never) {
    std::printf(" %10s", "-");
  } else {
    std::printf(" %10.5f", t);
  }
}

#ifdef TUBEWRIGHT_HAS_CHOLMOD
void solve_with_cholmod(const SparseMatrix& K, const Eigen::VectorXd& f) {
  cholmod_common c;
  cholmod_start(&c);
  cholmod_sparse A = {};
  A.nrow = A.ncol = static_cast<size_t>(K.cols());
  A.nzmax = static_cast<size_t>(K.nonZeros());
  A.p = const_cast<int*>(K.outerIndexPtr());
  A.i = const_cast<int*>(K.innerIndexPtr());
  A.x = const_cast<double*>(K.valuePtr());
  A.stype = -1;
  A.itype = CHOLMOD_INT;
  A.xtype = CHOLMOD_REAL;
  A.dtype = CHOLMOD_DOUBLE;
  A.sorted = A.packed = 1;
  cholmod_dense b = {};
  b.nrow = b.nzmax = b.d = A.nrow;
  b.ncol = 1;
  b.x = const_cast<double*>(f.data());
  b.xtype = CHOLMOD_REAL;
  b.dtype = CHOLMOD_DOUBLE;
  cholmod_factor* L = cholmod_analyze(&A, &c);
  cholmod_factorize(&A, L, &c);
  cholmod_dense* x = cholmod_solve(CHOLMOD_A, L, &b, &c);
  cholmod_free_dense(&x, &c);
  cholmod_free_factor(&L, &c);
  cholmod_finish(&c);
}
#endif

void run_family(const std::string& name, const std::function<Model(int)>& build,
                const std::vector<int>& sizes, int most) {
  Competitor ours, eigen, cholmod;
  for (const int size : sizes) {
    const Model model = build(size);
    const FreeDofs free = number_free_dofs(model);
    const auto n = static_cast<int>(free.unknown.size());
    if (n > most) continue;
    const SparseMatrix K = assemble_stiffness(model, free, {});
    const Eigen::VectorXd f = Eigen::VectorXd::Ones(n);
    std::string method;
    const double own = ours.time(n, [&] {
      const Factorisation factor(K, free.node_of);
      method = factor.method() == FactorisationMethod::simplicial ? "simplicial" : "supernodal";
      factor.solve(f);
    });
    const double plain_eigen = eigen.time(n, [&] {
      Eigen::SimplicialLDLT<SparseMatrix, Eigen::Lower> factor(K);
      Eigen::VectorXd x = factor.solve(f);
    });
    double plain_cholmod = never;
#ifdef TUBEWRIGHT_HAS_CHOLMOD
    plain_cholmod = cholmod.time(n, [&] { solve_with_cholmod(K, f); });
#endif
    std::printf("%-22s %8d", (name + " " + std::to_string(size)).c_str(), n);
    print_seconds(own);
    print_seconds(plain_eigen);
    print_seconds(plain_cholmod);
    const double best = std::min(plain_eigen, plain_cholmod);
    if (own == never || best == never) {
      std::printf(" %8s  %s\n", "-", method.c_str());
    } else {
      std::printf(" %8.2f  %s\n", own / best, method.c_str());
    }
    std::fflush(stdout);
  }
}

}  // namespace

int main(int argc, char** argv) {
  const int most = argc > 1 ? std::atoi(argv[1]) : 300000;
  if (argc < 3 || std::string(argv[2]) != "cold") keep_freed_memory();
  std::printf("%-22s %8s %10s %10s %10s %8s  %s\n", "frame", "unknowns", "ours s", "Eigen s",
              "CHOLMOD s", "ratio", "method chosen");
  run_family(
      "ladder 1x1, bays", [](int n) { return lattice(n, 1, 1); },
      {4, 12, 40, 120, 400, 1200, 4000, 12000}, most);
  run_family(
      "slender 2x2, bays", [](int n) { return lattice(n, 2, 2); },
      {2, 6, 18, 60, 180, 550, 1800, 5500}, most);
  run_family(
      "wide 8x4, bays", [](int n) { return lattice(n, 8, 4); }, {1, 3, 10, 30, 60, 180, 550, 1100},
      most);
  run_family(
      "cube, bays a side", [](int n) { return lattice(n, n, n); }, {2, 3, 5, 8, 12, 18, 26, 35},
      most);
  return 0;
}
