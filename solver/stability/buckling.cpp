#include "solver/stability/buckling.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "solver/elements/bar_element.h"
#include "solver/elements/beam_matrices.h"
#include "solver/elements/rigid_bodies.h"
#include "solver/linear_algebra/eigenpairs.h"
#include "solver/statics/assembly.h"
#include "solver/statics/zero_stiffness_dofs.h"

namespace tubewright {

namespace {

/// `sign` times the stress stiffness of every member.
void for_each_stress(const Model& model, const AxialForces& N, double sign,
                     const ElementVisitor& visit) {
  for (size_t i = 0; i < model.beams.size(); ++i) {
    const BeamElement e = beam_element(model, model.beams[i]);
    const double growth = N.growth.empty() ? 0 : N.growth[i];
    visit(std::array{model.beams[i].from, model.beams[i].to},
          seen_from_joints(e, sign * local_stress_stiffness(e, N.beams[i], growth)));
  }
  for (size_t i = 0; i < model.bars.size(); ++i) {
    if (N.slack[i]) continue;
    const Bar& bar = model.bars[i];
    visit(std::array{bar.from, bar.to}, sign * bar_stress_stiffness(model, bar, N.bars[i]));
  }
}

/// K and -K_G on the free DOFs.
struct BucklingMatrices {
  FreeDofs free;
  SparseMatrix K;
  SparseMatrix minus_KG;
  bool loose = false;  ///< K has stiffness where the model has none
};

SparseMatrix assemble_minus_KG(const Model& model, const FreeDofs& free,
                               const AxialForces& forces) {
  return assemble_parts(
      model, free, [&](const ElementVisitor& visit) { for_each_stress(model, forces, -1, visit); });
}

/// K, without K_G.
BucklingMatrices unloaded(const Model& model, const std::vector<bool>& slack) {
  BucklingMatrices m{number_free_dofs(model), {}, {}, false};
  m.K = assemble_stiffness(model, m.free, slack);
  m.loose = !restrain_zero_stiffness_dofs(m.K, m.free).empty();
  return m;
}

BucklingMatrices buckling_matrices(const Model& model, const AxialForces& forces) {
  BucklingMatrices m = unloaded(model, forces.slack);
  m.minus_KG = assemble_minus_KG(model, m.free, forces);
  return m;
}

/// Forces that compress every member as hard, all along it, as any of the cases times its factor.
AxialForces hardest_compression(std::span<const LoadedCase> cases) {
  const size_t beams = cases.front().forces->beams.size();
  const size_t bars = cases.front().forces->bars.size();
  AxialForces N{std::vector<double>(beams, INFINITY), std::vector<double>(beams, 0),
                std::vector<double>(bars, INFINITY), cases.front().forces->slack};
  for (size_t i = 0; i < beams; ++i) {
    double from = INFINITY, to = INFINITY;
    for (const auto& [forces, factor] : cases) {
      const double growth = forces->growth.empty() ? 0 : forces->growth[i];
      from = std::min(from, factor * (forces->beams[i] - growth / 2));
      to = std::min(to, factor * (forces->beams[i] + growth / 2));
    }
    N.beams[i] = (from + to) / 2;
    N.growth[i] = to - from;
  }
  for (const auto& [forces, factor] : cases) {
    for (size_t i = 0; i < bars; ++i) N.bars[i] = std::min(N.bars[i], factor * forces->bars[i]);
  }
  return N;
}

bool stands(const Model& model, const BucklingMatrices& m, std::span<const LoadedCase> cases) {
  const SparseMatrix minus_KG = assemble_minus_KG(model, m.free, hardest_compression(cases));
  return Factorisation(m.K - minus_KG, m.free.node_of).positive_definite();
}

/// x' K x of a beam by the DOFs `deflection` and `rotation` of its ends, `x` on its joints.
double bending_energy(const BeamElement& e, const Matrix12& K, int deflection, int rotation,
                      const Vector12& x) {
  Matrix12 part = Matrix12::Zero();
  const std::array<int, 4> ends = {deflection, rotation, deflection + 6, rotation + 6};
  for (const int i : ends) {
    for (const int j : ends) part(i, j) = K(i, j);
  }
  return x.dot(seen_from_joints(e, part) * x);
}

}  // namespace

Eigen::VectorXd apply_stress_stiffness(const Model& model, const AxialForces& forces,
                                       const Eigen::VectorXd& u) {
  Eigen::VectorXd f = Eigen::VectorXd::Zero(u.size());
  for_each_stress(model, forces, 1, [&](std::span<const int> nodes, const auto& part) {
    add_product(nodes, part, u, f);
  });
  return f;
}

AxialForces axial_forces(const StaticSolution& solution) {
  AxialForces N{{}, {}, solution.bar_forces, solution.slack};
  for (const BeamState& beam : solution.beams) {
    const double from = section_forces(beam, 0).N, to = section_forces(beam, 1, true).N;
    N.beams.push_back((from + to) / 2);
    N.growth.push_back(to - from);
  }
  return N;
}

namespace {

/// Number of mu above the bound. Panels in a row fill K with one dense block; with their flows as
/// unknowns beside the DOFs, [K0 P; P' -F] in place of K = K0 + P F^-1 P', the factor stays sparse
/// and has one more negative pivot a flow (Haynsworth's inertia additivity).
int modes_above(const Model& model, const std::vector<bool>& slack, const BucklingMatrices& m,
                double bound) {
  if (!model.panels.empty() && !m.loose) {
    const SparseMatrix with_flows = stiffness_with_flows(model, m.free, slack);
    SparseMatrix load = m.minus_KG;
    load.conservativeResize(with_flows.rows(), with_flows.cols());
    constexpr double lost = 1e-9;  // of a diagonal entry: K0 alone may be next to singular
    const int count = negative_pivots(with_flows - load / bound, lost);
    const auto flows = static_cast<int>(model.panels.size());
    if (count >= flows) return count - flows;
  }
  return count_above(m.minus_KG, m.K, bound);
}

// -K_G x = mu K x, alpha = 1/mu: negative mu belong to loads turned round.
Buckling lowest_modes(const Model& model, const std::vector<bool>& slack, const BucklingMatrices& m,
                      int count, bool proven) {
  const EigenProof proof{proven, [&](double bound) { return modes_above(model, slack, m, bound); }};
  const Eigenpairs pairs = largest_eigenpairs(m.minus_KG, m.K, m.free.node_of, count, {}, proof);
  Buckling result;
  result.complete = pairs.complete;
  for (size_t k = 0; k < pairs.values.size(); ++k) {
    BucklingMode mode;
    mode.factor = 1 / pairs.values[k];
    if (mode.factor > beyond_any_load) break;
    mode.shape = Eigen::VectorXd::Zero(dof_count(model));
    mode.shape(m.free.unknown) = pairs.vectors.col(static_cast<Eigen::Index>(k));
    follow_masters(model, m.free.masters, mode.shape);
    mode.shape /= mode.shape.lpNorm<Eigen::Infinity>();
    result.modes.push_back(std::move(mode));
  }
  return result;
}

int count_below(const Model& model, const std::vector<bool>& slack, const BucklingMatrices& m,
                double factor) {
  if (m.K.rows() == 0) return 0;
  const SparseMatrix loaded = m.K - factor * m.minus_KG;
  if (Factorisation(loaded, m.free.node_of).positive_definite()) return 0;
  return modes_above(model, slack, m, 1 / factor);
}

}  // namespace

Buckling linear_buckling(const Model& model, const AxialForces& forces, int count) {
  return lowest_modes(model, forces.slack, buckling_matrices(model, forces), count, true);
}

Buckling likely_buckling(const Model& model, const AxialForces& forces, int count) {
  return lowest_modes(model, forces.slack, buckling_matrices(model, forces), count, false);
}

int modes_below(const Model& model, const AxialForces& forces, double factor) {
  return count_below(model, forces.slack, buckling_matrices(model, forces), factor);
}

BucklingBelow buckling_below(const Model& model, const AxialForces& forces, double factor,
                             int most) {
  const BucklingMatrices m = buckling_matrices(model, forces);
  BucklingBelow below;
  below.count = count_below(model, forces.slack, m, factor);
  if (below.count == 0) return below;
  below.buckling =
      lowest_modes(model, forces.slack, m, below.count > 0 ? std::min(below.count, most) : 1, true);
  return below;
}

std::vector<bool> surely_stable(const Model& model, std::span<const LoadedCase> cases) {
  std::vector<bool> stable(cases.size(), false);
  if (cases.empty()) return stable;
  const BucklingMatrices m = unloaded(model, cases.front().forces->slack);
  const auto tell = [&](size_t begin, size_t end) {
    if (m.K.rows() > 0 && !stands(model, m, cases.subspan(begin, end - begin))) return false;
    std::fill(stable.begin() + static_cast<std::ptrdiff_t>(begin),
              stable.begin() + static_cast<std::ptrdiff_t>(end), true);
    return true;
  };
  // Where all together do not, halves may; where these do not, most of the cases may be at fault.
  constexpr size_t worth_halving = 4;
  if (!tell(0, cases.size()) && cases.size() >= worth_halving) {
    const size_t middle = cases.size() / 2;
    tell(0, middle);
    tell(middle, cases.size());
  }
  return stable;
}

std::vector<BendingShare> bending_shares(const Model& model, const std::vector<bool>& slack,
                                         const Eigen::VectorXd& shape) {
  const double total = shape.dot(apply_stiffness(model, slack, shape));
  std::vector<BendingShare> shares;
  for (const Beam& beam : model.beams) {
    const BeamElement e = beam_element(model, beam);
    const Matrix12 K = local_stiffness(e);
    Vector12 x;
    x << shape.segment<6>(dofs_per_node * beam.from), shape.segment<6>(dofs_per_node * beam.to);
    shares.push_back(
        {bending_energy(e, K, 2, 4, x) / total, bending_energy(e, K, 1, 5, x) / total});
  }
  return shares;
}

}  // namespace tubewright
