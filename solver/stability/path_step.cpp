#include "solver/stability/path_step.h"

#include <algorithm>
#include <cmath>

namespace tubewright {

namespace {

/// Part of a step's length by which its chord may miss the mean of the tangents: a circle's arc of
/// 50 degrees does (judgement, measured on shallow trusses, where every jump misses it by more).
constexpr double greatest_gap = 0.1;
/// The same for one node: part of its own speed, and of the step's length. Lets a small part of the
/// frame snap no more than the whole (judgement).
constexpr double greatest_node_gap = 0.25, node_allowance = 0.03;
/// How many times steeper the load may rise along the path at a step's end (judgement): on a far
/// branch it is often much.
constexpr double greatest_stiffening = 3;

/// A tangent of the path by its length: unit displacements and the rise of the load factor.
struct Tangent {
  Eigen::VectorXd direction;
  double rise = 0;
};

double length(const Eigen::VectorXd& v, const Eigen::VectorXd& weights) {
  return std::sqrt(v.dot(weights.cwiseProduct(v)));
}

std::vector<double> lengths_by_node(const Eigen::VectorXd& v, const Eigen::VectorXd& weights,
                                    const std::vector<int>& node_of) {
  std::vector<double> lengths;
  for (Eigen::Index i = 0; i < v.size(); ++i) {
    const auto node = static_cast<size_t>(node_of[static_cast<size_t>(i)]);
    if (node >= lengths.size()) lengths.resize(node + 1, 0);
    lengths[node] = std::hypot(lengths[node], std::sqrt(weights[i]) * v[i]);
  }
  return lengths;
}

/// Part of the step along the first tangent. Where it kinks in between, the part that fits best.
double share_of_first(const Tangent& a, const Tangent& b, const Tangent& chord,
                      const Eigen::VectorXd& weights, bool kinked) {
  constexpr double half = 0.5;
  if (!kinked) return half;
  const double scale = std::max(a.rise, b.rise);
  const Eigen::VectorXd turn = a.direction - b.direction, rest = chord.direction - b.direction;
  const double rise = (a.rise - b.rise) / scale, rest_rise = (chord.rise - b.rise) / scale;
  const double square = turn.dot(weights.cwiseProduct(turn)) + rise * rise;
  if (!(square > 0)) return half;
  return std::clamp((rest.dot(weights.cwiseProduct(turn)) + rest_rise * rise) / square, 0.0, 1.0);
}

bool every_node_follows(const Tangent& a, const Tangent& b, const Eigen::VectorXd& gap,
                        const Eigen::VectorXd& weights, const std::vector<int>& node_of) {
  const auto gaps = lengths_by_node(gap, weights, node_of);
  const auto first = lengths_by_node(a.direction, weights, node_of);
  const auto second = lengths_by_node(b.direction, weights, node_of);
  for (size_t n = 0; n < gaps.size(); ++n) {
    if (gaps[n] > greatest_node_gap * std::max(first[n], second[n]) + node_allowance) return false;
  }
  return true;
}

}  // namespace

bool stays_on_path(const PathStep& step, const Eigen::VectorXd& weights,
                   const std::vector<int>& node_of, double negligible) {
  const double moved = length(step.moved, weights);
  if (moved <= negligible) return true;
  const double from = length(step.velocity_from, weights), to = length(step.velocity_to, weights);
  if (!(from > 0) || !(to > 0)) return false;
  const Tangent a{step.velocity_from / from, 1 / from}, b{step.velocity_to / to, 1 / to};
  const Tangent chord{step.moved / moved, step.load_change / moved};
  if (!step.kinked && b.rise > greatest_stiffening * a.rise) return false;
  const double share = share_of_first(a, b, chord, weights, step.kinked);
  const double rise = share * a.rise + (1 - share) * b.rise;
  if (std::abs(chord.rise - rise) > greatest_gap * std::max(a.rise, b.rise)) return false;
  const Eigen::VectorXd gap = chord.direction - share * a.direction - (1 - share) * b.direction;
  if (length(gap, weights) > greatest_gap) return false;
  return step.kinked || every_node_follows(a, b, gap, weights, node_of);
}

}  // namespace tubewright
