#include "solver/statics/recovery.h"

#include <Eigen/Geometry>
#include <algorithm>
#include <optional>
#include <utility>

#include "solver/elements/bar_element.h"
#include "solver/elements/rigid_bodies.h"
#include "solver/elements/shear_panel.h"
#include "solver/model/model_size.h"
#include "solver/statics/assembly.h"

namespace tubewright {

namespace {

/// A beam in several cases: condensed once. `loads`, `displacements`: one each.
void recover_beam(const Model& model, size_t index, std::span<const Actions> loads,
                  std::span<const Eigen::VectorXd> displacements,
                  std::vector<StaticSolution>& solutions) {
  const Beam& beam = model.beams[index];
  const BeamElement e = beam_element(model, beam);
  const Matrix12 R = rotation_12(e.axes), K = local_stiffness(e);
  std::optional<CondensedBeam> condensed;
  if (!e.rigidly_joined()) condensed = condense(e);
  for (size_t c = 0; c < solutions.size(); ++c) {
    BeamState& state = solutions[c].beams.emplace_back();
    state.element = e;
    state.actions = loads[c].beams[index];
    const Eigen::VectorXd& u = displacements[c];
    Vector12 joint;
    joint << u.segment<6>(dofs_per_node * beam.from), u.segment<6>(dofs_per_node * beam.to);
    joint = R * joint;
    const Vector12 f = local_equivalent_loads(e, state.actions);
    state.end_displacements =
        condensed ? Vector12(condensed->from_joint * joint + condensed->from_load * f) : joint;
    state.end_forces = K * state.end_displacements - f;
  }
}

/// What members and bars take from the joints, six a node, and the greatest force and moment met.
struct JointForces {
  Eigen::VectorXd sum;
  double greatest_force = 0;
  double greatest_moment = 0;
};

void note(JointForces& f, const Eigen::Ref<const Vector6>& v) {
  f.greatest_force = std::max(f.greatest_force, v.head<3>().lpNorm<Eigen::Infinity>());
  f.greatest_moment = std::max(f.greatest_moment, v.tail<3>().lpNorm<Eigen::Infinity>());
}

/// `from_panels`: what panels put on joints directly, six a node.
JointForces joint_forces(const Model& model, const StaticSolution& s,
                         const Eigen::VectorXd& from_panels) {
  JointForces f;
  f.sum = -from_panels;
  for (size_t i = 0; i < model.beams.size(); ++i) {
    const Vector12 global =
        rotation_12(s.beams[i].element.axes).transpose() * s.beams[i].end_forces;
    f.sum.segment<6>(dofs_per_node * model.beams[i].from) += global.head<6>();
    f.sum.segment<6>(dofs_per_node * model.beams[i].to) += global.tail<6>();
    note(f, global.head<6>());
    note(f, global.tail<6>());
  }
  for (size_t i = 0; i < model.bars.size(); ++i) {
    const Eigen::Vector3d pull = s.bar_forces[i] * bar_direction(model, model.bars[i]);
    f.sum.segment<3>(dofs_per_node * model.bars[i].from) -= pull;
    f.sum.segment<3>(dofs_per_node * model.bars[i].to) += pull;
    f.greatest_force = std::max(f.greatest_force, pull.lpNorm<Eigen::Infinity>());
  }
  return f;
}

double relative(double value, double scale) { return scale > 0 ? value / scale : 0; }

/// Resultant of everything from outside, about the middle of the nodes.
Residual global_equilibrium(const Model& model, const Actions& actions, const StaticSolution& s,
                            const JointForces& f) {
  Eigen::Vector3d middle = Eigen::Vector3d::Zero();
  for (const Eigen::Vector3d& p : model.nodes) middle += p;
  middle /= static_cast<double>(std::max<size_t>(1, model.nodes.size()));

  Eigen::Vector3d force = Eigen::Vector3d::Zero(), moment = Eigen::Vector3d::Zero();
  double force_scale = f.greatest_force;
  const auto add = [&](const Eigen::Vector3d& at, const Eigen::Vector3d& F,
                       const Eigen::Vector3d& M) {
    force += F;
    moment += M + (at - middle).cross(F);
    force_scale = std::max(force_scale, F.lpNorm<Eigen::Infinity>());
  };
  for (size_t n = 0; n < model.nodes.size(); ++n) {
    const Vector6 v = actions.nodal.segment<6>(6 * n) + s.reactions.segment<6>(6 * n);
    add(model.nodes[n], v.head<3>(), v.tail<3>());
  }
  for (size_t i = 0; i < model.beams.size(); ++i) {
    const BeamActions& b = actions.beams[i];
    if (b.empty()) continue;
    const Eigen::Vector3d& from = model.nodes[model.beams[i].from];
    const Eigen::Vector3d along = model.nodes[model.beams[i].to] - from;
    add(from + along / 2, b.line * along.norm(), b.couple * along.norm());
    for (const PointAction& p : b.points) add(from + p.at * along, p.force, p.moment);
  }
  const double moment_scale = std::max(f.greatest_moment, force_scale * model_size(model));
  return {relative(force.lpNorm<Eigen::Infinity>(), force_scale),
          relative(moment.lpNorm<Eigen::Infinity>(), moment_scale)};
}

}  // namespace

namespace {

/// Flows of panels and what they put on bars, and all loads on members and joints that come to it.
Actions recover_panels(const Model& model, const std::vector<PanelGroup>& groups,
                       const Actions& actions, const Eigen::VectorXd& u, StaticSolution& s) {
  s.panel_flows.assign(model.panels.size(), 0);
  s.bar_lines.assign(model.bars.size(), Eigen::Vector3d::Zero());
  Actions all = with_tension_fields(model, actions);
  for (const PanelGroup& group : groups) {
    const Eigen::VectorXd flows = group_flows(group, u, group_misfit(model, group, all.beams));
    for (size_t i = 0; i < group.panels.size(); ++i) {
      s.panel_flows[group.panels[i]] = flows[static_cast<Eigen::Index>(i)];
    }
  }
  for (size_t p = 0; p < model.panels.size(); ++p) {
    const auto loads = edge_loads(model, model.panels[p], s.panel_flows[p], 0);
    add_edge_loads(model, loads, all.beams, all.nodal);
    for (const EdgeLoad& load : loads) {
      if (!load.piece.is_beam) s.bar_lines[load.piece.index] += load.line;
    }
  }
  return all;
}

/// Reactions and the proof of equilibrium. `from_panels`: what panels put on joints.
void close_balance(const Model& model, const Actions& actions, const Eigen::VectorXd& from_panels,
                   StaticSolution& s) {
  JointForces f = joint_forces(model, s, from_panels);
  Eigen::VectorXd missing = f.sum - actions.nodal;  // what the outside still has to supply
  gather_on_masters(model, masters_of(model), missing);
  s.reactions = Eigen::VectorXd::Zero(missing.size());
  for (const Support& support : model.supports) {
    for (int d = 0; d < dofs_per_node; ++d) {
      const int i = dofs_per_node * support.node + d;
      if (support.restrained[d]) s.reactions[i] = missing[i];
    }
  }

  for (Eigen::Index n = 0; n < missing.size() / dofs_per_node; ++n) {
    note(f, actions.nodal.segment<6>(dofs_per_node * n));
  }
  const double size = model_size(model);
  const double moment_scale =
      std::max(f.greatest_moment, f.greatest_force * size /
                                      static_cast<double>(std::max<size_t>(1, model.nodes.size())));
  // Under couples alone the greatest force may be rounding.
  const double force_scale = std::max(f.greatest_force, size > 0 ? f.greatest_moment / size : 0.0);
  const Eigen::VectorXd left_over = missing - s.reactions;
  for (Eigen::Index i = 0; i < left_over.size(); ++i) {
    const bool turning = i % dofs_per_node >= 3;
    double& worst = turning ? s.residual.moment : s.residual.force;
    worst = std::max(worst, relative(std::abs(left_over[i]), turning ? moment_scale : force_scale));
  }
  s.equilibrium = global_equilibrium(model, actions, s, f);
}

}  // namespace

std::vector<StaticSolution> recover(const Model& model, std::span<const Actions> cases,
                                    std::span<const std::vector<bool>> slack,
                                    std::span<const Eigen::VectorXd> displacements) {
  std::vector<StaticSolution> solutions(cases.size());
  std::vector<Actions> all;
  const std::vector<PanelGroup> groups = panel_groups(model);
  for (size_t c = 0; c < cases.size(); ++c) {
    StaticSolution& s = solutions[c];
    s.displacements = displacements[c];
    s.slack = slack[c];
    s.beams.reserve(model.beams.size());
    all.push_back(recover_panels(model, groups, cases[c], displacements[c], s));
  }
  for (size_t i = 0; i < model.beams.size(); ++i) {
    recover_beam(model, i, all, displacements, solutions);
  }
  for (size_t c = 0; c < cases.size(); ++c) {
    StaticSolution& s = solutions[c];
    for (size_t i = 0; i < model.bars.size(); ++i) {
      const Bar& bar = model.bars[i];
      const double force = bar.stiffness * bar_elongation(model, bar, displacements[c]);
      s.bar_forces.push_back(s.slack[i] ? 0 : force);
    }
    close_balance(model, cases[c], all[c].nodal - cases[c].nodal, s);
  }
  return solutions;
}

StaticSolution recover(const Model& model, const Actions& actions, const std::vector<bool>& slack,
                       const Eigen::VectorXd& displacements) {
  return std::move(
      recover(model, std::span(&actions, 1), std::span(&slack, 1), std::span(&displacements, 1))
          .front());
}

}  // namespace tubewright
