#include "solver/linear_algebra/blas_threads.h"

#include <dlfcn.h>

#include <mutex>

namespace tubewright {

namespace {

/// OpenBLAS's own functions, if it is the BLAS that was loaded.
struct OpenBlas {
  using Set = void (*)(int);
  using Get = int (*)();
  Set set = reinterpret_cast<Set>(dlsym(RTLD_DEFAULT, "openblas_set_num_threads"));
  Get get = reinterpret_cast<Get>(dlsym(RTLD_DEFAULT, "openblas_get_num_threads"));

  bool known() const { return set != nullptr && get != nullptr; }
};

const OpenBlas& open_blas() {
  static const OpenBlas functions;
  return functions;
}

/// Who computes with the BLAS just now. Its number of threads is one for the whole process.
struct Users {
  std::mutex mutex;
  int all = 0;
  int large = 0;
  int set_by_its_user = 1;
};

Users& users() {
  static Users all;
  return all;
}

void apply(const Users& u) { open_blas().set(u.all == 0 || u.large > 0 ? u.set_by_its_user : 1); }

}  // namespace

BlasThreads::BlasThreads(bool large) : large_(large) {
  if (!open_blas().known()) return;
  Users& u = users();
  const std::lock_guard lock(u.mutex);
  if (u.all++ == 0) u.set_by_its_user = open_blas().get();
  if (large_) ++u.large;
  apply(u);
}

BlasThreads::~BlasThreads() {
  if (!open_blas().known()) return;
  Users& u = users();
  const std::lock_guard lock(u.mutex);
  --u.all;
  if (large_) --u.large;
  apply(u);
}

}  // namespace tubewright
