#include "solver/lean_loads.h"

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>

#include "solver/assembly.h"

namespace tubewright {

namespace {

/// Couples along a beam. Eight find a cantilever's or a pinned column's growth within 1 %.
constexpr int couples = 8;

void add_beam_lean(const BeamState& beam, double reserve, BeamActions& actions) {
  const Eigen::Vector3d along = beam.element.axes.row(0);
  Eigen::Vector3d last = beam_displacement(beam, 0).displacement;
  for (int i = 0; i < couples; ++i) {
    const double middle = (i + 0.5) / couples;
    const Eigen::Vector3d next = beam_displacement(beam, (i + 1.0) / couples).displacement;
    const double N = reserve * section_forces(beam, middle).N;
    actions.points.push_back({middle, Eigen::Vector3d::Zero(), N * (next - last).cross(along)});
    last = next;
  }
}

void add_bar_lean(const Model& model, const Bar& bar, double N, const Eigen::VectorXd& u,
                  Eigen::VectorXd& nodal) {
  const Eigen::Vector3d n = bar_direction(model, bar);
  const double L = (model.nodes[bar.to] - model.nodes[bar.from]).norm();
  const Eigen::Vector3d apart =
      u.segment<3>(unknowns_per_node * bar.to) - u.segment<3>(unknowns_per_node * bar.from);
  const Eigen::Vector3d sideways = N / L * (apart - n.dot(apart) * n);
  nodal.segment<3>(unknowns_per_node * bar.from) += sideways;
  nodal.segment<3>(unknowns_per_node * bar.to) -= sideways;
}

/// Lean loads as one vector, to extrapolate them.
Eigen::VectorXd as_vector(const Actions& lean) {
  Eigen::VectorXd v(lean.nodal.size() + 3 * couples * static_cast<Eigen::Index>(lean.beams.size()));
  v.head(lean.nodal.size()) = lean.nodal;
  Eigen::Index at = lean.nodal.size();
  for (const BeamActions& beam : lean.beams) {
    for (const PointAction& p : beam.points) {
      v.segment<3>(at) = p.moment;
      at += 3;
    }
  }
  return v;
}

void set_from_vector(const Eigen::VectorXd& v, Actions& lean) {
  lean.nodal = v.head(lean.nodal.size());
  Eigen::Index at = lean.nodal.size();
  for (BeamActions& beam : lean.beams) {
    for (PointAction& p : beam.points) {
      p.moment = v.segment<3>(at);
      at += 3;
    }
  }
}

}  // namespace

Actions lean_loads(const Model& model, const StaticSolution& solution, double reserve) {
  Actions lean = no_actions(model);
  for (size_t i = 0; i < model.beams.size(); ++i) {
    add_beam_lean(solution.beams[i], reserve, lean.beams[i]);
  }
  for (size_t i = 0; i < model.bars.size(); ++i) {
    if (solution.slack[i]) continue;
    add_bar_lean(model, model.bars[i], reserve * solution.bar_forces[i], solution.displacements,
                 lean.nodal);
  }
  return lean;
}

SecondOrder settle_lean(
    const Model& model, double reserve, StaticSolution first,
    const std::function<std::optional<StaticSolution>(const Actions& extra)>& solve) {
  constexpr int most_rounds = 300;
  constexpr double agreement = 1e-7;
  constexpr double out_of_hand = 1e4;  // times the first lean loads
  constexpr int between_jumps = 4;
  SecondOrder r;
  r.solution = std::move(first);
  Actions lean = lean_loads(model, r.solution, reserve);
  Eigen::VectorXd here = as_vector(lean), last_step;
  const double start = here.lpNorm<Eigen::Infinity>();
  while (r.rounds < most_rounds) {
    ++r.rounds;
    std::optional<StaticSolution> next = solve(lean);
    if (!next) return r;
    lean = lean_loads(model, *next, reserve);
    Eigen::VectorXd there = as_vector(lean);
    const double size = there.lpNorm<Eigen::Infinity>();
    if (!(size <= out_of_hand * start)) return r;  // NaN too
    const Eigen::VectorXd step = there - here;
    r.solution = std::move(*next);
    if (step.lpNorm<Eigen::Infinity>() <= agreement * size) {
      r.converged = true;
      return r;
    }
    // Steps become a geometric series of ratio 1/alpha_cr: jump to its end (A. C. Aitken).
    const double before = last_step.size() > 0 ? last_step.squaredNorm() : 0;
    const double ratio = before > 0 ? step.dot(last_step) / before : 1;
    last_step = step;
    if (r.rounds % between_jumps == 0 && std::abs(ratio) < 1) {
      there += ratio / (1 - ratio) * step;
      set_from_vector(there, lean);
      last_step.resize(0);
    }
    here = std::move(there);
  }
  return r;
}

}  // namespace tubewright
