// The number of threads of the BLAS is put back whatever ends first.
#include "solver/linear_algebra/blas_threads.h"

#include <dlfcn.h>

#include <optional>
#include <thread>
#include <vector>

#include "tests/catch.h"

namespace tubewright::blas_threads_test {

namespace {

/// What OpenBLAS says, if it is the BLAS of this machine.
std::optional<int> threads_now() {
  const auto get = reinterpret_cast<int (*)()>(dlsym(RTLD_DEFAULT, "openblas_get_num_threads"));
  if (get == nullptr) return std::nullopt;
  return get();
}

}  // namespace

TEST_CASE("small work has one thread of the BLAS, large work all, and then it is as before") {
  const std::optional<int> before = threads_now();
  {
    const BlasThreads small(false);
    if (before) CHECK(threads_now() == 1);
    {
      const BlasThreads large(true);
      CHECK(threads_now() == before);
    }
    if (before) CHECK(threads_now() == 1);
  }
  CHECK(threads_now() == before);
}

TEST_CASE("users of the BLAS in many threads leave it as it was") {
  const std::optional<int> before = threads_now();
  std::vector<std::thread> threads;
  for (int t = 0; t < 8; ++t) {
    threads.emplace_back([t] {
      for (int i = 0; i < 200; ++i) const BlasThreads use((t + i) % 3 == 0);
    });
  }
  for (std::thread& t : threads) t.join();
  CHECK(threads_now() == before);
}

}  // namespace tubewright::blas_threads_test
