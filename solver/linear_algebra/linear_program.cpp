#include "solver/linear_algebra/linear_program.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <vector>

namespace tubewright {

namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

/// A row-major dictionary: each basic variable as what the others, at one of their bounds, make it.
using Dictionary = Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, Eigen::RowMajor>;

constexpr double infinity = std::numeric_limits<double>::infinity();

/// Variables 0 to n - 1 are x, n to n + m - 1 what the rows exceed b by. Rows and costs come
/// scaled to a greatest entry of 1.
class DualSimplex {
 public:
  explicit DualSimplex(const LinearProgram& p);

  LinearAnswer::State run();
  VectorXd x() const;
  /// y of the rows, none below 0; of a programme without an answer the proof of that.
  const VectorXd& multipliers() const { return y_; }

 private:
  double lo(Index v) const { return v < n_ ? p_.lo[v] : 0; }
  double up(Index v) const { return v < n_ ? p_.up[v] : infinity; }
  double value(Index column) const {
    const Index v = outside_[static_cast<size_t>(column)];
    return at_up_[static_cast<size_t>(v)] ? up(v) : lo(v);
  }

  Index row_to_leave(double& short_by) const;
  Index column_to_enter(Index row, double short_by);
  void flip(Index column);
  void pivot(Index row, Index column);
  void take_multipliers();
  void take_proof(Index row, bool below);

  const LinearProgram& p_;
  const Index m_, n_;
  Dictionary T_;
  VectorXd basic_;              ///< values of the basic variables
  VectorXd d_;                  ///< reduced costs, one a column
  std::vector<Index> inside_;   ///< the variable of each row
  std::vector<Index> outside_;  ///< of each column
  std::vector<char> at_up_;     ///< of each variable outside
  VectorXd y_;
  std::vector<std::pair<double, Index>> ratios_;
};

constexpr double met = 1e-9;         // of a bound, in scaled rows
constexpr double pivot_size = 1e-8;  // the least that counts

DualSimplex::DualSimplex(const LinearProgram& p)
    : p_(p), m_(p.rows.rows()), n_(p.rows.cols()), T_(p.rows), d_(p.cost), y_(VectorXd::Zero(m_)) {
  for (Index i = 0; i < m_; ++i) inside_.push_back(n_ + i);
  at_up_.assign(static_cast<size_t>(n_ + m_), 0);
  VectorXd start(n_);
  for (Index j = 0; j < n_; ++j) {
    outside_.push_back(j);
    at_up_[static_cast<size_t>(j)] = p.cost[j] < 0 ? 1 : 0;
    start[j] = value(j);
  }
  basic_ = p.rows * start - p.least;
}

/// The basic variable that is farthest outside its bounds; `short_by`: below 0 if above its upper
/// one. -1: none is.
Index DualSimplex::row_to_leave(double& short_by) const {
  Index row = -1;
  double farthest = met;
  for (Index i = 0; i < m_; ++i) {
    const Index v = inside_[static_cast<size_t>(i)];
    const double below = lo(v) - basic_[i], above = basic_[i] - up(v);
    if (below > farthest) {
      farthest = below;
      row = i;
      short_by = below;
    } else if (above > farthest) {
      farthest = above;
      row = i;
      short_by = -above;
    }
  }
  return row;
}

/// Variables with a box are flipped past while the row still falls short with all of them at their
/// other bound.
Index DualSimplex::column_to_enter(Index row, double short_by) {
  const double sign = short_by > 0 ? 1 : -1;
  ratios_.clear();
  for (Index j = 0; j < n_; ++j) {
    const double t = sign * T_(row, j);
    const auto v = static_cast<size_t>(outside_[static_cast<size_t>(j)]);
    if (at_up_[v] ? t < -pivot_size : t > pivot_size) {
      if (lo(static_cast<Index>(v)) == up(static_cast<Index>(v))) continue;
      ratios_.emplace_back(std::abs(d_[j]) / std::abs(t), j);
    }
  }
  std::sort(ratios_.begin(), ratios_.end());
  double left = std::abs(short_by);
  size_t next = 0;
  for (; next < ratios_.size(); ++next) {
    const Index j = ratios_[next].second;
    const Index v = outside_[static_cast<size_t>(j)];
    const double gained = std::abs(T_(row, j)) * (up(v) - lo(v));
    if (!(gained < left)) break;
    left -= gained;
  }
  if (next == ratios_.size()) return -1;
  // Of near ties the greatest pivot.
  size_t best = next;
  for (size_t k = next + 1; k < ratios_.size(); ++k) {
    if (ratios_[k].first > ratios_[next].first + 1e-12) break;
    if (std::abs(T_(row, ratios_[k].second)) > std::abs(T_(row, ratios_[best].second))) best = k;
  }
  const Index entering = ratios_[best].second;
  for (size_t k = 0; k < next; ++k) flip(ratios_[k].second);
  return entering;
}

void DualSimplex::flip(Index column) {
  const Index v = outside_[static_cast<size_t>(column)];
  char& at_up = at_up_[static_cast<size_t>(v)];
  const double change = at_up ? lo(v) - up(v) : up(v) - lo(v);
  at_up = at_up ? 0 : 1;
  basic_ += change * T_.col(column);
}

void DualSimplex::pivot(Index row, Index column) {
  const Index leaves = inside_[static_cast<size_t>(row)];
  const Index enters = outside_[static_cast<size_t>(column)];
  const double target = basic_[row] < lo(leaves) ? lo(leaves) : up(leaves);
  const double t = T_(row, column);
  const double step = (target - basic_[row]) / t;
  const double entering_value = value(column) + step;
  basic_ += step * T_.col(column);
  basic_[row] = entering_value;

  // leaves = t enters + rest  =>  enters = (leaves - rest)/t, put in everywhere.
  T_.row(row) /= -t;
  T_(row, column) = 1 / t;
  const Eigen::RowVectorXd entering_row = T_.row(row);
  for (Index i = 0; i < m_; ++i) {
    if (i == row) continue;
    const double f = T_(i, column);
    if (f == 0) continue;
    T_(i, column) = 0;
    T_.row(i) += f * entering_row;
  }
  const double f = d_[column];
  d_[column] = 0;
  d_ += f * entering_row.transpose();

  inside_[static_cast<size_t>(row)] = enters;
  outside_[static_cast<size_t>(column)] = leaves;
  at_up_[static_cast<size_t>(leaves)] = target == lo(leaves) ? 0 : 1;
}

void DualSimplex::take_multipliers() {
  y_.setZero();
  for (Index j = 0; j < n_; ++j) {
    const Index v = outside_[static_cast<size_t>(j)];
    if (v >= n_) y_[v - n_] = std::max(0.0, d_[j]);
  }
}

/// The row whose basic variable cannot be brought within its bounds, as a sum of rows of A.
void DualSimplex::take_proof(Index row, bool below) {
  const double sign = below ? 1 : -1;
  y_.setZero();
  for (Index j = 0; j < n_; ++j) {
    const Index v = outside_[static_cast<size_t>(j)];
    if (v >= n_) y_[v - n_] = std::max(0.0, -sign * T_(row, j));
  }
  const Index own = inside_[static_cast<size_t>(row)];
  if (own >= n_) y_[own - n_] = 1;
}

LinearAnswer::State DualSimplex::run() {
  const Index most_steps = 200 + 20 * (m_ + n_);
  for (Index step = 0; step < most_steps; ++step) {
    double short_by = 0;
    const Index row = row_to_leave(short_by);
    if (row < 0) {
      take_multipliers();
      return LinearAnswer::State::optimal;
    }
    const Index column = column_to_enter(row, short_by);
    if (column < 0) {
      take_proof(row, short_by > 0);
      return LinearAnswer::State::infeasible;
    }
    pivot(row, column);
  }
  take_multipliers();
  return LinearAnswer::State::undecided;
}

VectorXd DualSimplex::x() const {
  VectorXd x(n_);
  for (Index j = 0; j < n_; ++j) {
    const Index v = outside_[static_cast<size_t>(j)];
    if (v < n_) x[v] = value(j);
  }
  for (Index i = 0; i < m_; ++i) {
    const Index v = inside_[static_cast<size_t>(i)];
    if (v < n_) x[v] = std::clamp(basic_[i], p_.lo[v], p_.up[v]);
  }
  return x;
}

/// The same programme with rows and costs of greatest entry 1.
LinearProgram scaled(const LinearProgram& p, VectorXd& row_scale, double& cost_scale) {
  LinearProgram s = p;
  row_scale = VectorXd::Ones(p.rows.rows());
  for (Index i = 0; i < p.rows.rows(); ++i) {
    const double greatest = p.rows.row(i).cwiseAbs().maxCoeff();
    if (!(greatest > 0)) continue;
    row_scale[i] = 1 / greatest;
    s.rows.row(i) *= row_scale[i];
    s.least[i] *= row_scale[i];
  }
  const double greatest = p.cost.size() > 0 ? p.cost.cwiseAbs().maxCoeff() : 0;
  cost_scale = greatest > 0 ? greatest : 1;
  s.cost /= cost_scale;
  return s;
}

/// Least of r'x in the box, and the size of what is summed up.
double least_in_box(const LinearProgram& p, const VectorXd& r, double& size) {
  double sum = 0;
  for (Index j = 0; j < r.size(); ++j) {
    const double term = r[j] * (r[j] > 0 ? p.lo[j] : p.up[j]);
    sum += term;
    size += std::abs(term);
  }
  return sum;
}

constexpr double rounding = 1e-12;  // of a sum's terms

}  // namespace

LinearAnswer solve(const LinearProgram& p) {
  LinearAnswer answer;
  if (p.rows.cols() == 0) {
    answer.multipliers = VectorXd::Zero(p.least.size());
    const bool met_all = p.least.size() == 0 || p.least.maxCoeff() <= 0;
    answer.state = met_all ? LinearAnswer::State::optimal : LinearAnswer::State::infeasible;
    answer.bound = met_all ? 0 : infinity;
    return answer;
  }
  VectorXd row_scale;
  double cost_scale = 1;
  const LinearProgram s = scaled(p, row_scale, cost_scale);
  DualSimplex method(s);
  answer.state = method.run();
  answer.x = method.x();
  VectorXd y = method.multipliers().cwiseProduct(row_scale);
  if (answer.state == LinearAnswer::State::infeasible) {
    double size = std::abs(y.dot(p.least));
    const double excess = y.dot(p.least) + least_in_box(p, -(p.rows.transpose() * y), size);
    if (excess > 1e-9 * size) {
      answer.bound = infinity;
      answer.multipliers = y;
      answer.reduced_cost = p.cost;
      return answer;
    }
    answer.state = LinearAnswer::State::undecided;
    y.setZero();
  } else {
    y *= cost_scale;
  }
  answer.multipliers = y;
  answer.reduced_cost = p.cost - p.rows.transpose() * y;
  double size = y.cwiseAbs().dot(p.least.cwiseAbs());
  const double sum = y.dot(p.least) + least_in_box(p, answer.reduced_cost, size);
  answer.bound = sum - rounding * size;
  return answer;
}

}  // namespace tubewright
