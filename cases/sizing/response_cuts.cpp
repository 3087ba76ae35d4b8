#include "cases/sizing/response_cuts.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "cases/frame/find_parts.h"
#include "cases/model/build_model.h"
#include "cases/model/case_actions.h"
#include "solver/statics/determinate_restraint.h"

namespace tubewright {

namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

/// The loads of a case on the nodes; empty where supports are displaced.
VectorXd loads_of(const Frame& frame, const Case& c) {
  const NumberedFrame numbered = build_model(frame);
  const Actions actions = case_actions(frame, numbered, c);
  if (!actions.prescribed.isZero(0)) return {};
  return joint_loads(numbered.model, actions);
}

/// Those of the case in every size; empty where they differ.
VectorXd fixed_loads(const Frame& frame, const std::vector<SizedTubes>& groups, const Case& c) {
  Choice choice(groups.size(), 0);
  VectorXd f = loads_of(in_sizes(frame, groups, choice), c);
  if (f.size() == 0) return {};
  const double rounding = 1e-12 * f.cwiseAbs().maxCoeff();
  for (size_t g = 0; g < groups.size(); ++g) {
    for (size_t j = 1; j < groups[g].sizes.size(); ++j) {
      choice[g] = static_cast<int>(j);
      const VectorXd other = loads_of(in_sizes(frame, groups, choice), c);
      if ((other - f).cwiseAbs().maxCoeff() > rounding) return {};
    }
    choice[g] = 0;
  }
  return f;
}

VectorXd unit_force(const Model& model, int node, const Eigen::Vector3d& direction) {
  VectorXd q = VectorXd::Zero(dof_count(model));
  q.segment<3>(static_cast<Index>(dofs_per_node) * node) = direction;
  return q;
}

HeldLimits limits_on_supports(const Frame& frame, const std::vector<SizedTubes>& groups,
                              const SizedStiffness& parts) {
  HeldLimits held;
  held.supports = parts.model.supports;
  held.deflection = frame.limits.deflection.value_or(std::numeric_limits<double>::infinity());
  if (!is_linear(parts.model)) return held;
  const auto number = numbers_of_nodes(frame);
  for (const Case& c : frame.cases) {
    if (needs_vehicle(frame, c)) continue;
    const VectorXd f = fixed_loads(frame, groups, c);
    if (f.size() == 0) continue;
    const int load = static_cast<int>(held.loads.size());
    held.loads.push_back(f);
    for (const DisplacementLimit& limit : frame.limits.displacements) {
      if (limit.load_case != c.name) continue;
      for (int d = 0; d < 3; ++d) {
        const auto& most = limit.most[static_cast<size_t>(d)];
        if (!most) continue;
        for (const double sign : {1.0, -1.0}) {
          held.limits.push_back(
              {load,
               unit_force(parts.model, number.at(limit.node), sign * Eigen::Vector3d::Unit(d)),
               *most});
        }
      }
    }
  }
  return held;
}

/// The twist under the couple of the test; it is what it does itself, times the couple.
HeldLimits limit_of_torsion(const Frame& frame, const SizedStiffness& parts) {
  HeldLimits held;
  held.supports = determinate_restraint(parts.model);
  held.deflection = std::numeric_limits<double>::infinity();
  const TorsionTest& test = *frame.torsion;
  const auto number = numbers_of_nodes(frame);
  VectorXd q = VectorXd::Zero(dof_count(parts.model));
  for (const auto& [pair, sign] : {std::pair{&test.front, 1.0}, {&test.rear, -1.0}}) {
    const int left = number.at((*pair)[0]), right = number.at((*pair)[1]);
    const double across = parts.model.nodes[static_cast<size_t>(left)].y() -
                          parts.model.nodes[static_cast<size_t>(right)].y();
    const Eigen::Vector3d up = Eigen::Vector3d::UnitZ() * (sign / across);
    q += unit_force(parts.model, left, up) - unit_force(parts.model, right, up);
  }
  held.loads.emplace_back(test.couple * q);
  held.limits.push_back({0, q, test.couple / *frame.limits.torsional_stiffness});
  return held;
}

MatrixXd loads_of(const HeldLimits& held) {
  MatrixXd loads(held.loads.front().size(), static_cast<Index>(held.loads.size()));
  for (Index l = 0; l < loads.cols(); ++l) loads.col(l) = held.loads[static_cast<size_t>(l)];
  return loads;
}

MatrixXd unit_forces_of(const std::vector<ResponseLimit>& limits) {
  MatrixXd q(limits.front().q.size(), static_cast<Index>(limits.size()));
  for (Index k = 0; k < q.cols(); ++k) q.col(k) = limits[static_cast<size_t>(k)].q;
  return q;
}

/// The limits of the list, and for each load the node that moves too far, along its way. `u`: under
/// the loads.
std::vector<ResponseLimit> limits_at(const HeldLimits& held, const MatrixXd& u) {
  std::vector<ResponseLimit> limits = held.limits;
  for (Index l = 0; l < u.cols(); ++l) {
    Index farthest = 0;
    double most = held.deflection;
    for (Index n = 0; n < u.rows() / dofs_per_node; ++n) {
      const double moved = u.col(l).segment<3>(dofs_per_node * n).norm();
      if (!(moved > most)) continue;
      most = moved;
      farthest = n;
    }
    if (!(most > held.deflection)) continue;
    VectorXd q = VectorXd::Zero(u.rows());
    q.segment<3>(dofs_per_node * farthest) =
        u.col(l).segment<3>(dofs_per_node * farthest).normalized();
    limits.push_back({static_cast<int>(l), q, held.deflection});
  }
  return limits;
}

/// A limit that a blend does not meet, with the fields of its cut.
struct Violation {
  double ratio = 0;  ///< least that the displacement can be, over its limit
  double most = 0;
  VectorXd p, u_p;  ///< of the blend of stiffnesses
  VectorXd m, u_m;  ///< of the blend of flexibilities; empty where m is nothing
};

SeparableCut cut_of(const SizedStiffness& parts, const BlendedFrame& stiff,
                    const BlendedFrame* flexible, const Violation& v) {
  SeparableCut cut;
  double fixed = v.p.dot(v.u_p);  // of what is not sized: all of it less what is
  if (v.m.size() > 0) fixed += v.m.dot(v.u_m);
  for (size_t g = 0; g < parts.groups.size(); ++g) {
    const std::vector<SizedElement>& elements = parts.groups[g];
    std::vector<double> weights(elements.front().K.size(), 0.0);
    for (size_t i = 0; i < elements.size(); ++i) {
      const Vector12 e = end_displacements(elements[i], v.u_p);
      fixed -= e.dot(stiff.stiffness(g, i) * e);
      Vector12 forces = Vector12::Zero();
      if (v.m.size() > 0) {
        const Vector12 ends = end_displacements(elements[i], v.u_m);
        forces = flexible->stiffness(g, i) * ends;
        fixed -= ends.dot(forces);
      }
      for (size_t j = 0; j < weights.size(); ++j) {
        weights[j] += e.dot(elements[i].K[j] * e) + forces.dot(elements[i].F[j] * forces);
      }
    }
    cut.weights.push_back(std::move(weights));
  }
  cut.least = 2 * v.p.dot(v.u_p) - v.most - fixed;
  // What rounding may have made of it must not cut off a choice that is just within its limit.
  constexpr double rounding = 1e-9;
  cut.least -= rounding * (2 * v.p.dot(v.u_p) + v.most);
  return cut;
}

void add_cuts(const SizedStiffness& parts, const HeldLimits& held, const Shares& shares,
              std::vector<SeparableCut>& cuts) {
  if (held.loads.empty()) return;
  const BlendedFrame stiff(parts, held.supports, shares, Blend::stiffness);
  if (!stiff.sound()) return;
  const MatrixXd loads = loads_of(held), u_f = stiff.displacements(loads);
  const std::vector<ResponseLimit> limits = limits_at(held, u_f);
  if (limits.empty()) return;
  const MatrixXd q = unit_forces_of(limits), u_q = stiff.displacements(q);
  std::optional<BlendedFrame> flexible;
  MatrixXd flexible_f, flexible_q;
  std::vector<Violation> violations;
  for (size_t k = 0; k < limits.size(); ++k) {
    const ResponseLimit& limit = limits[k];
    const auto column = static_cast<Index>(k);
    const VectorXd& f = held.loads[static_cast<size_t>(limit.load)];
    const double ff = f.dot(u_f.col(limit.load)), qq = limit.q.dot(u_q.col(column));
    if (!(ff > 0) || !(qq > 0)) continue;
    const double s = std::pow(ff / qq, 0.25);
    Violation v;
    v.most = limit.most;
    v.p = (f / s + s * limit.q) / 2;
    v.u_p = (u_f.col(limit.load) / s + s * u_q.col(column)) / 2;
    VectorXd m = (f / s - s * limit.q) / 2;
    double least = v.p.dot(v.u_p);
    constexpr double nothing = 1e-9;
    if (m.norm() > nothing * v.p.norm()) {
      if (!parts.joints_rigid) continue;
      if (least <= limit.most) continue;  // even without c_m
      if (!flexible) {
        flexible.emplace(parts, held.supports, shares, Blend::flexibility);
        if (!flexible->sound()) return;
        flexible_f = flexible->displacements(loads);
        flexible_q = flexible->displacements(q);
      }
      v.m = std::move(m);
      v.u_m = (flexible_f.col(limit.load) / s - s * flexible_q.col(column)) / 2;
      least -= v.m.dot(v.u_m);
    }
    v.ratio = least / limit.most;
    if (v.ratio > 1) violations.push_back(std::move(v));
  }
  std::stable_sort(violations.begin(), violations.end(),
                   [](const Violation& a, const Violation& b) { return a.ratio > b.ratio; });
  constexpr size_t cuts_at_once = 4;
  if (violations.size() > cuts_at_once) violations.resize(cuts_at_once);
  for (const Violation& v : violations) {
    cuts.push_back(cut_of(parts, stiff, flexible ? &*flexible : nullptr, v));
  }
}

}  // namespace

std::vector<HeldLimits> response_limits(const Frame& frame, const std::vector<SizedTubes>& groups,
                                        const SizedStiffness& parts) {
  if (!parts.separable) return {};
  std::vector<HeldLimits> all;
  if (!frame.supports.empty()) all.push_back(limits_on_supports(frame, groups, parts));
  if (frame.torsion && frame.limits.torsional_stiffness) {
    all.push_back(limit_of_torsion(frame, parts));
  }
  return all;
}

std::vector<SeparableCut> response_cuts(const SizedStiffness& parts,
                                        const std::vector<HeldLimits>& held, const Shares& shares) {
  std::vector<SeparableCut> cuts;
  for (const HeldLimits& h : held) add_cuts(parts, h, shares, cuts);
  return cuts;
}

}  // namespace tubewright
