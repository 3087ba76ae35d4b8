// Good single bars for bin_packing.h: by price, and by fullness.
#pragma once

#include <Eigen/Core>
#include <vector>

#include "cases/nesting/bin_packing.h"

namespace tubewright {

/// Bars of `columns` used in parts, which make all pieces.
struct LpRelaxation {
  int bound = 0;  ///< no fewer bars; rounding cannot spoil it, it holds for any prices
  std::vector<Counts> columns;
  Eigen::VectorXd use;
};

/// The linear programme of Gilmore and Gomory (Operations Research 9 (1961) 849-859) by the revised
/// simplex method. For the bound see Farley, Operations Research 38 (1990) 922-923.
LpRelaxation solve_lp_relaxation(const PackingTask& task, long& effort);

/// Bin by bar, the longest piece left and the fullest bar found with it: the minimum bin slack of
/// Gupta and Ho, Production Planning & Control 10 (1999) 598-603, in its variant with a fixed
/// piece. Empty if the effort does not last.
std::vector<Bin> minimum_bin_slack(PackingTask task, long& effort);

}  // namespace tubewright
