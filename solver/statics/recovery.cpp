#include "solver/statics/recovery.h"

#include <Eigen/Geometry>
#include <algorithm>

#include "solver/elements/bar_element.h"
#include "solver/elements/rigid_bodies.h"
#include "solver/elements/shear_panel.h"
#include "solver/model/model_size.h"
#include "solver/statics/assembly.h"

namespace tubewright {

namespace {

BeamState recover_beam(const Model& model, const Beam& beam, const BeamActions& actions,
                       const Eigen::VectorXd& u) {
  BeamState state;
  state.element = beam_element(model, beam);
  state.actions = actions;
  const BeamElement& e = state.element;
  Vector12 joint;
  joint << u.segment<6>(dofs_per_node * beam.from), u.segment<6>(dofs_per_node * beam.to);
  joint = rotation_12(e.axes) * joint;
  const Vector12 loads = local_equivalent_loads(e, actions);
  if (e.rigidly_joined()) {
    state.end_displacements = joint;
  } else {
    const CondensedBeam condensed = *condense(e);
    state.end_displacements = condensed.from_joint * joint + condensed.from_load * loads;
  }
  state.end_forces = local_stiffness(e) * state.end_displacements - loads;
  return state;
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

StaticSolution recover(const Model& model, const Actions& actions, const std::vector<bool>& slack,
                       const Eigen::VectorXd& displacements) {
  StaticSolution s;
  s.displacements = displacements;
  s.slack = slack;
  s.panel_flows.assign(model.panels.size(), 0);
  s.bar_lines.assign(model.bars.size(), Eigen::Vector3d::Zero());
  Actions all =
      with_tension_fields(model, actions);  // what panels put on members and joints comes to it
  for (const PanelGroup& group : panel_groups(model)) {
    const Eigen::VectorXd misfit = group_misfit(model, group, all.beams);
    const Eigen::VectorXd flows = group_flows(group, displacements, misfit);
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
  s.beams.reserve(model.beams.size());
  for (size_t i = 0; i < model.beams.size(); ++i) {
    s.beams.push_back(recover_beam(model, model.beams[i], all.beams[i], displacements));
  }
  for (size_t i = 0; i < model.bars.size(); ++i) {
    const Bar& bar = model.bars[i];
    s.bar_forces.push_back(slack[i] ? 0
                                    : bar.stiffness * bar_elongation(model, bar, displacements));
  }

  JointForces f = joint_forces(model, s, all.nodal - actions.nodal);
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
  return s;
}

}  // namespace tubewright
