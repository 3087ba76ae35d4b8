// By what factor the loads of each case would have to grow before the frame buckles.
#pragma once

#include <string>
#include <vector>

#include "cases/analysis/analysis.h"
#include "cases/analysis/buckling_lengths.h"
#include "cases/frame/diagnostic.h"
#include "cases/frame/frame.h"
#include "solver/stability/fine_buckling.h"

namespace tubewright {

struct CaseBuckling {
  std::string load_case;
  std::vector<double> factors;  ///< alpha_cr, ascending; empty: does not buckle under these loads
  std::vector<std::string> where;        ///< the member that moves most in each
  bool complete = false;                 ///< none below the last one is missing
  std::vector<bool> in_suspension = {};  ///< whether links, pins or springs move in each
};

struct BuckleStudy {
  std::vector<CaseBuckling> cases;
  Diagnostics remarks;  ///< of the solution of the cases
};

/// False if some case buckles under its own loads or less.
bool buckling_passes(const BuckleStudy& study);

/// 1/(1 - 1/alpha): what second-order effects add, for alpha above 1.
double amplification(double alpha);

/// The lowest `count` modes of one case: its beams cut into pieces, held as it was solved, its
/// sheets with the stiffness that it leaves them.
FineBuckling buckling_of(const Analysis& analysis, const CaseResult& result, int count);

/// Linear buckling of every case (or those named), beams cut into pieces, sheets with the stiffness
/// that the case leaves them. Bending moments do not tip members over here: right for closed tubes.
/// Requires: the frame is sound and has load cases.
Result<BuckleStudy> buckle_study(const Frame& frame, const std::vector<std::string>& only,
                                 int count);

}  // namespace tubewright
