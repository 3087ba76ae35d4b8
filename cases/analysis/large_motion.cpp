#include "cases/analysis/large_motion.h"

#include "solver/stability/refine.h"

namespace tubewright {

namespace {

/// Eight pieces follow a quarter circle within 0.1 % and find the limit of a clamped shallow toggle
/// 1.3 % high, twelve 0.6 %; large frames make do with four.
int pieces_for(size_t beams) {
  constexpr size_t few = 30, many = 300;
  return beams <= few ? 12 : beams <= many ? 8 : 4;
}

double whole(size_t piece, size_t pieces, double s) {
  return (static_cast<double>(piece) + s) / static_cast<double>(pieces);
}

}  // namespace

Outcome<LargeAnswer, std::string> solve_large(const Model& model, const Actions& actions) {
  const RefinedModel fine = refine(model, pieces_for(model.beams.size()));
  const LargeDisplacementSolution solved =
      solve_large_displacement(fine.model, refine_actions(fine, actions));
  if (solved.path.empty()) return solved.reason;
  if (!solved.converged && solved.stop == PathStop::none) return solved.reason;

  LargeAnswer a;
  a.motion.reached = solved.converged ? 1 : solved.load_factor;
  a.motion.stop = solved.stop;
  a.solution.displacements = solved.displacements.head(dof_count(model));
  a.solution.reactions = solved.reactions.head(dof_count(model));
  a.solution.bar_forces = solved.bar_forces;
  a.solution.slack = solved.slack;
  a.solution.bar_lines.assign(model.bars.size(), Eigen::Vector3d::Zero());
  a.solution.residual = a.solution.equilibrium = solved.residual;
  for (size_t b = 0; b < model.beams.size(); ++b) {
    std::vector<BeamState> pieces;
    for (const int piece : fine.pieces[b]) {
      pieces.push_back(solved.beams[static_cast<size_t>(piece)]);
    }
    std::vector<Vector6> moved;
    for (const int node : fine.nodes[b]) {
      moved.emplace_back(solved.displacements.segment<6>(dofs_per_node * node));
    }
    BeamState ends{beam_element(model, model.beams[b]), {}, Vector12::Zero(), Vector12::Zero()};
    ends.end_forces << pieces.front().end_forces.head<6>(), pieces.back().end_forces.tail<6>();
    a.solution.beams.push_back(std::move(ends));
    a.motion.pieces.push_back(std::move(pieces));
    a.motion.moved.push_back(std::move(moved));
  }
  return a;
}

std::vector<SectionCut> governing_cuts(const std::vector<BeamState>& pieces) {
  std::vector<SectionCut> all;
  for (size_t i = 0; i < pieces.size(); ++i) {
    for (SectionCut& cut : governing_cuts(pieces[i])) {
      all.push_back({whole(i, pieces.size(), cut.s), cut.forces});
    }
  }
  return all;
}

MemberStress worst_along(const std::vector<BeamState>& pieces) {
  MemberStress worst;
  worst.stress.von_mises = -1;
  for (size_t i = 0; i < pieces.size(); ++i) {
    const MemberStress here = worst_along(pieces[i]);
    if (here.stress.von_mises <= worst.stress.von_mises) continue;
    worst = {here.stress, whole(i, pieces.size(), here.where)};
  }
  return worst;
}

}  // namespace tubewright
