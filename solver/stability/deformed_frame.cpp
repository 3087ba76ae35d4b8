#include "solver/stability/deformed_frame.h"

#include <Eigen/Geometry>
#include <algorithm>
#include <array>
#include <cmath>

#include "solver/elements/beam_matrices.h"
#include "solver/elements/rigid_bodies.h"
#include "solver/elements/rotations.h"
#include "solver/linear_algebra/dense.h"
#include "solver/model/model_size.h"

namespace tubewright {

namespace {

using Matrix6 = Eigen::Matrix<double, 6, 6>;

/// A bar end to end: force and stiffness on the displacements of its ends, 6 by 6.
struct BarState {
  bool valid = false;
  bool slack = false;
  double force = 0;
  double energy = 0;
  Eigen::Vector3d direction = Eigen::Vector3d::Zero();
  Eigen::Matrix3d stiffness = Eigen::Matrix3d::Zero();  ///< of `to` against `from`
};

BarState bar_state(const Model& model, const Bar& bar, const Eigen::VectorXd& u) {
  BarState s;
  const Eigen::Vector3d along = model.nodes[bar.to] - model.nodes[bar.from];
  const Eigen::Vector3d du =
      u.segment<3>(dofs_per_node * bar.to) - u.segment<3>(dofs_per_node * bar.from);
  const double L = along.norm(), l = (along + du).norm();
  if (!std::isfinite(l) || !(l > 1e-9 * L)) return s;  // its ends have met: no direction
  s.valid = true;
  s.direction = (along + du) / l;
  const double elongation = (2 * along + du).dot(du) / (l + L);  // l - L without cancellation
  s.slack = bar.tension_only && elongation < -1e-12 * L;         // an idle cable is not slack
  if (s.slack) return s;
  s.force = bar.stiffness * elongation;
  s.energy = s.force * elongation / 2;
  const Eigen::Matrix3d nn = s.direction * s.direction.transpose();
  s.stiffness = bar.stiffness * nn + s.force / l * (Eigen::Matrix3d::Identity() - nn);
  return s;
}

/// How a node moves with the DOFs of its master (which may be itself).
struct NodeMotion {
  bool plain = true;                              ///< displacement and spin are the DOFs
  Eigen::Vector3d arm = Eigen::Vector3d::Zero();  ///< from the master, now
  Matrix6 by_unknowns = Matrix6::Identity();
};

std::vector<NodeMotion> node_motions(const DeformableFrame& frame, const Configuration& at) {
  const Model& model = *frame.model;
  std::vector<NodeMotion> motions(model.nodes.size());
  for (size_t n = 0; n < motions.size(); ++n) {
    const int m = frame.free.masters[n];
    NodeMotion& motion = motions[n];
    if (m == static_cast<int>(n) && !frame.by_vector[m]) continue;
    motion.plain = false;
    motion.arm = at.rotations[m] * (model.nodes[n] - model.nodes[m]);
    const Eigen::Matrix3d spin =
        frame.by_vector[m] ? spin_by_vector(at.displacements.segment<3>(dofs_per_node * m + 3))
                           : Eigen::Matrix3d::Identity();
    motion.by_unknowns.block<3, 3>(0, 3) = -skew(motion.arm) * spin;
    motion.by_unknowns.block<3, 3>(3, 3) = spin;
  }
  return motions;
}

/// Collects the tangent's entries; columns of restrained DOFs go to the rate.
class TangentSum {
 public:
  TangentSum(const DeformableFrame& frame, Eigen::VectorXd& rate) : frame_(frame), rate_(rate) {
    entries_.reserve(144 * frame.model->beams.size() + 36 * frame.model->bars.size());
  }

  /// A block of rows and columns that start at these DOFs (6 n + d).
  void add(int first_row, int first_column, const Eigen::Ref<const Eigen::MatrixXd>& K) {
    for (Eigen::Index j = 0; j < K.cols(); ++j) {
      const int unknown = first_column + static_cast<int>(j);
      const int column = frame_.free.number[unknown];
      const double prescribed = frame_.prescribed[unknown];
      if (column < 0 && prescribed == 0) continue;
      for (Eigen::Index i = 0; i < K.rows(); ++i) {
        const int row = frame_.free.number[first_row + static_cast<int>(i)];
        if (row < 0) continue;
        if (column < 0) {
          rate_[row] -= K(i, j) * prescribed;
        } else {
          entries_.emplace_back(row, column, K(i, j));
        }
      }
    }
  }

  SparseMatrix matrix() const {
    const auto n = static_cast<Eigen::Index>(frame_.free.unknown.size());
    SparseMatrix K(n, n);
    K.setFromTriplets(entries_.begin(), entries_.end());
    return K;
  }

 private:
  const DeformableFrame& frame_;
  Eigen::VectorXd& rate_;
  std::vector<Eigen::Triplet<double>> entries_;
};

void add_beam_tangent(const DeformableFrame& frame, const Beam& beam, const Matrix12& K,
                      const std::vector<NodeMotion>& motions, TangentSum& sum) {
  const std::array<int, 2> nodes = {beam.from, beam.to};
  for (int a = 0; a < 2; ++a) {
    for (int b = 0; b < 2; ++b) {
      Matrix6 block = K.block<6, 6>(6 * a, 6 * b);
      const NodeMotion &row = motions[nodes[a]], &column = motions[nodes[b]];
      if (!row.plain) block = (row.by_unknowns.transpose() * block).eval();
      if (!column.plain) block = (block * column.by_unknowns).eval();
      sum.add(dofs_per_node * frame.free.masters[nodes[a]],
              dofs_per_node * frame.free.masters[nodes[b]], block);
    }
  }
}

void add_bar_tangent(const DeformableFrame& frame, const Bar& bar, const Eigen::Matrix3d& K,
                     const std::vector<NodeMotion>& motions, TangentSum& sum) {
  const std::array<int, 2> nodes = {bar.from, bar.to};
  for (int a = 0; a < 2; ++a) {
    for (int b = 0; b < 2; ++b) {
      const double sign = a == b ? 1 : -1;
      const NodeMotion &row = motions[nodes[a]], &column = motions[nodes[b]];
      const int i = dofs_per_node * frame.free.masters[nodes[a]];
      const int j = dofs_per_node * frame.free.masters[nodes[b]];
      if (row.plain && column.plain) {
        sum.add(i, j, sign * K);
      } else {
        sum.add(
            i, j,
            sign * row.by_unknowns.topRows<3>().transpose() * K * column.by_unknowns.topRows<3>());
      }
    }
  }
}

/// What the forces' own arms and the vectors' own conjugates change: `raw` at the nodes, `missing`
/// gathered on the masters.
void add_node_tangent(const DeformableFrame& frame, const Configuration& at,
                      const Eigen::VectorXd& raw, const Eigen::VectorXd& missing,
                      const std::vector<NodeMotion>& motions, TangentSum& sum) {
  for (size_t n = 0; n < motions.size(); ++n) {
    if (motions[n].plain) continue;
    const int node = static_cast<int>(n), m = frame.free.masters[n];
    const Eigen::Matrix3d spin = motions[n].by_unknowns.block<3, 3>(3, 3);
    const int rotation = dofs_per_node * m + 3;
    if (m != node) {  // d(arm x F) = (w x arm) x F
      const Eigen::Vector3d F = raw.segment<3>(dofs_per_node * node);
      sum.add(rotation, rotation, spin.transpose() * skew(F) * skew(motions[n].arm) * spin);
    } else {
      sum.add(rotation, rotation,
              change_of_vector_moment(at.displacements.segment<3>(rotation),
                                      missing.segment<3>(rotation)));
    }
  }
}

/// The free rotations of a node: their numbers, or -1.
Eigen::Vector3i rotation_numbers(const FreeDofs& free, int node) {
  return {free.number[dofs_per_node * node + 3], free.number[dofs_per_node * node + 4],
          free.number[dofs_per_node * node + 5]};
}

/// Their block of K, symmetric part; `instead` on the diagonal where a rotation is not free.
Eigen::Matrix3d rotation_block(const SparseMatrix& K, const Eigen::Vector3i& numbers,
                               double instead) {
  Eigen::Matrix3d block = Eigen::Matrix3d::Zero();
  for (int j = 0; j < 3; ++j) {
    if (numbers[j] < 0) block(j, j) = instead;
    for (int i = 0; i < 3; ++i) {
      if (numbers[i] >= 0 && numbers[j] >= 0) block(i, j) = K.coeff(numbers[i], numbers[j]);
    }
  }
  return (block + block.transpose()) / 2;
}

/// Leaves idle rotations where they are: a stiffness about them, and no moment.
void restrain_zero_stiffness_rotations(const DeformableFrame& frame, InternalForces& r) {
  for (const ZeroStiffnessRotations& zero_stiffness : frame.zero_stiffness) {
    const Eigen::Vector3i numbers = rotation_numbers(frame.free, zero_stiffness.node);
    const EigenSystem3 eigen =
        symmetric_eigensystem(rotation_block(r.tangent, numbers, zero_stiffness.stiffness));
    std::array<int, 3> order = {0, 1, 2};
    std::sort(order.begin(), order.end(),
              [&](int a, int b) { return std::abs(eigen.values[a]) < std::abs(eigen.values[b]); });
    for (int k = 0; k < zero_stiffness.count; ++k) {
      const Eigen::Vector3d axis = eigen.vectors.col(order[k]);
      double moment = 0;
      for (int i = 0; i < 3; ++i) {
        if (numbers[i] >= 0) moment += axis[i] * r.out_of_balance[numbers[i]];
      }
      r.zero_stiffness_moment = std::max(r.zero_stiffness_moment, std::abs(moment));
      for (int j = 0; j < 3; ++j) {
        if (numbers[j] < 0) continue;
        r.out_of_balance[numbers[j]] -= moment * axis[j];
        for (int i = 0; i < 3; ++i) {
          if (numbers[i] < 0) continue;
          r.tangent.coeffRef(numbers[i], numbers[j]) +=
              zero_stiffness.stiffness * axis[i] * axis[j];
        }
      }
    }
  }
}

/// Moves what is missing at nodes that follow to their masters, with the arms of now.
Eigen::VectorXd gathered(const DeformableFrame& frame, const std::vector<NodeMotion>& motions,
                         const Eigen::VectorXd& raw) {
  Eigen::VectorXd f = raw;
  for (size_t n = 0; n < motions.size(); ++n) {
    const int node = static_cast<int>(n), m = frame.free.masters[n];
    if (m == node) continue;
    const Vector6 at = raw.segment<6>(dofs_per_node * node);
    f.segment<6>(dofs_per_node * node).setZero();
    f.segment<3>(dofs_per_node * m) += at.head<3>();
    f.segment<3>(dofs_per_node * m + 3) += at.tail<3>() + motions[n].arm.cross(at.head<3>());
  }
  return f;
}

void note(InternalForces& r, const Vector6& f) {
  r.greatest_force = std::max(r.greatest_force, f.head<3>().lpNorm<Eigen::Infinity>());
  r.greatest_moment = std::max(r.greatest_moment, f.tail<3>().lpNorm<Eigen::Infinity>());
}

std::string obstacle(const Model& model) {
  if (!model.panels.empty()) return "sheets are not part of the large-displacement solver";
  for (size_t i = 0; i < model.beams.size(); ++i) {
    const Beam& beam = model.beams[i];
    if (loose_direction(beam.connection_from, beam.connection_to) >= 0) {
      return "beam " + std::to_string(i) + ": its releases leave it loose";
    }
    const std::string why = corotational_obstacle(beam);
    if (!why.empty()) return "beam " + std::to_string(i) + ": " + why;
  }
  return "";
}

/// Takes rotations that nothing resists out of the free DOFs and notes those resisted only in
/// part. `K`: the unloaded frame's tangent.
void sort_out_rotations(DeformableFrame& frame, const SparseMatrix& K) {
  constexpr double nothing = 1e-12;  // as in zero_stiffness_dofs.cpp
  FreeDofs& free = frame.free;
  const int nodes = static_cast<int>(free.masters.size());
  std::vector<bool> leads(nodes, false);
  for (int n = 0; n < nodes; ++n) {
    if (free.masters[n] != n) leads[free.masters[n]] = true;
  }
  std::vector<bool> dropped(free.unknown.size(), false);
  for (int n = 0; n < nodes; ++n) {
    if (leads[n]) continue;
    const Eigen::Vector3i numbers = rotation_numbers(free, n);
    const auto count = static_cast<int>((numbers.array() >= 0).count());
    if (count == 0) continue;
    const double trace = rotation_block(K, numbers, 0).trace();
    const EigenSystem3 eigen =
        symmetric_eigensystem(rotation_block(K, numbers, trace > 0 ? trace : 1));
    const auto zero_stiffness = static_cast<int>((eigen.values.array() <= nothing * trace).count());
    if (zero_stiffness == count) {
      for (const int number : numbers) {
        if (number >= 0) dropped[number] = true;
      }
    } else if (zero_stiffness > 0) {
      frame.zero_stiffness.push_back({n, zero_stiffness, trace});
    }
  }
  const FreeDofs all = free;
  free.unknown.clear();
  free.node_of.clear();
  for (size_t i = 0; i < all.unknown.size(); ++i) {
    const int unknown = all.unknown[i];
    free.number[unknown] = dropped[i] ? -1 : static_cast<int>(free.unknown.size());
    if (dropped[i]) continue;
    free.unknown.push_back(unknown);
    free.node_of.push_back(all.node_of[i]);
  }
}

/// Loads on DOFs that are neither free nor held, and moments about idle rotations.
std::string unresisted_load(const DeformableFrame& frame, const std::vector<bool>& held) {
  Eigen::VectorXd loads = frame.loads;
  gather_on_masters(*frame.model, frame.free.masters, loads);
  const InternalForces r = internal_forces(frame, reference_configuration(frame), 1, true);
  if (r.zero_stiffness_moment > 1e-9 * r.greatest_moment) {
    return "a moment acts about a pin that nothing stops from turning";
  }
  for (Eigen::Index i = 0; i < loads.size(); ++i) {
    if (loads[i] != 0 && frame.free.number[i] < 0 && !held[i]) {
      return "node " + std::to_string(i / dofs_per_node) + ": a load that nothing resists";
    }
  }
  return "";
}

/// The whole stress stiffness less that of the straight chord, which the corotational beam has.
Matrix12 bowing_stiffness(BeamElement e) {
  constexpr double unit_tension = 1;
  Matrix12 K = local_stress_stiffness(e, unit_tension);
  for (const int d : {1, 2}) {
    K(d, d) -= unit_tension / e.L;
    K(6 + d, 6 + d) -= unit_tension / e.L;
    K(d, 6 + d) += unit_tension / e.L;
    K(6 + d, d) += unit_tension / e.L;
  }
  e.axes.setIdentity();
  return seen_from_joints(e, K);
}

/// The beams and what their loads do to their joints.
void add_beams(DeformableFrame& frame, const Actions& actions) {
  const Model& model = *frame.model;
  for (size_t i = 0; i < model.beams.size(); ++i) {
    const Beam& beam = model.beams[i];
    const BeamElement e = beam_element(model, beam);
    frame.beams.push_back(corotational_beam(e));
    frame.bowing.push_back(bowing_stiffness(e));
    Vector12 f = Vector12::Zero();
    if (!actions.beams[i].empty()) {
      f = rotation_12(e.axes).transpose() *
          (condense(e)->from_joint.transpose() * local_equivalent_loads(e, actions.beams[i]));
    }
    frame.beam_loads.push_back(f);
    frame.loads.segment<6>(dofs_per_node * beam.from) += f.head<6>();
    frame.loads.segment<6>(dofs_per_node * beam.to) += f.tail<6>();
  }
}

/// What forces and moments cannot be known better than. Places are known to 2e-16 of the frame's
/// size, and stiffness makes forces of it.
void find_rounding(DeformableFrame& frame) {
  const Model& model = *frame.model;
  double axial = 0, turning = 0;
  for (const CorotationalBeam& beam : frame.beams) {
    axial = std::max(axial, beam.K.diagonal()[0]);
    turning = std::max(turning, beam.K.diagonal().segment<3>(3).maxCoeff());
  }
  for (const Bar& bar : model.bars) axial = std::max(axial, bar.stiffness);
  frame.force_rounding = 1e-14 * axial * frame.size;
  frame.moment_rounding = 1e-14 * turning + frame.force_rounding * frame.size /
                                                std::max<double>(1, double(model.nodes.size()));
}

/// The prescribed displacements; which DOFs a support holds comes back.
std::vector<bool> add_supports(DeformableFrame& frame, const Actions& actions) {
  const Model& model = *frame.model;
  frame.prescribed = Eigen::VectorXd::Zero(dof_count(model));
  frame.by_vector.assign(model.nodes.size(), false);
  std::vector<bool> held(dof_count(model), false);
  for (const Support& support : model.supports) {
    for (int d = 0; d < dofs_per_node; ++d) {
      if (!support.restrained[d]) continue;
      const int i = dofs_per_node * support.node + d;
      held[i] = true;
      frame.prescribed[i] = actions.prescribed[i];
      if (d >= 3) frame.by_vector[support.node] = true;
    }
  }
  return held;
}

}  // namespace

Outcome<DeformableFrame, std::string> deformable_frame(const Model& model, const Actions& actions) {
  if (std::string why = obstacle(model); !why.empty()) return why;
  DeformableFrame frame;
  frame.model = &model;
  frame.free = number_free_dofs(model);
  frame.loads = actions.nodal;
  frame.size = model_size(model);

  add_beams(frame, actions);
  find_rounding(frame);
  const std::vector<bool> held = add_supports(frame, actions);
  const InternalForces unloaded = internal_forces(frame, reference_configuration(frame), 0, true);
  if (!unloaded.valid) return std::string("a member without length");
  sort_out_rotations(frame, unloaded.tangent);
  if (std::string why = unresisted_load(frame, held); !why.empty()) return why;
  return frame;
}

Configuration reference_configuration(const DeformableFrame& frame) {
  Configuration p;
  p.displacements = Eigen::VectorXd::Zero(dof_count(*frame.model));
  p.rotations.assign(frame.model->nodes.size(), Eigen::Matrix3d::Identity());
  return p;
}

void update_configuration(const DeformableFrame& frame, const Eigen::VectorXd& step,
                          double load_factor, Configuration& configuration) {
  const Model& model = *frame.model;
  Eigen::VectorXd moved = Eigen::VectorXd::Zero(dof_count(model));
  moved(frame.free.unknown) = step;
  Eigen::VectorXd& u = configuration.displacements;
  for (int n = 0; n < static_cast<int>(model.nodes.size()); ++n) {
    if (frame.free.masters[n] != n) continue;
    const int first = dofs_per_node * n;
    u.segment<3>(first) += moved.segment<3>(first);
    if (frame.by_vector[n]) {
      u.segment<3>(first + 3) += moved.segment<3>(first + 3);
    } else {
      Eigen::Matrix3d& R = configuration.rotations[n];
      R = (rotation_matrix(moved.segment<3>(first + 3)) * R).eval();
      u.segment<3>(first + 3) = rotation_vector_near(R, u.segment<3>(first + 3));
    }
  }
  for (const Support& support : model.supports) {
    for (int d = 0; d < dofs_per_node; ++d) {
      const int i = dofs_per_node * support.node + d;
      if (support.restrained[d]) u[i] = load_factor * frame.prescribed[i];
    }
  }
  for (int n = 0; n < static_cast<int>(model.nodes.size()); ++n) {
    if (frame.by_vector[n]) {
      configuration.rotations[n] = rotation_matrix(u.segment<3>(dofs_per_node * n + 3));
    }
  }
  for (int n = 0; n < static_cast<int>(model.nodes.size()); ++n) {
    const int m = frame.free.masters[n];
    if (m == n) continue;
    const Eigen::Vector3d arm = model.nodes[n] - model.nodes[m];
    configuration.rotations[n] = configuration.rotations[m];
    u.segment<3>(dofs_per_node * n) =
        u.segment<3>(dofs_per_node * m) + configuration.rotations[m] * arm - arm;
    u.segment<3>(dofs_per_node * n + 3) = u.segment<3>(dofs_per_node * m + 3);
  }
}

InternalForces internal_forces(const DeformableFrame& frame, const Configuration& configuration,
                               double load_factor, bool with_tangent) {
  const Model& model = *frame.model;
  const auto unknowns = static_cast<Eigen::Index>(frame.free.unknown.size());
  InternalForces r;
  if (!configuration.displacements.allFinite()) return r;
  const std::vector<NodeMotion> motions = node_motions(frame, configuration);
  r.rate = Eigen::VectorXd::Zero(unknowns);
  TangentSum sum(frame, r.rate);
  Eigen::VectorXd raw = -load_factor * frame.loads;
  for (size_t n = 0; n < model.nodes.size(); ++n) note(r, raw.segment<6>(6 * n));

  r.beams.reserve(model.beams.size());
  for (size_t i = 0; i < model.beams.size(); ++i) {
    const Beam& beam = model.beams[i];
    const auto joint = [&](int n) {
      return JointMotion{configuration.displacements.segment<3>(dofs_per_node * n),
                         configuration.rotations[n]};
    };
    r.beams.push_back(
        corotational_state(frame.beams[i], joint(beam.from), joint(beam.to), with_tangent));
    const CorotationalBeamState& s = r.beams.back();
    if (!s.valid) return r;
    r.energy += s.energy;
    raw.segment<6>(dofs_per_node * beam.from) += s.forces.head<6>();
    raw.segment<6>(dofs_per_node * beam.to) += s.forces.tail<6>();
    note(r, s.forces.head<6>());
    note(r, s.forces.tail<6>());
    if (with_tangent) add_beam_tangent(frame, beam, s.tangent, motions, sum);
  }
  for (const Bar& bar : model.bars) {
    const BarState s = bar_state(model, bar, configuration.displacements);
    if (!s.valid) return r;
    r.bar_forces.push_back(s.force);
    r.slack.push_back(s.slack);
    r.energy += s.energy;
    const Eigen::Vector3d pull = s.force * s.direction;
    raw.segment<3>(dofs_per_node * bar.from) -= pull;
    raw.segment<3>(dofs_per_node * bar.to) += pull;
    r.greatest_force = std::max(r.greatest_force, pull.lpNorm<Eigen::Infinity>());
    if (with_tangent) add_bar_tangent(frame, bar, s.stiffness, motions, sum);
  }

  r.residual = gathered(frame, motions, raw);
  const auto on_unknowns = [&](const Eigen::VectorXd& f) {
    Eigen::VectorXd g = f;
    for (size_t n = 0; n < motions.size(); ++n) {
      if (!frame.by_vector[n]) continue;
      const auto spin = motions[n].by_unknowns.block<3, 3>(3, 3);
      g.segment<3>(dofs_per_node * n + 3) = spin.transpose() * f.segment<3>(dofs_per_node * n + 3);
    }
    return Eigen::VectorXd(g(frame.free.unknown));
  };
  r.out_of_balance = on_unknowns(r.residual);
  r.valid = r.out_of_balance.allFinite();
  if (!with_tangent) return r;
  add_node_tangent(frame, configuration, raw, r.residual, motions, sum);
  r.rate += on_unknowns(gathered(frame, motions, frame.loads));
  r.tangent = sum.matrix();
  restrain_zero_stiffness_rotations(frame, r);
  return r;
}

SparseMatrix tangent_with_bowing(const DeformableFrame& frame, const Configuration& configuration,
                                 const InternalForces& r) {
  const std::vector<NodeMotion> motions = node_motions(frame, configuration);
  Eigen::VectorXd not_wanted = Eigen::VectorXd::Zero(r.rate.size());
  TangentSum sum(frame, not_wanted);
  for (size_t i = 0; i < r.beams.size(); ++i) {
    const double N = r.beams[i].local_forces[6];
    if (!(N < 0)) continue;
    const Matrix12 R = rotation_12(r.beams[i].axes);
    add_beam_tangent(frame, frame.model->beams[i], R.transpose() * (N * frame.bowing[i]) * R,
                     motions, sum);
  }
  return r.tangent + sum.matrix();
}

SparseMatrix symmetric_lower(const SparseMatrix& tangent) {
  const SparseMatrix transposed = tangent.transpose();
  const SparseMatrix mean = 0.5 * (tangent + transposed);
  return mean.triangularView<Eigen::Lower>();
}

}  // namespace tubewright
