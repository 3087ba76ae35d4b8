// Linear elastic solids of 10-node tetrahedra, straight or curved.
//
// A mesh and its loads in, displacements out. Any consistent units; nodes are columns x y z, DOF d
// of node n is number 3 n + d. Quadratic shape functions, isoparametric, the four-point rule of
// degree 2 for stiffness, which is exact for straight edges (Zienkiewicz & Taylor, The Finite
// Element Method, volume 1, chapters 8 and 9, from memory). The order of nodes is that of gmsh:
// four corners, then the middles of 01, 12, 02, 03, 23, 13. Free of the rest of the program except
// for its factorisation.
#pragma once

#include <Eigen/Core>
#include <array>
#include <functional>
#include <memory>
#include <vector>

#include "solver/linear_algebra/factorisation.h"
#include "solver/linear_algebra/sparse_matrix.h"

namespace tubewright {

struct SolidMesh {
  std::vector<Eigen::Vector3d> nodes;
  std::vector<std::array<int, 10>> elements;
};

struct IsotropicSolid {
  double E = 0;
  double nu = 0;
};

/// Six nodes of one side of an element: three corners, then the middles of 01, 12, 02.
using SolidFace = std::array<int, 6>;

using ElementNodes = Eigen::Matrix<double, 3, 10>;
using ElementStiffness = Eigen::Matrix<double, 30, 30>;
using Stress = Eigen::Matrix<double, 6, 1>;  ///< xx yy zz xy yz zx

ElementNodes element_nodes(const SolidMesh& mesh, const std::array<int, 10>& element);

/// Those of a point in or near an element (Newton's method from the middle).
Eigen::Vector3d natural_coordinates(const ElementNodes& nodes, const Eigen::Vector3d& point);

/// Throws std::domain_error where the element is turned inside out at a point of the rule.
ElementStiffness solid_stiffness(const ElementNodes& nodes, const IsotropicSolid& material);

/// Stress at a point of an element given by its natural coordinates (those of corners 1, 2, 3).
Stress solid_stress(const ElementNodes& nodes, const ElementNodes& displacements,
                    const IsotropicSolid& material, const Eigen::Vector3d& at);

/// Lower triangle of the stiffness matrix, 3 a node.
SparseMatrix solid_matrix(const SolidMesh& mesh, const IsotropicSolid& material);

/// Sides whose six nodes all satisfy `on` and that belong to one element only.
std::vector<SolidFace> faces_where(const SolidMesh& mesh,
                                   const std::function<bool(const Eigen::Vector3d&)>& on);

/// What a traction (force an area, given at a point) does to the nodes of some faces; 3 a node.
Eigen::VectorXd traction_loads(const SolidMesh& mesh, const std::vector<SolidFace>& faces,
                               const std::function<Eigen::Vector3d(const Eigen::Vector3d&)>& at);

/// Integral of a function over some faces.
double face_integral(const SolidMesh& mesh, const std::vector<SolidFace>& faces,
                     const std::function<double(const Eigen::Vector3d&)>& at);

/// The least at the points of the rule over the mean: 1 where edges are straight, negative where
/// the element is turned inside out.
double least_jacobian(const SolidMesh& mesh, const std::array<int, 10>& element);

/// Volume by the rule of the stiffness.
double solid_volume(const SolidMesh& mesh);

/// A mesh some of whose DOFs are restrained at zero, factorised once.
class SolidSolver {
 public:
  /// `restrained`: 3 a node. Throws std::domain_error if what is left can move freely.
  SolidSolver(const SparseMatrix& lower, std::vector<bool> restrained);

  /// Displacements under loads, both 3 a node, a column a load case.
  Eigen::MatrixXd solve(const Eigen::MatrixXd& loads) const;

 private:
  std::vector<int> free_;  ///< DOFs that are not restrained
  Eigen::Index size_ = 0;
  std::unique_ptr<Factorisation> factor_;
};

}  // namespace tubewright
