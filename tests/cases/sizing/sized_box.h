// The ring box with sizes to choose from, and its displacements solved as those of its own file.
#pragma once

#include <string>
#include <vector>

#include "cases/model/build_model.h"
#include "cases/model/case_actions.h"
#include "cases/sizing/size_groups.h"
#include "cases/sizing/size_study.h"
#include "solver/statics/statics.h"
#include "tests/cases/changes/ring_box.h"
#include "tests/cases/sizing/choice_lists.h"

namespace tubewright::testing {

inline StockSize square_size(double side, double wall, std::optional<double> price = {}) {
  return {Shape::square_tube, side, side, wall, price, {}};
}

/// With a torsion test; 20 x 1.5, 25 x 2, 30 x 2 and 40 x 3 in the stock.
inline Frame box_with_stock() {
  Frame f = ring_box_in_torsion();
  f.stock = Stock{};
  f.stock->sizes = {square_size(0.020, 0.0015), square_size(0.025, 0.002),
                    square_size(0.030, 0.002), square_size(0.040, 0.003)};
  return f;
}

inline std::vector<SizedTubes> groups_of(const Frame& f) {
  return answer_of(size_groups(f, false)).groups;
}

inline Costs masses_of(const std::vector<SizedTubes>& groups) {
  Costs masses;
  for (const SizedTubes& group : groups) masses.push_back(group.masses);
  return masses;
}

inline Choice random_choice(Random& random, const Costs& costs) {
  Choice choice;
  for (const int last : all_of(costs).last) choice.push_back(whole_number(random, 0, last));
  return choice;
}

/// Of each case, six a node.
inline std::vector<Eigen::VectorXd> solved_displacements(const Frame& f) {
  const NumberedFrame numbered = build_model(f);
  std::vector<Actions> actions;
  for (const Case& c : f.cases) actions.push_back(case_actions(f, numbered, c));
  const StaticResult solved = solve_statics(numbered.model, actions);
  REQUIRE(solved);
  std::vector<Eigen::VectorXd> u;
  for (const StaticSolution& s : *solved) u.push_back(s.displacements);
  return u;
}

}  // namespace tubewright::testing
