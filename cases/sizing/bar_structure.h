// A structure whose sized tubes only carry axial force, in dense matrices: for the relaxation that
// knows forces (bar_relaxation.h).
//
// A sized bar has the stiffness k = kappa A; within a group A is the same, and so is the order by
// area and by mass. What else there is, beams and springs too, has the stiffness K0.
#pragma once

#include <Eigen/Core>
#include <optional>
#include <vector>

#include "cases/sizing/response_cuts.h"
#include "cases/sizing/sized_stiffness.h"

namespace tubewright {

struct SizedBar {
  int group = 0;
  double kappa = 0;   ///< stiffness for area, N/m/m2
  Eigen::VectorXd b;  ///< its elongation is b'u; on the free DOFs
};

/// Elongations that a bar's checks allow, m: from `least` (below 0) to `most`.
struct Elongation {
  double least = 0, most = 0;
};

struct BarCase {
  Eigen::VectorXd f0;              ///< loads on the free DOFs without what depends on sizes
  std::vector<Eigen::VectorXd> f;  ///< for each group what its area adds, N/m2; empty: nothing
  /// For each bar, for each size.
  std::vector<std::vector<Elongation>> allowed;
};

struct BarLimit {
  int load_case = 0;
  Eigen::VectorXd q;  ///< q'u <= most
  double most = 0;
};

struct BarStructure {
  std::vector<std::vector<double>> areas;  ///< of each group, ascending, m2
  std::vector<double> mass_per_area;       ///< of each group, kg/m2
  Eigen::MatrixXd K0;
  std::vector<SizedBar> bars;
  std::vector<BarCase> cases;
  std::vector<BarLimit> limits;
};

/// Nothing where some sized tube bends, an order by mass is none by area, or there are so many
/// DOFs that dense matrices would be slow. Cases whose loads depend on sizes otherwise than
/// linearly are left out.
std::optional<BarStructure> bar_structure(const Frame& frame, const std::vector<SizedTubes>& groups,
                                          const SizedStiffness& parts);

}  // namespace tubewright
