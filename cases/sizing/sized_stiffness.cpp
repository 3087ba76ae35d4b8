#include "cases/sizing/sized_stiffness.h"

#include <algorithm>

#include "cases/joint_stiffness/joint_springs.h"
#include "cases/model/build_model.h"
#include "solver/elements/bar_element.h"
#include "solver/elements/rigid_bodies.h"
#include "solver/linear_algebra/dense.h"
#include "solver/statics/zero_stiffness_dofs.h"

namespace tubewright {

namespace {

Matrix12 stiffness_of(const Model& model, const MemberSlot& slot) {
  const auto index = static_cast<size_t>(slot.index);
  if (!slot.is_beam) return bar_stiffness(model, model.bars[index]);
  const BeamElement e = beam_element(model, model.beams[index]);
  const Matrix12 R = rotation_12(e.axes);
  return R.transpose() * condense(e)->K * R;
}

/// Its inverse on the forces that it can take.
Matrix12 pseudo_inverse(const Matrix12& K) {
  constexpr double nothing = 1e-12;  // of the greatest stiffness
  const EigenSystem own = symmetric_eigensystem(Eigen::MatrixXd(K));
  const double least = nothing * own.values.cwiseAbs().maxCoeff();
  Matrix12 F = Matrix12::Zero();
  for (Eigen::Index k = 0; k < own.values.size(); ++k) {
    if (!(own.values[k] > least)) continue;
    F += own.vectors.col(k) * own.vectors.col(k).transpose() / own.values[k];
  }
  return F;
}

bool same_number(double a, double b) {
  constexpr double rounding = 1e-12;
  return a == b || std::abs(a - b) <= rounding * std::max(std::abs(a), std::abs(b));
}

bool same_section(const Section& a, const Section& b) {
  return same_number(a.A, b.A) && same_number(a.Iy, b.Iy) && same_number(a.Iz, b.Iz) &&
         same_number(a.It, b.It) && same_number(a.Ay, b.Ay) && same_number(a.Az, b.Az);
}

bool same_panel(const Panel& a, const Panel& b) {
  return same_number(a.thickness, b.thickness) && same_number(a.G, b.G) &&
         same_number(a.joint, b.joint) && same_number(a.offset, b.offset) &&
         same_number(a.carry_over, b.carry_over) && a.edges == b.edges;
}

/// But for the stiffness of the sized tubes.
bool same_otherwise(const SizedStiffness& base, const Model& other) {
  const Model& model = base.model;
  if (model.nodes.size() != other.nodes.size() || model.beams.size() != other.beams.size() ||
      model.bars.size() != other.bars.size()) {
    return false;
  }
  for (size_t n = 0; n < model.nodes.size(); ++n) {
    if ((model.nodes[n] - other.nodes[n]).norm() > 1e-12) return false;
  }
  for (size_t b = 0; b < model.beams.size(); ++b) {
    if (base.sized_beams[b]) continue;
    if (!same_section(model.sections[static_cast<size_t>(model.beams[b].section)],
                      other.sections[static_cast<size_t>(other.beams[b].section)])) {
      return false;
    }
  }
  return std::equal(model.panels.begin(), model.panels.end(), other.panels.begin(),
                    other.panels.end(), same_panel);
}

}  // namespace

SizedStiffness sized_stiffness(const Frame& frame, const std::vector<SizedTubes>& groups) {
  SizedStiffness parts;
  const Frame base = in_sizes(frame, groups, std::vector<int>(groups.size(), 0));
  const JointedFrame jointed = jointed_frame(base);
  NumberedFrame numbered = build_model(base);
  parts.model = numbered.model;
  const bool some_give_way =
      std::any_of(jointed.joints.begin(), jointed.joints.end(),
                  [](const auto& ends) { return ends[0].needed || ends[1].needed; });
  parts.joints_rigid = frame.joint_flexibility == rigid_joints ||
                       (!some_give_way && frame.attachments.empty() && frame.gussets.empty());
  parts.sized_beams.assign(parts.model.beams.size(), false);
  parts.sized_bars.assign(parts.model.bars.size(), false);
  for (const SizedTubes& group : groups) {
    for (const int m : group.members) {
      const MemberSlot& slot = numbered.slots[static_cast<size_t>(m)];
      (slot.is_beam ? parts.sized_beams : parts.sized_bars)[static_cast<size_t>(slot.index)] = true;
    }
  }
  parts.groups.resize(groups.size());
  for (size_t g = 0; g < groups.size(); ++g) {
    std::vector<SizedElement>& elements = parts.groups[g];
    elements.resize(groups[g].members.size());
    for (size_t j = 0; j < groups[g].sizes.size(); ++j) {
      std::vector<int> choice(groups.size(), 0);
      choice[g] = static_cast<int>(j);
      const NumberedFrame sized = build_model(in_sizes(frame, groups, choice));
      parts.separable = parts.separable && same_otherwise(parts, sized.model);
      for (size_t i = 0; i < elements.size(); ++i) {
        const auto m = static_cast<size_t>(groups[g].members[i]);
        const MemberSlot& slot = sized.slots[m];
        const auto index = static_cast<size_t>(slot.index);
        elements[i].nodes =
            slot.is_beam ? std::array{sized.model.beams[index].from, sized.model.beams[index].to}
                         : std::array{sized.model.bars[index].from, sized.model.bars[index].to};
        elements[i].K.push_back(stiffness_of(sized.model, slot));
        elements[i].F.push_back(pseudo_inverse(elements[i].K.back()));
      }
    }
  }
  return parts;
}

void for_each_unsized(const SizedStiffness& parts, const ElementVisitor& visit) {
  const size_t beams = parts.sized_beams.size(), bars = parts.sized_bars.size();
  size_t element = 0;  // beams, then bars, then sheets
  for_each_element(parts.model, std::vector<bool>(bars, false), [&](auto nodes, const auto& own) {
    const size_t e = element++;
    const bool sized =
        e < beams ? parts.sized_beams[e] : e < beams + bars && parts.sized_bars[e - beams];
    if (!sized) visit(nodes, own);
  });
}

bool is_linear(const Model& model) {
  return model.panels.empty() && std::none_of(model.bars.begin(), model.bars.end(),
                                              [](const Bar& b) { return b.tension_only; });
}

namespace {

std::vector<std::vector<Matrix12>> blended(const SizedStiffness& parts, const Shares& shares,
                                           Blend blend) {
  std::vector<std::vector<Matrix12>> all;
  for (size_t g = 0; g < parts.groups.size(); ++g) {
    std::vector<Matrix12> list;
    const bool pure = std::count_if(shares[g].begin(), shares[g].end(),
                                    [](double share) { return share > 0; }) == 1;
    for (const SizedElement& e : parts.groups[g]) {
      Matrix12 sum = Matrix12::Zero();
      for (size_t j = 0; j < e.K.size(); ++j) {
        if (!(shares[g][j] > 0)) continue;
        if (pure) {
          sum = e.K[j];
        } else {
          sum += shares[g][j] * (blend == Blend::stiffness ? e.K[j] : e.F[j]);
        }
      }
      list.push_back(blend == Blend::stiffness || pure ? sum : pseudo_inverse(sum));
    }
    all.push_back(std::move(list));
  }
  return all;
}

Model held_by(Model model, const std::vector<Support>& supports) {
  model.supports = supports;
  return model;
}

Factorisation factorised(const SizedStiffness& parts, const Model& model, const FreeDofs& free,
                         const std::vector<std::vector<Matrix12>>& tubes) {
  SparseMatrix K = assemble_parts(model, free, [&](const ElementVisitor& visit) {
    for_each_unsized(parts, visit);
    for (size_t g = 0; g < tubes.size(); ++g) {
      for (size_t i = 0; i < tubes[g].size(); ++i) visit(parts.groups[g][i].nodes, tubes[g][i]);
    }
  });
  restrain_zero_stiffness_dofs(K, free);
  return {K, free.node_of};
}

}  // namespace

BlendedFrame::BlendedFrame(const SizedStiffness& parts, const std::vector<Support>& supports,
                           const Shares& shares, Blend blend)
    : model_(held_by(parts.model, supports)),
      free_(number_free_dofs(model_)),
      blended_(blended(parts, shares, blend)),
      factor_(factorised(parts, model_, free_, blended_)) {}

Eigen::MatrixXd BlendedFrame::displacements(const Eigen::MatrixXd& forces) const {
  const auto n = static_cast<Eigen::Index>(free_.unknown.size());
  Eigen::MatrixXd f(n, forces.cols());
  for (Eigen::Index c = 0; c < forces.cols(); ++c) {
    Eigen::VectorXd all = forces.col(c);
    gather_on_masters(model_, free_.masters, all);
    for (Eigen::Index i = 0; i < n; ++i) f(i, c) = all[free_.unknown[static_cast<size_t>(i)]];
  }
  const Eigen::MatrixXd x = factor_.solve(f);
  Eigen::MatrixXd u = Eigen::MatrixXd::Zero(forces.rows(), forces.cols());
  for (Eigen::Index c = 0; c < forces.cols(); ++c) {
    Eigen::VectorXd all = Eigen::VectorXd::Zero(forces.rows());
    for (Eigen::Index i = 0; i < n; ++i) all[free_.unknown[static_cast<size_t>(i)]] = x(i, c);
    follow_masters(model_, free_.masters, all);
    u.col(c) = all;
  }
  return u;
}

Vector12 end_displacements(const SizedElement& element, const Eigen::VectorXd& u) {
  Vector12 ends;
  ends << u.segment<6>(static_cast<Eigen::Index>(dofs_per_node) * element.nodes[0]),
      u.segment<6>(static_cast<Eigen::Index>(dofs_per_node) * element.nodes[1]);
  return ends;
}

}  // namespace tubewright
