// CHOLMOD's common state as a resource. Included only by the sources that are compiled with
// CHOLMOD.
#pragma once

#include <cholmod.h>
#ifdef CHOLMOD_WITH_OPENMP
#include <omp.h>
#endif

namespace tubewright {

struct CholmodWorkspace {
  cholmod_common common;

  CholmodWorkspace() {
    cholmod_start(&common);
    common.print = 0;
  }
  ~CholmodWorkspace() { cholmod_finish(&common); }
  CholmodWorkspace(const CholmodWorkspace&) = delete;
  CholmodWorkspace& operator=(const CholmodWorkspace&) = delete;
};

/// Keeps CHOLMOD to the calling thread while it lives. CHOLMOD starts four OpenMP threads for loops
/// of a few microseconds, whatever the machine has; measured on two cores that costs up to half of
/// a factorisation, and several times the whole of it on a busy machine.
class SingleThreaded {
 public:
#ifdef CHOLMOD_WITH_OPENMP
  SingleThreaded() { omp_set_max_active_levels(0); }
  ~SingleThreaded() { omp_set_max_active_levels(levels_); }
#else
  SingleThreaded() {}
  ~SingleThreaded() {}
#endif
  SingleThreaded(const SingleThreaded&) = delete;
  SingleThreaded& operator=(const SingleThreaded&) = delete;

 private:
#ifdef CHOLMOD_WITH_OPENMP
  int levels_ = omp_get_max_active_levels();
#endif
};

/// A view of a symmetric matrix that CHOLMOD reads and does not own: its lower triangle, columns
/// packed. `values` may be null.
inline cholmod_sparse lower_view(int n, int* start, int* rows, double* values) {
  cholmod_sparse A = {};
  A.nrow = A.ncol = static_cast<size_t>(n);
  A.nzmax = static_cast<size_t>(start[n]);
  A.p = start;
  A.i = rows;
  A.x = values;
  A.stype = -1;
  A.itype = CHOLMOD_INT;
  A.xtype = values != nullptr ? CHOLMOD_REAL : CHOLMOD_PATTERN;
  A.dtype = CHOLMOD_DOUBLE;
  A.sorted = 0;
  A.packed = 1;
  return A;
}

}  // namespace tubewright
