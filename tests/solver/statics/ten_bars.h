// A plane truss of ten bars that the literature sizes, at its lightest sizes; inches and pounds.
#pragma once

#include <array>

#include "tests/solver/model_builder.h"

namespace tubewright::test {

/// 720 by 360 in, held at the left, 100 000 lbf down at its nodes 2 and 4; its nodes are numbered
/// from 0 here. E = 1e7 psi.
struct TenBars : ModelBuilder {
  static constexpr std::array<double, 10> areas = {33.5, 1.62, 22.9, 14.2, 1.62,
                                                   1.62, 7.97, 22.9, 22.0, 1.62};
  Actions loads;

  TenBars() {
    for (const auto& [px, py] :
         {std::pair{720, 360}, {720, 0}, {360, 360}, {360, 0}, {0, 360}, {0, 0}}) {
      node(px, py, 0);
    }
    constexpr std::array<std::pair<int, int>, 10> ends = {
        {{4, 2}, {2, 0}, {5, 3}, {3, 1}, {2, 3}, {0, 1}, {4, 3}, {5, 2}, {2, 1}, {3, 0}}};
    for (std::size_t i = 0; i < ends.size(); ++i)
      bar(ends[i].first, ends[i].second, 1e7 * areas[i]);
    for (int n = 0; n < 4; ++n) hold(n, {z});
    pin(4);
    pin(5);
    loads = actions();
    for (const int n : {1, 3}) loads.nodal[dofs_per_node * n + 1] = -100000;
  }
};

}  // namespace tubewright::test
