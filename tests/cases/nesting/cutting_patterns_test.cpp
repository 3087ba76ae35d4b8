// The linear programme of cutting stock, against all patterns and laws of duality.
#include "cases/nesting/cutting_patterns.h"

#include <cmath>
#include <random>

#include "tests/catch.h"

namespace tubewright::cutting_patterns_test {

namespace {

constexpr ItemSize mm = 1'000'000;  // sizes are nanometres; bars within 1 um are as good

PackingTask random_task(std::mt19937& draw) {
  PackingTask t{1000 * mm, {}, {}};
  ItemSize size = 700 * mm;
  for (int k = 0; k < 5; ++k) {
    size -= (20 + draw() % 100) * mm;
    t.sizes.push_back(size);
    t.counts.push_back(1 + static_cast<int>(draw() % 9));
  }
  return t;
}

ItemSize width_of(const PackingTask& t, const Counts& column) {
  ItemSize width = 0;
  for (std::size_t k = 0; k < column.size(); ++k) width += column[k] * t.sizes[k];
  return width;
}

}  // namespace

TEST_CASE("the bars of the linear programme fit and make all pieces") {
  std::mt19937 draw(1);
  for (int trial = 0; trial < 100; ++trial) {
    const PackingTask t = random_task(draw);
    long effort = 10'000'000;
    const LpRelaxation r = solve_lp_relaxation(t, effort);
    for (std::size_t k = 0; k < t.sizes.size(); ++k) {
      double made = 0;
      for (std::size_t i = 0; i < r.columns.size(); ++i) {
        made += r.use[static_cast<Eigen::Index>(i)] * r.columns[i][k];
      }
      CHECK(made >= t.counts[k] - 1e-9);
    }
    for (const Counts& column : r.columns) CHECK(width_of(t, column) <= t.capacity);
    CHECK(r.use.minCoeff() >= 0);
    // Weak duality: no bound above what is used, nor below the metal in the pieces.
    CHECK(r.bound <= std::ceil(r.use.sum() - 1e-9));
    CHECK(r.bound >= static_cast<double>(total_size(t)) / (1000 * mm) - 1e-9);
  }
}

TEST_CASE("one kind of which three fit: a third of a bar each") {
  const PackingTask t{100, {30}, {10}};
  long effort = 100'000;
  const LpRelaxation r = solve_lp_relaxation(t, effort);
  CHECK_THAT(r.use.sum(), WithinRel(10.0 / 3, 1e-9));
  CHECK(r.bound == 4);
}

TEST_CASE("the bound is that of the rolls of Gilmore and Gomory's kind, by hand") {
  // 60 and 40 fit together with nothing over: the programme uses as many bars as pairs.
  const PackingTask t{100, {60, 40}, {7, 7}};
  long effort = 100'000;
  const LpRelaxation r = solve_lp_relaxation(t, effort);
  CHECK_THAT(r.use.sum(), WithinRel(7.0, 1e-9));
  CHECK(r.bound == 7);
}

TEST_CASE("the first bar of minimum bin slack is the fullest that holds the longest piece") {
  std::mt19937 draw(4);
  for (int trial = 0; trial < 60; ++trial) {
    PackingTask t = random_task(draw);
    for (int& n : t.counts) n = 1 + n % 3;
    long effort = 10'000'000;
    const std::vector<Bin> bars = minimum_bin_slack(t, effort);
    REQUIRE_FALSE(bars.empty());
    Counts column(t.sizes.size(), 0);
    for (const int k : bars[0]) ++column[static_cast<std::size_t>(k)];
    CHECK(column[0] >= 1);
    // All ways to fill what the longest piece leaves.
    ItemSize fullest = 0;
    Counts c(5, 0);
    const auto most = [&](std::size_t k) { return t.counts[k]; };
    for (c[0] = 1; c[0] <= most(0); ++c[0])
      for (c[1] = 0; c[1] <= most(1); ++c[1])
        for (c[2] = 0; c[2] <= most(2); ++c[2])
          for (c[3] = 0; c[3] <= most(3); ++c[3])
            for (c[4] = 0; c[4] <= most(4); ++c[4]) {
              const ItemSize width = width_of(t, c);
              if (width <= t.capacity) fullest = std::max(fullest, width);
            }
    INFO(trial);
    CHECK(width_of(t, column) == fullest);
  }
}

TEST_CASE("without effort there are no bars") {
  long none = 0;
  CHECK(minimum_bin_slack({100, {60, 40}, {2, 2}}, none).empty());
}

}  // namespace tubewright::cutting_patterns_test
