#include "solver/stability/p_delta_loads.h"

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>

#include "solver/elements/bar_element.h"
#include "solver/statics/assembly.h"

namespace tubewright {

namespace {

/// Couples along a beam. Eight find a cantilever's or a pinned column's growth within 1 %.
constexpr int couples = 8;

void add_beam_p_delta(const BeamState& beam, double safety_factor, BeamActions& actions) {
  const Eigen::Vector3d along = beam.element.axes.row(0);
  Eigen::Vector3d last = beam_displacement(beam, 0).displacement;
  for (int i = 0; i < couples; ++i) {
    const double middle = (i + 0.5) / couples;
    const Eigen::Vector3d next = beam_displacement(beam, (i + 1.0) / couples).displacement;
    const double N = safety_factor * section_forces(beam, middle).N;
    actions.points.push_back({middle, Eigen::Vector3d::Zero(), N * (next - last).cross(along)});
    last = next;
  }
}

void add_bar_p_delta(const Model& model, const Bar& bar, double N, const Eigen::VectorXd& u,
                     Eigen::VectorXd& nodal) {
  const Eigen::Vector3d n = bar_direction(model, bar);
  const double L = (model.nodes[bar.to] - model.nodes[bar.from]).norm();
  const Eigen::Vector3d apart =
      u.segment<3>(dofs_per_node * bar.to) - u.segment<3>(dofs_per_node * bar.from);
  const Eigen::Vector3d sideways = N / L * (apart - n.dot(apart) * n);
  nodal.segment<3>(dofs_per_node * bar.from) += sideways;
  nodal.segment<3>(dofs_per_node * bar.to) -= sideways;
}

/// Lean loads as one vector, to extrapolate them.
Eigen::VectorXd as_vector(const Actions& p_delta) {
  Eigen::VectorXd v(p_delta.nodal.size() +
                    3 * couples * static_cast<Eigen::Index>(p_delta.beams.size()));
  v.head(p_delta.nodal.size()) = p_delta.nodal;
  Eigen::Index at = p_delta.nodal.size();
  for (const BeamActions& beam : p_delta.beams) {
    for (const PointAction& p : beam.points) {
      v.segment<3>(at) = p.moment;
      at += 3;
    }
  }
  return v;
}

void set_from_vector(const Eigen::VectorXd& v, Actions& p_delta) {
  p_delta.nodal = v.head(p_delta.nodal.size());
  Eigen::Index at = p_delta.nodal.size();
  for (BeamActions& beam : p_delta.beams) {
    for (PointAction& p : beam.points) {
      p.moment = v.segment<3>(at);
      at += 3;
    }
  }
}

}  // namespace

Actions p_delta_loads(const Model& model, const StaticSolution& solution, double safety_factor) {
  Actions p_delta = no_actions(model);
  for (size_t i = 0; i < model.beams.size(); ++i) {
    add_beam_p_delta(solution.beams[i], safety_factor, p_delta.beams[i]);
  }
  for (size_t i = 0; i < model.bars.size(); ++i) {
    if (solution.slack[i]) continue;
    add_bar_p_delta(model, model.bars[i], safety_factor * solution.bar_forces[i],
                    solution.displacements, p_delta.nodal);
  }
  return p_delta;
}

SecondOrder iterate_p_delta(
    const Model& model, double safety_factor, StaticSolution first,
    const std::function<std::optional<StaticSolution>(const Actions& extra)>& solve) {
  constexpr int most_rounds = 300;
  constexpr double agreement = 1e-7;
  constexpr double out_of_hand = 1e4;  // times the first lean loads
  constexpr int between_jumps = 4;
  SecondOrder r;
  r.solution = std::move(first);
  Actions p_delta = p_delta_loads(model, r.solution, safety_factor);
  Eigen::VectorXd here = as_vector(p_delta), last_step;
  const double start = here.lpNorm<Eigen::Infinity>();
  while (r.rounds < most_rounds) {
    ++r.rounds;
    std::optional<StaticSolution> next = solve(p_delta);
    if (!next) return r;
    p_delta = p_delta_loads(model, *next, safety_factor);
    Eigen::VectorXd there = as_vector(p_delta);
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
      set_from_vector(there, p_delta);
      last_step.resize(0);
    }
    here = std::move(there);
  }
  return r;
}

}  // namespace tubewright
