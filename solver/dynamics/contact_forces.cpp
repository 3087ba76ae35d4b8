#include "solver/dynamics/contact_forces.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

namespace tubewright {

namespace {

constexpr double contact_rounding = 1e-12;

bool in_set(unsigned set, int i) { return (set >> static_cast<unsigned>(i) & 1U) != 0; }

/// F of the tyres in `set`, A F = r on them; 0 elsewhere. Elimination with row exchanges.
TyreVector forces_on(const TyreMatrix& A, const TyreVector& r, unsigned set) {
  std::array<int, most_tyres> list{};
  int size = 0;
  for (int i = 0; i < static_cast<int>(r.size()); ++i) {
    if (in_set(set, i)) list[static_cast<size_t>(size++)] = i;
  }
  std::array<std::array<double, most_tyres + 1>, most_tyres> rows;
  for (int i = 0; i < size; ++i) {
    for (int j = 0; j < size; ++j) {
      rows[static_cast<size_t>(i)][static_cast<size_t>(j)] =
          A(list[static_cast<size_t>(i)], list[static_cast<size_t>(j)]);
    }
    rows[static_cast<size_t>(i)][static_cast<size_t>(size)] = r[list[static_cast<size_t>(i)]];
  }
  const auto n = static_cast<size_t>(size);
  for (size_t k = 0; k < n; ++k) {
    size_t pivot = k;
    for (size_t i = k + 1; i < n; ++i) {
      if (std::abs(rows[i][k]) > std::abs(rows[pivot][k])) pivot = i;
    }
    if (pivot != k) std::swap(rows[k], rows[pivot]);
    for (size_t i = k + 1; i < n; ++i) {
      const double factor = rows[i][k] / rows[k][k];
      for (size_t j = k + 1; j <= n; ++j) rows[i][j] -= factor * rows[k][j];
    }
  }
  TyreVector F = TyreVector::Zero(r.size());
  for (size_t k = n; k-- > 0;) {
    double sum = rows[k][n];
    for (size_t j = k + 1; j < n; ++j) sum -= rows[k][j] * F[list[j]];
    F[list[k]] = sum / rows[k][k];
  }
  return F;
}

/// By how much the forces of `set` miss what is asked of tyre i: a pull, or a gap that is none.
double fault(const TyreVector& F, const TyreVector& y, unsigned set, int i) {
  return in_set(set, i) ? -F[i] : y[i];
}

struct Attempt {
  TyreVector F;
  double worst = std::numeric_limits<double>::infinity();
  int first = -1;  ///< the first tyre with a fault
};

Attempt attempt(const TyreMatrix& A, const TyreVector& r, unsigned eligible, unsigned set,
                double rounding) {
  Attempt a;
  a.F = forces_on(A, r, set);
  if (!a.F.allFinite()) return a;
  const TyreVector y = r - A * a.F;
  a.worst = 0;
  for (int i = 0; i < static_cast<int>(r.size()); ++i) {
    const double f = in_set(eligible, i) ? fault(a.F, y, set, i) : 0;
    a.worst = std::max(a.worst, f);
    if (f > rounding && a.first < 0) a.first = i;
  }
  return a;
}

/// Best of all sets of tyres.
TyreVector by_enumeration(const TyreMatrix& A, const TyreVector& r, unsigned eligible,
                          double rounding, unsigned& touching) {
  Attempt best;
  best.F = TyreVector::Zero(r.size());
  touching = 0;
  const unsigned sets = 1U << static_cast<unsigned>(r.size());
  for (unsigned set = 0; set < sets; ++set) {
    if ((set & ~eligible) != 0) continue;
    const Attempt a = attempt(A, r, eligible, set, rounding);
    if (a.worst < best.worst) {
      best = a;
      touching = set;
    }
  }
  return best.F.cwiseMax(0);
}

/// Projected Gauss-Seidel sweeps.
TyreVector by_sweeps(const TyreMatrix& A, const TyreVector& r, unsigned eligible,
                     unsigned& touching) {
  constexpr int sweeps = 200;
  TyreVector F = TyreVector::Zero(r.size());
  for (int sweep = 0; sweep < sweeps; ++sweep) {
    for (int i = 0; i < static_cast<int>(r.size()); ++i) {
      if (!in_set(eligible, i) || !(A(i, i) > 0)) continue;
      F[i] = std::max(0.0, F[i] + (r[i] - A.row(i).dot(F)) / A(i, i));
    }
  }
  touching = 0;
  for (int i = 0; i < static_cast<int>(r.size()); ++i) {
    if (F[i] > 0) touching |= 1U << static_cast<unsigned>(i);
  }
  return F;
}

}  // namespace

TyreVector contact_forces(const TyreMatrix& A, const TyreVector& r, unsigned& touching) {
  return contact_forces(A, r, (1U << static_cast<unsigned>(r.size())) - 1, touching);
}

TyreVector contact_forces(const TyreMatrix& A, const TyreVector& r, unsigned eligible,
                          unsigned& touching) {
  constexpr int most_exchanges = 100;
  constexpr int few_tyres = 4;
  if (r.size() == 0) return r;
  const double rounding = contact_rounding * r.cwiseAbs().maxCoeff();
  touching &= eligible;
  for (int k = 0; k < most_exchanges; ++k) {
    const Attempt a = attempt(A, r, eligible, touching, rounding);
    if (a.worst <= rounding) return a.F.cwiseMax(0);
    if (a.first < 0) break;
    touching ^= 1U << static_cast<unsigned>(a.first);
  }
  return r.size() <= few_tyres ? by_enumeration(A, r, eligible, rounding, touching)
                               : by_sweeps(A, r, eligible, touching);
}

}  // namespace tubewright
