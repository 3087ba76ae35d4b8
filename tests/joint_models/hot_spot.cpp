#include "tests/joint_models/hot_spot.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <limits>
#include <numbers>
#include <stdexcept>

#include "solver/model/section_shapes.h"

namespace tubewright {

namespace {

/// From a toe over a surface: the place at a distance and the direction onward there.
struct Path {
  std::function<Eigen::Vector3d(double)> at, onward;
};

/// Least-squares line through four stresses, at the toe.
double at_toe(const Path& path, double wall, const std::function<double(const Path&, double)>& s) {
  double sum = 0, sum_d = 0, sum_dd = 0, sum_s = 0, sum_ds = 0;
  for (const double share : {0.3, 0.6, 0.9, 1.2}) {
    const double d = share * wall, stress = s(path, d);
    sum += 1;
    sum_d += d;
    sum_dd += d * d;
    sum_s += stress;
    sum_ds += d * stress;
  }
  return (sum_dd * sum_s - sum_d * sum_ds) / (sum * sum_dd - sum_d * sum_d);
}

Path straight(const Eigen::Vector3d& from, const Eigen::Vector3d& onward) {
  return {[=](double d) -> Eigen::Vector3d { return from + d * onward; },
          [=](double) { return onward; }};
}

/// Points from 0 to `most`, both ends a little inside.
std::vector<double> along(double most) {
  std::vector<double> places;
  for (int k = 0; k <= 8; ++k) places.push_back(most * (0.01 + 0.98 * k / 8));
  return places;
}

/// Where the chord's round corner begins, and the way along face and corner from there.
struct ChordFace {
  double flat, radius, top;

  explicit ChordFace(const JointModel& j)
      : flat(j.chord_width / 2 - 2 * j.chord_wall),
        radius(2 * j.chord_wall),
        top(j.chord_depth / 2) {}

  /// How far beyond the flat's edge (negative: before it) the toe beside the brace lies, measured
  /// over face and corner, as toe_on_chord() of joint_geometry.py has it.
  double toe(double half_brace, double leg) const {
    if (half_brace <= flat) return half_brace + leg - flat;
    return radius * std::asin(std::min(1.0, (half_brace - flat) / radius)) + leg;
  }

  /// From `run` beyond the flat's edge (negative: before it), at x.
  Path sideways(double x, double run) const {
    const ChordFace face = *this;
    return {[=](double d) -> Eigen::Vector3d {
              const double s = run + d, a = std::max(0.0, s / face.radius);
              return {x, face.flat + std::min(0.0, s) + face.radius * std::sin(a),
                      face.top - face.radius * (1 - std::cos(a))};
            },
            [=](double d) -> Eigen::Vector3d {
              const double a = std::max(0.0, (run + d) / face.radius);
              return {0, std::cos(a), -std::sin(a)};
            }};
  }
};

std::vector<Path> chord_toe(const JointModel& j, double leg) {
  const ChordFace face(j);
  std::vector<Path> paths;
  for (const double y : along(std::min(j.brace_width / 2, face.flat))) {
    paths.push_back(straight({j.brace_along / 2 + leg, y, face.top}, Eigen::Vector3d::UnitX()));
  }
  const double run = face.toe(j.brace_width / 2, leg);
  // Where the weld flows into the side wall it has no toe there.
  if (run < 0.9 * face.radius * std::numbers::pi / 2) {
    for (const double x : along(j.brace_along / 2)) paths.push_back(face.sideways(x, run));
  }
  return paths;
}

std::vector<Path> brace_toe(const JointModel& j, double leg) {
  const double a = j.brace_along / 2, b = j.brace_width / 2, r = 2 * j.brace_wall;
  const double toe = j.chord_depth / 2 + leg;
  const Eigen::Vector3d up = Eigen::Vector3d::UnitZ();
  std::vector<Path> paths;
  for (const double y : along(b - r)) paths.push_back(straight({a, y, toe}, up));
  for (const double x : along(a - r)) paths.push_back(straight({x, b, toe}, up));
  for (const double angle : along(std::numbers::pi / 2)) {
    paths.push_back(straight({a - r + r * std::cos(angle), b - r + r * std::sin(angle), toe}, up));
  }
  return paths;
}

}  // namespace

double stress_along(const SolidMesh& mesh, const Eigen::VectorXd& u, const IsotropicSolid& material,
                    const Eigen::Vector3d& point, const Eigen::Vector3d& n) {
  constexpr double tolerance = 0.05;  // of an element: the surface's curve may pass just outside
  double best = -tolerance;
  const std::array<int, 10>* found = nullptr;
  Eigen::Vector3d at;
  for (const auto& element : mesh.elements) {
    const ElementNodes x = element_nodes(mesh, element);
    const Eigen::Vector3d low = x.rowwise().minCoeff(), high = x.rowwise().maxCoeff();
    const double margin = tolerance * (high - low).maxCoeff();
    if (((point - low).array() < -margin).any() || ((high - point).array() < -margin).any())
      continue;
    const Eigen::Vector3d L = natural_coordinates(x, point);
    const double inside = std::min(L.minCoeff(), 1 - L.sum());
    if (inside > best) {
      best = inside;
      found = &element;
      at = L;
    }
  }
  if (!found) throw std::runtime_error("a point of the surface lies in no element");
  ElementNodes displacements;
  for (int k = 0; k < 10; ++k) displacements.col(k) = u.segment<3>(3 * (*found)[k]);
  const Stress s = solid_stress(element_nodes(mesh, *found), displacements, material, at);
  return s[0] * n.x() * n.x() + s[1] * n.y() * n.y() + s[2] * n.z() * n.z() +
         2 * (s[3] * n.x() * n.y() + s[4] * n.y() * n.z() + s[5] * n.z() * n.x());
}

HotSpots hot_spots(const JointModel& j, double leg, const SolidMesh& mesh, const Eigen::VectorXd& u,
                   const IsotropicSolid& material, TipLoad load) {
  const auto stress = [&](const Path& path, double d) {
    return stress_along(mesh, u, material, path.at(d), path.onward(d));
  };
  const auto greatest = [&](const std::vector<Path>& paths, double wall) {
    double most = 0;
    for (const Path& path : paths) most = std::max(most, std::abs(at_toe(path, wall, stress)));
    return most;
  };
  const double t = j.brace_wall;
  const Section s = hollow_rectangle(j.brace_along, j.brace_width, t, {2 * t, t}, material.nu);
  const double nominal = load == TipLoad::out_of_plane ? 1 / s.Wz
                         : load == TipLoad::in_plane   ? 1 / s.Wy
                                                       : 1 / s.A;
  return {greatest(chord_toe(j, leg), j.chord_wall) / nominal,
          greatest(brace_toe(j, leg), j.brace_wall) / nominal};
}

}  // namespace tubewright
