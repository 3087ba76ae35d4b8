#include "cases/analysis/in_parallel.h"

#include <stdexcept>

#include "cases/analysis/analysis.h"
#include "cases/rides/load_cases.h"
#include "cases/studies/buckle_study.h"
#include "cases/verdict/what_if.h"
#include "tests/cases/clad_frames.h"
#include "tests/cases/idle_processors.h"
#include "tests/cases/small_vehicles.h"
#include "tests/catch.h"

namespace tubewright::in_parallel_test {

using testing::answer_of;
using testing::IdleProcessors;

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

TEST_CASE("parallel work within parallel work is done once each, and leaves the processors idle") {
  const int idle = idle_processors();
  std::vector<std::vector<int>> done(7, std::vector<int>(11, 0));
  in_parallel(done.size(), [&](std::size_t i) {
    in_parallel(done[i].size(), [&](std::size_t k) { ++done[i][k]; });
  });
  for (const std::vector<int>& row : done) CHECK(row == std::vector<int>(11, 1));
  CHECK(idle_processors() == idle);
}

TEST_CASE("no more threads work at a time than there were idle processors, and the caller") {
  for (const int idle : {0, 1, 3}) {
    const IdleProcessors set(idle);
    std::atomic<int> working = 0, greatest = 0;
    in_parallel(50, [&](std::size_t) {
      in_parallel(3, [&](std::size_t) {
        const int now = ++working;
        for (int seen = greatest; now > seen && !greatest.compare_exchange_weak(seen, now);) {
        }
        --working;
      });
    });
    CHECK(greatest <= idle + 1);
  }
}

namespace {

/// Everything that a check and the buckling study of a frame are told apart by.
std::vector<double> all_numbers(const Frame& frame) {
  const Analysis analysis = answer_of(analyse(frame));
  std::vector<double> numbers;
  for (const CaseResult& c : analysis.cases) {
    const Eigen::VectorXd& u = c.solution.displacements;
    numbers.insert(numbers.end(), u.begin(), u.end());
    for (const MemberResult& m : c.members) numbers.push_back(m.worst.stress.von_mises);
    if (c.worst) numbers.push_back(c.worst->utilisation);
    if (c.sway_factor) numbers.push_back(*c.sway_factor);
  }
  for (const WhatIf& row : what_ifs(analysis, {})) {
    if (row.worst) numbers.push_back(row.worst->utilisation);
  }
  for (const CaseBuckling& c : answer_of(buckle_study(frame, {}, 4)).cases) {
    numbers.insert(numbers.end(), c.factors.begin(), c.factors.end());
  }
  return numbers;
}

}  // namespace

TEST_CASE("a frame's answers are the same to the last bit on one, two and four processors") {
  Frame frame = testing::box_vehicle();
  testing::add_sheet(frame, "skin").thickness =
      0.0003;  // thin enough to buckle and be solved again
  testing::add_panel(frame, "floor", "skin", {"fl0", "fr0", "rr0", "rl0"});
  frame = answer_of(with_load_cases(frame));
  REQUIRE(frame.cases.size() > 10);
  std::vector<double> alone;
  {
    const IdleProcessors none(0);
    alone = all_numbers(frame);
  }
  for (const int idle : {1, 3}) {
    const IdleProcessors some(idle);
    CHECK(all_numbers(frame) == alone);
  }
}

}  // namespace tubewright::in_parallel_test
