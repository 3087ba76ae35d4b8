#include "solver/dynamics/ride_start.h"

#include <Eigen/LU>
#include <Eigen/SVD>
#include <algorithm>
#include <cassert>
#include <cmath>
#include <optional>
#include <vector>

namespace tubewright {

namespace {

constexpr double rank_rounding = 1e-9;    // of the greatest: modes come from an eigensolver
constexpr double weight_rounding = 1e-7;  // of the weight, the same
constexpr double sign_rounding = 1e-9;    // of the greatest force or displacement

/// The standing structure by the forces of its tyres and the motions beta that they resist:
///   F/k + flexibility F + motions beta = path,  motions' F = support
struct Standing {
  Eigen::MatrixXd flexibility;  ///< with that of the tyres
  Eigen::MatrixXd motions;      ///< vertical at the tyres, tyres x motions
  Eigen::VectorXd path, support;

  Eigen::Index tyres() const { return path.size(); }
};

struct StandingForces {
  Eigen::VectorXd F, beta, gap;  ///< gap: negative where the tyre is off the ground
};

/// With the tyres of a set; no value if they cannot hold the structure.
std::optional<StandingForces> standing_on(const Standing& s, const std::vector<bool>& set) {
  std::vector<int> list;
  for (int i = 0; i < static_cast<int>(set.size()); ++i) {
    if (set[static_cast<size_t>(i)]) list.push_back(i);
  }
  const auto n = static_cast<Eigen::Index>(list.size()), m = s.motions.cols();
  const double h = s.tyres() > 0 ? s.flexibility.diagonal().mean() : 1;
  const double b = s.motions.size() > 0 ? s.motions.cwiseAbs().maxCoeff() : 1;
  Eigen::MatrixXd K = Eigen::MatrixXd::Zero(n + m, n + m);
  Eigen::VectorXd right(n + m);
  K.topLeftCorner(n, n) = s.flexibility(list, list) / h;
  K.topRightCorner(n, m) = s.motions(list, Eigen::all) / b;
  K.bottomLeftCorner(m, n) = K.topRightCorner(n, m).transpose();
  right.head(n) = s.path(list);
  right.tail(m) = s.support * (h / b);
  StandingForces f;
  f.F = Eigen::VectorXd::Zero(s.tyres());
  f.beta = Eigen::VectorXd::Zero(m);
  if (n + m > 0) {
    Eigen::FullPivLU<Eigen::MatrixXd> lu(K);
    lu.setThreshold(rank_rounding);
    if (!lu.isInvertible()) return std::nullopt;
    const Eigen::VectorXd solved = lu.solve(right);
    for (Eigen::Index i = 0; i < n; ++i) f.F[list[static_cast<size_t>(i)]] = solved[i] / h;
    f.beta = solved.tail(m) / b;
  }
  f.gap = s.path - s.flexibility * f.F - s.motions * f.beta;  // 0 where it stands
  return f;
}

/// The tyre that pulls most or is deepest in the ground; -1: none.
int worst_tyre(const Standing& s, const StandingForces& f, const std::vector<bool>& set) {
  const double h = s.flexibility.diagonal().mean();
  const double size =
      std::max({s.path.cwiseAbs().maxCoeff(), (s.motions * f.beta).cwiseAbs().maxCoeff(),
                h * f.F.cwiseAbs().maxCoeff()});
  int worst = -1;
  double most = sign_rounding * size;
  for (int i = 0; i < static_cast<int>(set.size()); ++i) {
    const double fault = set[static_cast<size_t>(i)] ? -h * f.F[i] : f.gap[i];
    if (fault > most) {
      most = fault;
      worst = i;
    }
  }
  return worst;
}

/// Exchanges one tyre at a time; where that does not end, all sets.
std::optional<StandingForces> without_pull(const Standing& s) {
  const auto n = static_cast<size_t>(s.tyres());
  std::vector<bool> set(n, true);
  for (size_t k = 0; k < 4 * n; ++k) {
    auto f = standing_on(s, set);
    if (!f) break;
    const int i = worst_tyre(s, *f, set);
    if (i < 0) return f;
    set[static_cast<size_t>(i)] = !set[static_cast<size_t>(i)];
  }
  for (unsigned mask = 0; mask < 1U << n; ++mask) {
    for (size_t i = 0; i < n; ++i) set[i] = (mask >> i & 1U) == 0;
    auto f = standing_on(s, set);
    if (f && worst_tyre(s, *f, set) < 0) return f;
  }
  return std::nullopt;
}

/// Rigid-body motions that move tyres up or down, and those that do not: orthonormal columns.
struct RigidMotions {
  Eigen::MatrixXd resisted, idle;
};

RigidMotions rigid_motions(const Eigen::MatrixXd& vertical) {
  const Eigen::Index n = vertical.cols();
  if (vertical.size() == 0 || vertical.isZero(0)) {
    return {Eigen::MatrixXd(n, 0), Eigen::MatrixXd::Identity(n, n)};
  }
  const Eigen::JacobiSVD<Eigen::MatrixXd> svd(vertical, Eigen::ComputeFullV);
  const auto& values = svd.singularValues();
  Eigen::Index rank = 0;
  while (rank < values.size() && values[rank] > rank_rounding * values[0]) ++rank;
  return {svd.matrixV().leftCols(rank), svd.matrixV().rightCols(n - rank)};
}

}  // namespace

Outcome<StandingRide, NoEquilibrium> standing_ride(const RideSystem& system,
                                                   const Eigen::VectorXd& heights, bool bilateral) {
  assert(is_ride_system(system));
  assert(heights.size() == static_cast<Eigen::Index>(system.tyres.size()));
  std::vector<int> rigid, elastic, vertical;
  for (int i = 0; i < static_cast<int>(system.circular_frequency.size()); ++i) {
    (system.circular_frequency[i] == 0 ? rigid : elastic).push_back(i);
  }
  for (const RideTyre& t : system.tyres) vertical.push_back(t.vertical);

  const RigidMotions motions = rigid_motions(system.modes(vertical, rigid));
  const Eigen::VectorXd weight = system.weight_modal(rigid);
  if ((motions.idle.transpose() * weight).norm() > weight_rounding * weight.norm()) {
    return NoEquilibrium::unsupported;
  }
  const Eigen::MatrixXd shapes = system.modes(vertical, elastic);
  const Eigen::VectorXd softness = system.circular_frequency(elastic).array().square().inverse();
  const Eigen::VectorXd hanging = softness.cwiseProduct(system.weight_modal(elastic));
  Standing s;
  s.flexibility = shapes * softness.asDiagonal() * shapes.transpose() +
                  system.residual_flexibility(vertical, vertical);
  for (Eigen::Index i = 0; i < heights.size(); ++i) {
    s.flexibility(i, i) += 1 / system.tyres[static_cast<size_t>(i)].stiffness;
  }
  s.motions = system.modes(vertical, rigid) * motions.resisted;
  s.path = heights - shapes * hanging - system.weight_displacement(vertical);
  s.support = -motions.resisted.transpose() * weight;

  const std::optional<StandingForces> found =
      bilateral || system.tyres.empty()
          ? standing_on(s, std::vector<bool>(system.tyres.size(), true))
          : without_pull(s);
  if (!found) return NoEquilibrium::tips;
  StandingRide ride;
  ride.tyre_forces = bilateral ? found->F : found->F.cwiseMax(0).eval();
  ride.displacement.resize(system.modes.cols());
  ride.displacement(rigid) = motions.resisted * found->beta;
  ride.displacement(elastic) =
      hanging + softness.cwiseProduct(shapes.transpose() * ride.tyre_forces);
  ride.deflections.resize(heights.size());
  for (Eigen::Index i = 0; i < heights.size(); ++i) {
    ride.deflections[i] =
        found->gap[i] + found->F[i] / system.tyres[static_cast<size_t>(i)].stiffness;
  }
  return ride;
}

}  // namespace tubewright
