#include "tests/joint_models/joint_compliance.h"

#include <Eigen/Geometry>
#include <cmath>
#include <numbers>
#include <stdexcept>

#include "solver/model/section_shapes.h"
#include "solver/statics/statics.h"

namespace tubewright {

namespace {

/// A brace's end and the axes of its section.
struct Tip {
  Eigen::Vector3d centre, along, in_plane, across;  ///< in_plane x across = along
  std::vector<SolidFace> faces;
};

Tip make_tip(const JointModel& j, const SolidMesh& mesh, bool second) {
  const double a = j.angle * std::numbers::pi / 180;
  Tip tip;
  tip.along = {std::cos(a), 0, std::sin(a)};
  tip.across = Eigen::Vector3d::UnitY();
  if (second) {  // seen in the mirror y = z
    tip.along = {std::cos(a), std::sin(a), 0};
    tip.across = -Eigen::Vector3d::UnitZ();
  }
  if (!second && j.angle == 90) tip.along = Eigen::Vector3d::UnitZ();
  tip.in_plane = tip.across.cross(tip.along);
  tip.centre = j.brace_end * tip.along;
  const double close = 1e-6 * j.brace_end;
  tip.faces = faces_where(mesh, [&](const Eigen::Vector3d& p) {
    return std::abs((p - tip.centre).dot(tip.along)) < close;
  });
  if (tip.faces.empty()) throw std::runtime_error("no faces at the brace's end");
  return tip;
}

/// Which way displacements go on the other side of a plane of symmetry of the structure.
enum class Parity { even, odd };

Parity parity_y(TipLoad load) {
  return load == TipLoad::out_of_plane || load == TipLoad::torsion ? Parity::odd : Parity::even;
}
Parity parity_x(TipLoad load) {
  return load == TipLoad::in_plane || load == TipLoad::torsion ? Parity::odd : Parity::even;
}

/// On the plane normal to `axis` an even displacement has no part along it, an odd one only that.
void restrain_plane(const SolidMesh& mesh, int axis, Parity parity, std::vector<bool>& restrained) {
  for (std::size_t n = 0; n < mesh.nodes.size(); ++n) {
    if (std::abs(mesh.nodes[n][axis]) > 1e-6) continue;
    for (int d = 0; d < 3; ++d) {
      if ((d == axis) == (parity == Parity::even)) restrained[3 * n + d] = true;
    }
  }
}

std::vector<bool> restraints(const JointModel& j, const SolidMesh& mesh, TipLoad load) {
  std::vector<bool> restrained(3 * mesh.nodes.size());
  int clamped = 0;
  for (std::size_t n = 0; n < mesh.nodes.size(); ++n) {
    const double x = mesh.nodes[n].x();
    const bool at_start = std::abs(x - j.chord_start) < 1e-6;
    const bool at_end = j.through && std::abs(x - j.chord_end) < 1e-6;
    if (!at_start && !at_end) continue;
    ++clamped;
    for (int d = 0; d < 3; ++d) restrained[3 * n + d] = true;
  }
  if (clamped == 0) throw std::runtime_error("no nodes at the chord's clamped end");
  if (j.halved_x) restrain_plane(mesh, 0, parity_x(load), restrained);
  if (j.halved_y) restrain_plane(mesh, 1, parity_y(load), restrained);
  return restrained;
}

/// Unit vector round the tube's wall, anticlockwise about `along`.
Eigen::Vector3d round_the_wall(const JointModel& j, const Tip& tip, double a, double b) {
  const double core_a = j.brace_along / 2 - 2 * j.brace_wall;
  const double core_b = j.brace_width / 2 - 2 * j.brace_wall;
  Eigen::Vector2d n(a - std::clamp(a, -core_a, core_a), b - std::clamp(b, -core_b, core_b));
  n.normalize();
  return -n.y() * tip.in_plane + n.x() * tip.across;
}

/// Stresses of a long tube under the unit load, made to give exactly that on this mesh.
Eigen::VectorXd tip_loads_of(const JointModel& j, const SolidMesh& mesh, const Tip& tip,
                             TipLoad load, double copies) {
  const auto a = [&](const Eigen::Vector3d& p) { return (p - tip.centre).dot(tip.in_plane); };
  const auto b = [&](const Eigen::Vector3d& p) { return (p - tip.centre).dot(tip.across); };
  const auto traction = [&](const Eigen::Vector3d& p) -> Eigen::Vector3d {
    switch (load) {
      case TipLoad::out_of_plane:
        return b(p) * tip.along;
      case TipLoad::in_plane:
        return -a(p) * tip.along;
      case TipLoad::axial:
        return tip.along;
      case TipLoad::torsion:
        return round_the_wall(j, tip, a(p), b(p));
    }
    return Eigen::Vector3d::Zero();
  };
  const double whole = copies * face_integral(mesh, tip.faces, [&](const Eigen::Vector3d& p) {
                         switch (load) {
                           case TipLoad::out_of_plane:
                             return b(p) * b(p);
                           case TipLoad::in_plane:
                             return a(p) * a(p);
                           case TipLoad::axial:
                             return 1.0;
                           case TipLoad::torsion:
                             return (p - tip.centre).cross(traction(p)).dot(tip.along);
                         }
                         return 0.0;
                       });
  return traction_loads(mesh, tip.faces, traction) / whole;
}

Section tube(double height, double width, double wall, double nu) {
  return hollow_rectangle(height, width, wall, {2 * wall, wall}, nu);
}

/// Mean displacement along the brace of the side walls' middles beside it, under the axial load.
double side_wall_displacement(const JointModel& j, const SolidMesh& mesh, const Tip& tip,
                              const Eigen::VectorXd& u) {
  double sum = 0;
  int count = 0;
  for (std::size_t n = 0; n < mesh.nodes.size(); ++n) {
    const Eigen::Vector3d& p = mesh.nodes[n];
    if (std::abs(p.x()) > j.brace_along / 2 || std::abs(p.z()) > j.chord_depth / 5) continue;
    if (std::abs(p.y()) < j.chord_width / 2 - 1.001 * j.chord_wall) continue;
    sum += u.segment<3>(static_cast<Eigen::Index>(3 * n)).dot(tip.along);
    ++count;
  }
  if (count == 0) throw std::runtime_error("no nodes on the chord's side walls");
  return sum / count;
}

/// The same as beams that meet at the origin: compliances at the tips.
void solve_beams(const JointModel& j, const Tip& first, const Tip& second,
                 const IsotropicSolid& material, JointCompliance& out) {
  Model m;
  m.nodes = {{0, 0, 0}, {j.chord_start, 0, 0}, first.centre};
  m.sections = {tube(j.chord_depth, j.chord_width, j.chord_wall, material.nu),
                tube(j.brace_along, j.brace_width, j.brace_wall, material.nu)};
  const Material steel = {material.E, material.E / (2 * (1 + material.nu)), 0, 0, 0};
  m.materials = {steel};
  m.beams = {{1, 0, 0, 0}, {0, 2, 1, 0}};
  Support clamp;
  clamp.node = 1;
  clamp.restrained.fill(true);
  m.supports = {clamp};
  if (j.through) {
    m.nodes.emplace_back(j.chord_end, 0, 0);
    m.beams.push_back({0, 3, 0, 0});
    clamp.node = 3;
    m.supports.push_back(clamp);
  }
  const int other = static_cast<int>(m.nodes.size());
  if (j.kind == JointKind::pair) {
    m.nodes.push_back(second.centre);
    Beam beam{0, other, 1, 0};
    // Its local z is global z, where brace 1 has x: turn it so that `brace_along` lies along x.
    beam.roll = std::numbers::pi / 2;
    m.beams.push_back(beam);
  }
  std::vector<Actions> cases(tip_loads, no_actions(m));
  const std::array<Eigen::Vector3d, tip_loads> direction = {first.in_plane, first.across,
                                                            first.along, first.along};
  for (int k = 0; k < tip_loads; ++k) {
    const bool force = static_cast<TipLoad>(k) == TipLoad::axial;
    cases[k].nodal.segment<3>(6 * 2 + (force ? 0 : 3)) = direction[k];
  }
  const StaticResult result = solve_statics(m, cases);
  if (!result) throw std::runtime_error("the beams have no answer");
  for (int k = 0; k < tip_loads; ++k) {
    out.beams[k] = (*result)[k].displacements.dot(cases[k].nodal);
  }
  if (j.kind == JointKind::pair) {
    out.beams_other = (*result)[0].displacements.segment<3>(6 * other + 3).x();
  }
}

}  // namespace

JointCompliance joint_compliance(const JointModel& j, const SolidMesh& mesh,
                                 const IsotropicSolid& material,
                                 const std::function<void(TipLoad, const Eigen::VectorXd&)>& look) {
  const Tip first = make_tip(j, mesh, false);
  const bool is_pair = j.kind == JointKind::pair;
  const Tip second = is_pair ? make_tip(j, mesh, true) : first;
  const double copies = (j.halved_x ? 2 : 1) * (j.halved_y ? 2 : 1);
  JointCompliance out;
  solve_beams(j, first, second, material, out);
  const SparseMatrix K = solid_matrix(mesh, material);
  std::unique_ptr<SolidSolver> solver;
  for (int k = 0; k < (is_pair ? 1 : tip_loads); ++k) {
    const auto load = static_cast<TipLoad>(k);
    if (!solver || j.halved_x || j.halved_y) {
      solver = std::make_unique<SolidSolver>(K, restraints(j, mesh, load));
    }
    const Eigen::VectorXd f = tip_loads_of(j, mesh, first, load, copies);
    const Eigen::VectorXd u = solver->solve(f);
    out.solid[k] = copies * u.dot(f);
    if (look) look(load, u);
    if (load == TipLoad::axial && j.kind == JointKind::tee) {
      const double A = tube(j.brace_along, j.brace_width, j.brace_wall, material.nu).A;
      out.face =
          out.solid[k] - side_wall_displacement(j, mesh, first, u) - j.brace_end / (material.E * A);
    }
    if (is_pair) {
      // A moment about +x of the second: its `in_plane` is x.
      const Eigen::VectorXd g = tip_loads_of(j, mesh, second, load, copies);
      out.solid_other = copies * u.dot(g);
    }
  }
  const Section brace = tube(j.brace_along, j.brace_width, j.brace_wall, material.nu);
  const double area =
      copies * face_integral(mesh, first.faces, [](const Eigen::Vector3d&) { return 1.0; });
  const double inertia = copies * face_integral(mesh, first.faces, [&](const Eigen::Vector3d& p) {
                           return std::pow((p - first.centre).dot(first.across), 2);
                         });
  out.area_ratio = area / brace.A;
  out.inertia_ratio = inertia / brace.Iz;
  return out;
}

}  // namespace tubewright
