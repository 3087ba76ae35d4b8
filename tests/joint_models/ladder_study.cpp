// ladder_study MESH END ACROSS WIDTH: torsional stiffness of a ladder from a quarter of it.
//
// The mesh of ladder_geometry.py, mm; the rail is loaded at x = END on its walls at y = +-ACROSS/2
// by 1 N upwards, the other quarters so that opposite couples twist the ladder: both planes of
// symmetry turn the loads round. E = 210 000 MPa, nu = 0.3. Prints N m/deg, then the nodes.
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <numbers>
#include <stdexcept>
#include <vector>

#include "tests/joint_models/mesh_file.h"
#include "tests/joint_models/run_study.h"
#include "tests/joint_models/solid10.h"

using namespace tubewright;

namespace {

/// Half of it on each wall, so that it goes through the rail's axis.
Eigen::MatrixXd force_on_walls(const SolidMesh& mesh, double end, double across) {
  constexpr double reach = 8, hair = 1e-3;
  std::vector<Eigen::Index> walls[2];
  for (size_t i = 0; i < mesh.nodes.size(); ++i) {
    const Eigen::Vector3d& p = mesh.nodes[i];
    if (std::abs(p.x() - end) > reach || std::abs(std::abs(p.y()) - across / 2) > hair) continue;
    walls[p.y() > 0 ? 1 : 0].push_back(static_cast<Eigen::Index>(i));
  }
  Eigen::MatrixXd f = Eigen::MatrixXd::Zero(3 * static_cast<Eigen::Index>(mesh.nodes.size()), 1);
  for (const auto& wall : walls) {
    if (wall.empty()) throw std::runtime_error("no wall to load");
    for (const Eigen::Index i : wall) f(3 * i + 2, 0) = 0.5 / static_cast<double>(wall.size());
  }
  return f;
}

int study(int argc, char** argv) {
  if (argc != 5) throw std::runtime_error("usage: ladder_study MESH END ACROSS WIDTH");
  std::ifstream in(argv[1]);
  const double end = std::atof(argv[2]), across = std::atof(argv[3]), width = std::atof(argv[4]);
  SolidMesh mesh = read_mesh(in);
  straighten_bad_elements(mesh);
  constexpr double hair = 1e-4;
  std::vector<bool> restrained(3 * mesh.nodes.size(), false);
  for (size_t i = 0; i < mesh.nodes.size(); ++i) {
    const Eigen::Vector3d& p = mesh.nodes[i];
    if (std::abs(p.x()) < hair) restrained[3 * i + 1] = restrained[3 * i + 2] = true;
    if (std::abs(p.y() + width / 2) < hair) restrained[3 * i] = restrained[3 * i + 2] = true;
  }
  const Eigen::MatrixXd f = force_on_walls(mesh, end, across);
  const SolidSolver solver(solid_matrix(mesh, {210000, 0.3}), restrained);
  const double height = f.col(0).dot(solver.solve(f).col(0));
  const double couple = width, twist = 2 * (2 * height / width);  // N mm, from end to end
  constexpr double degree = std::numbers::pi / 180;
  std::printf("%.2f N m/deg, %zu nodes\n", couple / 1000 / (twist / degree), mesh.nodes.size());
  return 0;
}

}  // namespace

int main(int argc, char** argv) { return run_study("ladder_study", study, argc, argv); }
