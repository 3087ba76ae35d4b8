#include "cases/pieces/cut_order.h"

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>
#include <numbers>

namespace tubewright {

namespace {

constexpr double square_on = 2 * degree;  // what a builder takes for square, or for flush
constexpr double same_way = 1e-3;         // of unit vectors: 0.06 degrees, a drawing's rounding

/// A plane through the node, by its unit normal.
using Mirror = Eigen::Vector3d;

Eigen::Vector3d image(const Mirror& m, const Eigen::Vector3d& v) { return v - 2 * m.dot(v) * m; }

int rank_of(const UncutTubes& all, int t) { return all.rank[static_cast<size_t>(t)]; }

bool same_path(const UncutTubes& all, int a, int b) {
  const std::string& path = all.path[static_cast<size_t>(a)];
  return !path.empty() && path == all.path[static_cast<size_t>(b)];
}

/// Runs of one path where it turns, or tubes of one size in line.
bool one_run(const UncutTubes& all, const TubeArm& a, const TubeArm& b) {
  if (a.tube == b.tube || !same_size(all.half_of(a.tube), all.half_of(b.tube))) return false;
  const double between = angle_between(a, b);
  return between > std::numbers::pi - spliced_within ||
         (between > spliced_within && same_path(all, a.tube, b.tube));
}

/// At a free corner, where neither stands on anything: whether a square end and a face are less
/// work than a mitre, and left and right come out alike all the same.
bool butts(const UncutTubes& all, const TubeArm& a, const TubeArm& b, bool alone) {
  if (rank_of(all, a.tube) == rank_of(all, b.tube)) return false;
  const double right_angle = std::numbers::pi / 2;
  return angle_between(a, b) < (alone ? right_angle - square_on : right_angle + square_on);
}

/// True if a mirror turns the section of a tube into that of another. Requires: the axes fit.
bool outline_is_image(const UncutTubes& all, const Mirror& m, int a, int b) {
  if (!same_size(all.half_of(a), all.half_of(b))) return false;
  if (all.half_of(a).round) return true;
  const Eigen::Vector3d y = image(m, all.tube(a).axes.row(1));
  const auto fits = [&](int axis, double size) {
    return std::abs(y.dot(all.tube(b).axes.row(axis))) > std::cos(square_on) &&
           std::abs(all.half_of(a).y - size) < 1e-6;
  };
  return fits(1, all.half_of(b).y) || fits(2, all.half_of(b).z);
}

/// True if a plane mirrors all that is whole at a node, or cut already.
bool mirrors_what_is_there(const UncutTubes& all, const Mirror& m, const NodeTurn& node) {
  const bool whole = std::all_of(node.through.begin(), node.through.end(), [&](int t) {
    const Eigen::Vector3d x = image(m, all.tube(t).axes.row(0));
    return std::any_of(node.through.begin(), node.through.end(), [&](int u) {
      return x.cross(Eigen::Vector3d(all.tube(u).axes.row(0))).norm() < same_way &&
             outline_is_image(all, m, t, u);
    });
  });
  const auto& placed = node.placed;
  return whole && std::all_of(placed.begin(), placed.end(), [&](const TubeArm* p) {
           return std::any_of(placed.begin(), placed.end(), [&](const TubeArm* q) {
             return (image(m, p->away) - q->away).norm() < same_way &&
                    outline_is_image(all, m, p->tube, q->tube);
           });
         });
}

/// Images of each other in the plane between them, which mirrors all that is there before them.
bool twins(const UncutTubes& all, const TubeArm& a, const TubeArm& b, const NodeTurn& node) {
  if (!same_size(all.half_of(a.tube), all.half_of(b.tube))) return false;
  if (angle_between(a, b) < spliced_within) return false;
  const Mirror between = (a.away - b.away).normalized();
  return outline_is_image(all, between, a.tube, b.tube) &&
         mirrors_what_is_there(all, between, node);
}

}  // namespace

void put_in_order(const UncutTubes& all, std::vector<TubeArm>& arms) {
  for (TubeArm& a : arms) {
    a.goes_on =
        std::any_of(arms.begin(), arms.end(), [&](const TubeArm& b) { return one_run(all, a, b); });
  }
  const auto area = [&](const TubeArm& a) { return all.half_of(a.tube).y * all.half_of(a.tube).z; };
  std::stable_sort(arms.begin(), arms.end(), [&](const TubeArm& a, const TubeArm& b) {
    const double difference = area(a) - area(b);
    if (std::abs(difference) > 1e-12) return difference > 0;
    if (a.goes_on != b.goes_on) return a.goes_on;
    return rank_of(all, a.tube) < rank_of(all, b.tube);
  });
}

std::vector<const TubeArm*> next_alike(const UncutTubes& all, const NodeTurn& node) {
  std::vector<const TubeArm*> alike = {node.waiting.front()};
  const bool first = node.through.empty() && node.placed.empty();
  for (size_t i = 0; i < alike.size(); ++i) {
    const TubeArm& a = *alike[i];
    for (const TubeArm* b : node.waiting) {
      if (std::find(alike.begin(), alike.end(), b) != alike.end()) continue;
      const bool as_twins = a.goes_on == b->goes_on &&
                            !(first && butts(all, a, *b, node.waiting.size() == 2)) &&
                            twins(all, a, *b, node);
      if (one_run(all, a, *b) || as_twins) alike.push_back(b);
    }
  }
  return alike;
}

}  // namespace tubewright
