#include "cases/studies/buckle_study.h"

#include <algorithm>

#include "cases/analysis/in_parallel.h"
#include "solver/statics/determinate_restraint.h"

namespace tubewright {

namespace {

/// Pieces that a beam is cut into at most. Large frames make do with fewer.
int most_pieces(size_t beams) { return beams <= 500 ? 16 : beams <= 4000 ? 4 : 2; }

/// Nodes of a member, those inside its beam included.
std::vector<int> nodes_of(const RefinedModel& fine, const MemberSlot& slot) {
  const auto index = static_cast<size_t>(slot.index);
  if (slot.is_beam) return fine.nodes[index];
  return {fine.model.bars[index].from, fine.model.bars[index].to};
}

/// Flags of the frame proper for every node, those inside its beams too. Empty: no body.
std::vector<bool> refine_body(const RefinedModel& fine, std::vector<bool> body) {
  if (body.empty()) return body;
  body.resize(fine.model.nodes.size(), false);
  for (const std::vector<int>& line : fine.nodes) {
    if (!body[static_cast<size_t>(line.front())] || !body[static_cast<size_t>(line.back())])
      continue;
    for (const int n : line) body[static_cast<size_t>(n)] = true;
  }
  return body;
}

/// Member that moves most, ends included: of the beams, or of what is hung on the frame proper.
std::string moves_most(const Analysis& analysis, const RefinedModel& fine,
                       const Eigen::VectorXd& shape, bool in_suspension,
                       const std::vector<bool>& body) {
  const auto hung = [&](int n) { return !body[static_cast<size_t>(n)]; };
  std::string name;
  double greatest = -1;
  for (size_t m = 0; m < analysis.slots.size(); ++m) {
    const MemberSlot& slot = analysis.slots[m];
    const std::vector<int> nodes = nodes_of(fine, slot);
    if (in_suspension ? std::none_of(nodes.begin(), nodes.end(), hung) : !slot.is_beam) continue;
    double moved = 0;
    for (const int n : nodes) {
      moved = std::max(moved, shape.segment<3>(dofs_per_node * n).norm());
    }
    if (moved <= greatest * (1 + 1e-9)) continue;
    greatest = moved;
    name = analysis.frame.members[m].name;
  }
  return name;
}

CaseBuckling case_buckling(const Analysis& analysis, const CaseResult& result,
                           const std::vector<bool>& coarse_body, int count) {
  const auto [fine, forces, buckling] = buckling_of(analysis, result, count);
  const std::vector<bool> body = refine_body(fine, coarse_body);
  CaseBuckling c;
  c.load_case = result.name;
  c.complete = buckling.complete;
  for (const BucklingMode& mode : buckling.modes) {
    c.factors.push_back(mode.factor);
    const bool in_suspension = suspension_gives_way(fine.model, forces.slack, mode.shape, body);
    c.in_suspension.push_back(in_suspension);
    c.where.push_back(moves_most(analysis, fine, mode.shape, in_suspension, body));
  }
  return c;
}

}  // namespace

FineBuckling buckling_of(const Analysis& analysis, const CaseResult& result, int count) {
  Model model = analysis.model;
  if (result.driving) model.supports = determinate_restraint(model);
  for (size_t p = 0; p < result.panels.size(); ++p) {
    model.panels[p].secant_ratio = result.panels[p].stage.secant_ratio;
  }
  return fine_buckling(model, result.solution, count, most_pieces(model.beams.size()));
}

double amplification(double alpha) { return 1 / (1 - 1 / alpha); }

Result<BuckleStudy> buckle_study(const Frame& frame, const std::vector<std::string>& only,
                                 int count) {
  Result<Analysis> outcome = analyse(frame, only);
  if (auto* diagnostics = outcome.error()) return *diagnostics;
  const Analysis& analysis = *outcome;
  BuckleStudy study;
  study.remarks = analysis.remarks;
  study.cases.resize(analysis.cases.size());
  const std::vector<bool> body = nodes_of_body(frame, build_model(frame));
  in_parallel(study.cases.size(), [&](std::size_t i) {
    study.cases[i] = case_buckling(analysis, analysis.cases[i], body, count);
  });
  return study;
}

bool buckling_passes(const BuckleStudy& study) {
  return std::all_of(study.cases.begin(), study.cases.end(), [](const CaseBuckling& c) {
    return c.factors.empty() || c.factors.front() > 1;
  });
}

}  // namespace tubewright
