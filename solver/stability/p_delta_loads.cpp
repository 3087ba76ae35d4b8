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

/// `forces`: the same beam in the solution that the axial forces are of.
void add_beam_p_delta(const BeamState& beam, const BeamState& forces, double safety_factor,
                      BeamActions& actions) {
  const Eigen::Vector3d along = beam.element.axes.row(0);
  Eigen::Vector3d last = beam_displacement(beam, 0).displacement;
  for (int i = 0; i < couples; ++i) {
    const double middle = (i + 0.5) / couples;
    const Eigen::Vector3d next = beam_displacement(beam, (i + 1.0) / couples).displacement;
    const double N = safety_factor * section_forces(forces, middle).N;
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

namespace {

/// The axial forces of one solution on the displaced frame of another.
Actions loads_of(const Model& model, const StaticSolution& shape, const StaticSolution& forces,
                 double safety_factor) {
  Actions p_delta = no_actions(model);
  for (size_t i = 0; i < model.beams.size(); ++i) {
    add_beam_p_delta(shape.beams[i], forces.beams[i], safety_factor, p_delta.beams[i]);
  }
  for (size_t i = 0; i < model.bars.size(); ++i) {
    if (forces.slack[i]) continue;
    add_bar_p_delta(model, model.bars[i], safety_factor * forces.bar_forces[i], shape.displacements,
                    p_delta.nodal);
  }
  return p_delta;
}

}  // namespace

Actions p_delta_loads(const Model& model, const StaticSolution& solution, double safety_factor) {
  return loads_of(model, solution, solution, safety_factor);
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
    if (kept > 0) more.leftCols(kept) = columns.rightCols(kept);
    more.col(kept) = one;
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

constexpr double agreement = 1e-7;

bool agree(const Eigen::VectorXd& a, const Eigen::VectorXd& b) {
  return (a - b).lpNorm<Eigen::Infinity>() <= agreement * b.lpNorm<Eigen::Infinity>();
}

using Solve = std::function<std::optional<StaticSolution>(const Actions& extra)>;

/// The equilibrium under given axial forces, a linear problem; nothing if none is found. `p_delta`:
/// where to start, and what it came to.
std::optional<StaticSolution> under_forces(const Model& model, double safety_factor,
                                           const StaticSolution& forces, const Solve& solve,
                                           Actions& p_delta, int& rounds_made) {
  constexpr int most_rounds = 100;
  Rounds rounds;
  Eigen::VectorXd loads = as_vector(p_delta);
  for (int round = 0; round < most_rounds; ++round) {
    ++rounds_made;
    std::optional<StaticSolution> answer = solve(p_delta);
    if (!answer) return std::nullopt;
    const Eigen::VectorXd result = as_vector(loads_of(model, *answer, forces, safety_factor));
    if (!result.allFinite()) return std::nullopt;
    if (agree(loads, result)) return answer;
    loads = rounds.next(loads, result - loads);
    set_from_vector(loads, p_delta);
  }
  return std::nullopt;
}

}  // namespace

SecondOrder iterate_p_delta(const Model& model, double safety_factor, StaticSolution first,
                            const Solve& solve) {
  constexpr int most_updates = 30;
  SecondOrder r;
  r.solution = std::move(first);
  // Where first-order forces are beyond the critical ones, what is found is a far branch.
  if (!stands(model, r.solution, safety_factor)) return r;
  Actions p_delta = p_delta_loads(model, r.solution, safety_factor);
  for (int update = 0; update < most_updates; ++update) {
    std::optional<StaticSolution> next =
        under_forces(model, safety_factor, r.solution, solve, p_delta, r.rounds);
    if (!next) return r;
    r.solution = std::move(*next);
    const Actions own = p_delta_loads(model, r.solution, safety_factor);
    if (agree(as_vector(p_delta), as_vector(own))) {
      r.converged = stands(model, r.solution, safety_factor);
      return r;
    }
  }
  return r;
}

}  // namespace tubewright
