#include "solver/stability/p_delta_loads.h"

#include <Eigen/Geometry>
#include <Eigen/QR>
#include <algorithm>
#include <cmath>

#include "solver/elements/bar_element.h"
#include "solver/stability/buckling.h"
#include "solver/stability/refine.h"
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

/// As one vector, to combine those of several rounds.
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

namespace {

/// The loads of the rounds so far and what they led to, as differences from one to the next.
class Rounds {
 public:
  /// The loads to try next: those on the plane through all rounds whose misfit is least. `misfit`:
  /// what came out of `loads` less `loads`.
  Eigen::VectorXd next(const Eigen::VectorXd& loads, const Eigen::VectorXd& misfit) {
    if (last_loads_.size() > 0) {
      append(loads_, loads - last_loads_);
      append(misfits_, misfit - last_misfit_);
    }
    last_loads_ = loads;
    last_misfit_ = misfit;
    if (misfits_.cols() == 0) return loads + misfit;
    const Eigen::VectorXd share = misfits_.colPivHouseholderQr().solve(misfit);
    return loads + misfit - (loads_ + misfits_) * share;
  }

 private:
  static void append(Eigen::MatrixXd& columns, const Eigen::VectorXd& one) {
    constexpr Eigen::Index most = 40;  // remembered
    const Eigen::Index kept = std::min(columns.cols(), most - 1);
    Eigen::MatrixXd more(one.size(), kept + 1);
    more << columns.rightCols(kept), one;
    columns = std::move(more);
  }

  Eigen::MatrixXd loads_, misfits_;
  Eigen::VectorXd last_loads_, last_misfit_;
};

/// No buckling factor between 0 and 1.
bool stands(const Model& model, const StaticSolution& solution, double safety_factor) {
  constexpr int pieces = 8;  // finds a pinned beam's own critical load within 0.01 %
  const RefinedModel fine = refine(model, pieces);
  return modes_below(fine.model, refine_axial_forces(fine, solution), safety_factor) == 0;
}

}  // namespace

SecondOrder iterate_p_delta(
    const Model& model, double safety_factor, StaticSolution first,
    const std::function<std::optional<StaticSolution>(const Actions& extra)>& solve) {
  constexpr int most_rounds = 300;
  constexpr double agreement = 1e-7;
  SecondOrder r;
  r.solution = std::move(first);
  Actions p_delta = p_delta_loads(model, r.solution, safety_factor);
  Rounds rounds;
  Eigen::VectorXd loads = as_vector(p_delta);
  while (r.rounds < most_rounds) {
    ++r.rounds;
    std::optional<StaticSolution> answer = solve(p_delta);
    if (!answer) return r;
    const Eigen::VectorXd result = as_vector(p_delta_loads(model, *answer, safety_factor));
    if (!result.allFinite()) return r;
    const Eigen::VectorXd misfit = result - loads;
    r.solution = std::move(*answer);
    if (misfit.lpNorm<Eigen::Infinity>() <= agreement * result.lpNorm<Eigen::Infinity>()) {
      r.converged = stands(model, r.solution, safety_factor);
      return r;
    }
    loads = rounds.next(loads, misfit);
    set_from_vector(loads, p_delta);
  }
  return r;
}

}  // namespace tubewright
