#include "cases/studies/two_factor_fit.h"

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

namespace tubewright {

namespace {

using Eigen::Matrix2d;
using Eigen::Vector2d;
using Eigen::VectorXd;

/// In natural logarithms of the values.
struct Problem {
  const PredictedReadings& predict;
  VectorXd readings;
  Vector2d least, most;

  std::vector<double> predicted(const Vector2d& x) const {
    return predict({std::exp(x[0]), std::exp(x[1])});
  }

  /// Reading less prediction; empty where there is no answer.
  VectorXd residual(const Vector2d& x) const {
    const std::vector<double> p = predicted(x);
    if (static_cast<Eigen::Index>(p.size()) != readings.size()) return {};
    return readings - Eigen::Map<const VectorXd>(p.data(), readings.size());
  }

  double squares(const Vector2d& x) const {
    const VectorXd r = residual(x);
    return r.size() == 0 ? std::numeric_limits<double>::infinity() : r.squaredNorm();
  }

  /// How the predictions change with x: central differences, a hundredth of the value either way.
  std::optional<Eigen::MatrixX2d> slopes(const Vector2d& x) const {
    constexpr double step = 0.01;
    Eigen::MatrixX2d S(readings.size(), 2);
    for (int k = 0; k < 2; ++k) {
      const Vector2d h = step * Vector2d::Unit(k);
      const VectorXd up = residual(x + h), down = residual(x - h);
      if (up.size() == 0 || down.size() == 0) return std::nullopt;
      S.col(k) = (down - up) / (2 * step);
    }
    return S;
  }
};

Vector2d best_of_grid(const Problem& p) {
  constexpr int steps = 9;
  Vector2d best = p.least;
  double least = std::numeric_limits<double>::infinity();
  for (int i = 0; i <= steps; ++i) {
    for (int j = 0; j <= steps; ++j) {
      const Vector2d share(i / double(steps), j / double(steps));
      const Vector2d x = p.least + share.cwiseProduct(p.most - p.least);
      const double squares = p.squares(x);
      if (squares < least) {
        least = squares;
        best = x;
      }
    }
  }
  return best;
}

/// Levenberg-Marquardt within the ranges.
Vector2d improved(const Problem& p, Vector2d x) {
  constexpr int most_steps = 60;
  constexpr double small = 1e-10;
  double squares = p.squares(x), damping = 1e-2;
  for (int i = 0; i < most_steps && damping < 1e12; ++i) {
    const auto S = p.slopes(x);
    if (!S) return x;
    const Matrix2d N = S->transpose() * *S;
    const Vector2d g = S->transpose() * p.residual(x);
    Matrix2d damped = N;
    damped.diagonal() += damping * (N.diagonal().array() + small * N.trace()).matrix();
    const Vector2d to = (x + damped.fullPivLu().solve(g)).cwiseMax(p.least).cwiseMin(p.most);
    const double better = p.squares(to);
    if (!(better < squares)) {
      damping *= 4;
      continue;
    }
    const double moved = (to - x).norm();
    x = to;
    squares = better;
    damping = std::max(damping / 4, 1e-9);
    if (moved < small) return x;
  }
  return x;
}

/// From the middle of both ranges, where many pairs do as well, else from the best of a grid.
Vector2d best_of(const Problem& p, double greatest) {
  constexpr double good_enough = 1e-6, much_better = 0.5;
  Vector2d near = improved(p, (p.least + p.most) / 2);
  const double squares = p.squares(near);
  if (squares <= std::pow(good_enough * greatest, 2)) return near;
  const Vector2d far = improved(p, best_of_grid(p));
  return p.squares(far) < much_better * squares ? far : near;
}

void judge(const Eigen::MatrixX2d& S, double greatest, double reading_error, TwoFactorFit& fit) {
  constexpr double infinity = std::numeric_limits<double>::infinity();
  const Vector2d length(S.col(0).norm(), S.col(1).norm());
  for (int k = 0; k < 2; ++k) {
    const double change = 0.1 * S.col(k).cwiseAbs().maxCoeff();
    fit.sensitivity[static_cast<std::size_t>(k)] = greatest > 0 ? change / greatest : 0;
  }
  const double product = length[0] * length[1];
  const double cosine = product > 0 ? std::min(1.0, std::abs(S.col(0).dot(S.col(1))) / product) : 1;
  fit.condition = cosine < 1 ? std::sqrt((1 + cosine) / (1 - cosine)) : infinity;
  fit.moved_by = {infinity, infinity};
  if (!(cosine < 1)) return;
  // x moves by (S'S)^-1 S' e; for errors of one size and the worst signs the sum of the row's.
  const Eigen::Matrix<double, 2, Eigen::Dynamic> moves =
      (S.transpose() * S).inverse() * S.transpose();
  for (int k = 0; k < 2; ++k) {
    fit.moved_by[static_cast<std::size_t>(k)] =
        std::exp(reading_error * moves.row(k).cwiseAbs().sum());
  }
}

}  // namespace

std::optional<TwoFactorFit> fit_two_factors(const PredictedReadings& predict,
                                            const std::vector<double>& readings,
                                            const std::array<ValueRange, 2>& ranges,
                                            double reading_error) {
  if (readings.empty()) return std::nullopt;
  const auto count = static_cast<Eigen::Index>(readings.size());
  const Problem p{predict, Eigen::Map<const VectorXd>(readings.data(), count),
                  Vector2d(std::log(ranges[0].least), std::log(ranges[1].least)),
                  Vector2d(std::log(ranges[0].most), std::log(ranges[1].most))};
  const double greatest = p.readings.cwiseAbs().maxCoeff();
  const Vector2d x = best_of(p, greatest);
  const double squares = p.squares(x);
  const auto S = p.slopes(x);
  if (!std::isfinite(squares) || !S) return std::nullopt;
  TwoFactorFit fit;
  fit.value = {std::exp(x[0]), std::exp(x[1])};
  fit.predicted = p.predicted(x);
  fit.rms = std::sqrt(squares / static_cast<double>(count));
  judge(*S, greatest, reading_error, fit);
  return fit;
}

}  // namespace tubewright
