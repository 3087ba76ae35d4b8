#include "cases/analysis/trusted_answer.h"

#include <algorithm>
#include <cmath>

#include "cases/analysis/analysis_errors.h"
#include "solver/model/model_size.h"

namespace tubewright {

namespace {

/// Of the greatest force or moment. A sound frame is in balance to 1e-9 and better.
constexpr double most_out_of_balance = 1e-6;

bool all_finite(const StaticSolution& s) {
  return s.displacements.allFinite() && s.reactions.allFinite() &&
         std::isfinite(s.residual.force) && std::isfinite(s.residual.moment);
}

}  // namespace

double greatest_movement(const Eigen::VectorXd& u) {
  double greatest = 0;
  for (Eigen::Index n = 0; n + dofs_per_node <= u.size(); n += dofs_per_node) {
    greatest = std::max(greatest, u.segment<3>(n).norm());
  }
  return greatest;
}

std::optional<Diagnostic> why_no_answer(const Model& model, const std::string& load_case,
                                        const StaticSolution& solution) {
  if (!all_finite(solution)) return numbers_too_large(load_case);
  const double missing = std::max(solution.residual.force, solution.residual.moment);
  if (missing > most_out_of_balance) return out_of_balance(load_case, missing);
  const double moved = greatest_movement(solution.displacements), size = model_size(model);
  if (moved > size) return moves_too_far(load_case, moved, size);
  return std::nullopt;
}

}  // namespace tubewright
