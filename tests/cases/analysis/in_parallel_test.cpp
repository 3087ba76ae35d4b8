#include "cases/analysis/in_parallel.h"

#include <stdexcept>

#include "tests/catch.h"

namespace tubewright::in_parallel_test {

TEST_CASE("work in parallel is done once each, whatever its amount") {
  for (const std::size_t count : {0, 1, 2, 3, 1000}) {
    std::vector<int> done(count, 0);
    in_parallel(count, [&](std::size_t i) { ++done[i]; });
    CHECK(std::count(done.begin(), done.end(), 1) == static_cast<std::ptrdiff_t>(count));
  }
}

TEST_CASE("what one piece of parallel work throws reaches the caller") {
  for (const std::size_t bad : {0, 1, 7, 99}) {
    CHECK_THROWS_AS(in_parallel(100,
                                [&](std::size_t i) {
                                  if (i == bad) throw std::runtime_error("bad");
                                }),
                    std::runtime_error);
  }
}

}  // namespace tubewright::in_parallel_test
