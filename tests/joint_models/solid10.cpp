#include "tests/joint_models/solid10.h"

#include <Eigen/Geometry>
#include <Eigen/LU>
#include <algorithm>
#include <cassert>
#include <limits>
#include <map>
#include <stdexcept>

namespace tubewright {

namespace {

using Gradients = Eigen::Matrix<double, 10, 3>;
using Strains = Eigen::Matrix<double, 6, 30>;
using Elasticity = Eigen::Matrix<double, 6, 6>;

constexpr std::array<std::array<int, 2>, 6> edges = {
    {{0, 1}, {1, 2}, {0, 2}, {0, 3}, {2, 3}, {1, 3}}};

/// Corners of the sides, then the middles of their edges 01, 12, 02.
constexpr std::array<std::array<int, 6>, 4> sides = {
    {{0, 1, 2, 4, 5, 6}, {0, 1, 3, 4, 9, 7}, {1, 2, 3, 5, 8, 9}, {0, 2, 3, 6, 8, 7}}};

/// N = L (2 L - 1) at a corner, 4 L_i L_j at the middle of an edge, derived by the natural
/// coordinates L_1, L_2, L_3; L_0 = 1 - their sum.
Gradients shape_gradients(const Eigen::Vector3d& at) {
  const Eigen::Vector4d L(1 - at.sum(), at.x(), at.y(), at.z());
  Eigen::Matrix<double, 4, 3> dL;
  dL << -1, -1, -1, 1, 0, 0, 0, 1, 0, 0, 0, 1;
  Gradients g;
  for (int i = 0; i < 4; ++i) g.row(i) = (4 * L[i] - 1) * dL.row(i);
  for (int k = 0; k < 6; ++k) {
    const auto [i, j] = edges[k];
    g.row(4 + k) = 4 * (L[i] * dL.row(j) + L[j] * dL.row(i));
  }
  return g;
}

struct Derivatives {
  Gradients by_xyz;
  double jacobian = 0;
};

Derivatives derivatives(const ElementNodes& nodes, const Eigen::Vector3d& at) {
  const Gradients natural = shape_gradients(at);
  const Eigen::Matrix3d J = nodes * natural;  // J(i, k) = dx_i / dL_k
  return {natural * J.inverse(), J.determinant()};
}

Strains strain_matrix(const Gradients& g) {
  Strains B = Strains::Zero();
  for (int n = 0; n < 10; ++n) {
    const double x = g(n, 0), y = g(n, 1), z = g(n, 2);
    B.block<6, 3>(0, 3 * n) << x, 0, 0, 0, y, 0, 0, 0, z, y, x, 0, 0, z, y, z, 0, x;
  }
  return B;
}

Elasticity elasticity(const IsotropicSolid& m) {
  const double lambda = m.E * m.nu / ((1 + m.nu) * (1 - 2 * m.nu));
  const double G = m.E / (2 * (1 + m.nu));
  Elasticity D = Elasticity::Zero();
  D.topLeftCorner<3, 3>().setConstant(lambda);
  D.diagonal() << lambda + 2 * G, lambda + 2 * G, lambda + 2 * G, G, G, G;
  return D;
}

/// Four points of degree 2: one coordinate a, the others b; each weighs a quarter of 1/6.
const std::array<Eigen::Vector3d, 4>& rule() {
  constexpr double a = 0.58541019662496845446, b = 0.13819660112501051518;
  static const std::array<Eigen::Vector3d, 4> points = {
      Eigen::Vector3d(b, b, b), Eigen::Vector3d(a, b, b), Eigen::Vector3d(b, a, b),
      Eigen::Vector3d(b, b, a)};
  return points;
}
constexpr double rule_weight = 1.0 / 24;

/// Six points of degree 4 on a triangle (Dunavant 1985): natural coordinates and weight.
struct FacePoint {
  double L1, L2, weight;
};
constexpr double near_a = 0.445948490915965, near_w = 0.223381589678011;
constexpr double far_a = 0.091576213509771, far_w = 0.109951743655322;
constexpr std::array<FacePoint, 6> face_rule = {{{near_a, near_a, near_w},
                                                 {1 - 2 * near_a, near_a, near_w},
                                                 {near_a, 1 - 2 * near_a, near_w},
                                                 {far_a, far_a, far_w},
                                                 {1 - 2 * far_a, far_a, far_w},
                                                 {far_a, 1 - 2 * far_a, far_w}}};

/// Calls `visit(shape functions, place, area of the point)` at each point of a face's rule.
template <class Visit>
void for_each_point(const SolidMesh& mesh, const SolidFace& face, Visit visit) {
  for (const FacePoint& p : face_rule) {
    const double L1 = p.L1, L2 = p.L2, L0 = 1 - L1 - L2;
    Eigen::Matrix<double, 6, 1> N;
    N << L0 * (2 * L0 - 1), L1 * (2 * L1 - 1), L2 * (2 * L2 - 1), 4 * L0 * L1, 4 * L1 * L2,
        4 * L0 * L2;
    Eigen::Matrix<double, 6, 2> dN;
    dN << 1 - 4 * L0, 1 - 4 * L0, 4 * L1 - 1, 0, 0, 4 * L2 - 1, 4 * (L0 - L1), -4 * L1, 4 * L2,
        4 * L1, -4 * L2, 4 * (L0 - L2);
    Eigen::Vector3d place = Eigen::Vector3d::Zero(), a = place, b = place;
    for (int n = 0; n < 6; ++n) {
      const Eigen::Vector3d& x = mesh.nodes[face[n]];
      place += N[n] * x;
      a += dN(n, 0) * x;
      b += dN(n, 1) * x;
    }
    visit(N, place, 0.5 * p.weight * a.cross(b).norm());
  }
}

}  // namespace

ElementNodes element_nodes(const SolidMesh& mesh, const std::array<int, 10>& element) {
  ElementNodes x;
  for (int n = 0; n < 10; ++n) x.col(n) = mesh.nodes[element[n]];
  return x;
}

Eigen::Vector3d natural_coordinates(const ElementNodes& nodes, const Eigen::Vector3d& point) {
  Eigen::Vector3d at = Eigen::Vector3d::Constant(0.25);
  for (int step = 0; step < 8; ++step) {
    const Eigen::Vector4d L(1 - at.sum(), at.x(), at.y(), at.z());
    Eigen::Vector3d place = Eigen::Vector3d::Zero();
    for (int i = 0; i < 4; ++i) place += L[i] * (2 * L[i] - 1) * nodes.col(i);
    for (int k = 0; k < 6; ++k) place += 4 * L[edges[k][0]] * L[edges[k][1]] * nodes.col(4 + k);
    const Eigen::Matrix3d J = nodes * shape_gradients(at);
    at += J.inverse() * (point - place);
  }
  return at;
}

ElementStiffness solid_stiffness(const ElementNodes& nodes, const IsotropicSolid& material) {
  const Elasticity D = elasticity(material);
  ElementStiffness K = ElementStiffness::Zero();
  for (const Eigen::Vector3d& p : rule()) {
    const Derivatives d = derivatives(nodes, p);
    if (!(d.jacobian > 0)) throw std::domain_error("an element is turned inside out");
    const Strains B = strain_matrix(d.by_xyz);
    K.noalias() += rule_weight * d.jacobian * B.transpose() * (D * B);
  }
  return K;
}

Stress solid_stress(const ElementNodes& nodes, const ElementNodes& displacements,
                    const IsotropicSolid& material, const Eigen::Vector3d& at) {
  const Eigen::Map<const Eigen::Matrix<double, 30, 1>> u(displacements.data());
  return elasticity(material) * (strain_matrix(derivatives(nodes, at).by_xyz) * u);
}

SparseMatrix solid_matrix(const SolidMesh& mesh, const IsotropicSolid& material) {
  std::vector<Eigen::Triplet<double>> entries;
  entries.reserve(mesh.elements.size() * 465);
  for (const auto& element : mesh.elements) {
    const ElementStiffness K = solid_stiffness(element_nodes(mesh, element), material);
    for (int i = 0; i < 30; ++i) {
      const int row = 3 * element[i / 3] + i % 3;
      for (int j = 0; j < 30; ++j) {
        const int column = 3 * element[j / 3] + j % 3;
        if (row >= column) entries.emplace_back(row, column, K(i, j));
      }
    }
  }
  const auto size = static_cast<Eigen::Index>(3 * mesh.nodes.size());
  assert(size > 0);
  SparseMatrix lower(size, size);
  lower.setFromTriplets(entries.begin(), entries.end());
  return lower;
}

std::vector<SolidFace> faces_where(const SolidMesh& mesh,
                                   const std::function<bool(const Eigen::Vector3d&)>& on) {
  std::map<std::array<int, 3>, std::pair<SolidFace, int>> found;
  for (const auto& element : mesh.elements) {
    for (const auto& side : sides) {
      SolidFace face;
      for (int n = 0; n < 6; ++n) face[n] = element[side[n]];
      if (!std::all_of(face.begin(), face.end(), [&](int n) { return on(mesh.nodes[n]); })) {
        continue;
      }
      std::array<int, 3> key = {face[0], face[1], face[2]};
      std::sort(key.begin(), key.end());
      ++found.try_emplace(key, face, 0).first->second.second;
    }
  }
  std::vector<SolidFace> faces;
  for (const auto& [key, entry] : found) {
    if (entry.second == 1) faces.push_back(entry.first);
  }
  return faces;
}

Eigen::VectorXd traction_loads(const SolidMesh& mesh, const std::vector<SolidFace>& faces,
                               const std::function<Eigen::Vector3d(const Eigen::Vector3d&)>& at) {
  Eigen::VectorXd loads = Eigen::VectorXd::Zero(static_cast<Eigen::Index>(3 * mesh.nodes.size()));
  for (const SolidFace& face : faces) {
    for_each_point(mesh, face, [&](const auto& N, const Eigen::Vector3d& place, double area) {
      const Eigen::Vector3d force = area * at(place);
      for (int n = 0; n < 6; ++n) loads.segment<3>(3 * face[n]) += N[n] * force;
    });
  }
  return loads;
}

double face_integral(const SolidMesh& mesh, const std::vector<SolidFace>& faces,
                     const std::function<double(const Eigen::Vector3d&)>& at) {
  double sum = 0;
  for (const SolidFace& face : faces) {
    for_each_point(mesh, face, [&](const auto&, const Eigen::Vector3d& place, double area) {
      sum += area * at(place);
    });
  }
  return sum;
}

double least_jacobian(const SolidMesh& mesh, const std::array<int, 10>& element) {
  const ElementNodes x = element_nodes(mesh, element);
  double least = std::numeric_limits<double>::infinity(), sum = 0;
  for (const Eigen::Vector3d& p : rule()) {
    const double jacobian = derivatives(x, p).jacobian;
    least = std::min(least, jacobian);
    sum += jacobian;
  }
  return least / (sum / 4);
}

double solid_volume(const SolidMesh& mesh) {
  double volume = 0;
  for (const auto& element : mesh.elements) {
    const ElementNodes x = element_nodes(mesh, element);
    for (const Eigen::Vector3d& p : rule()) volume += rule_weight * derivatives(x, p).jacobian;
  }
  return volume;
}

SolidSolver::SolidSolver(const SparseMatrix& lower, std::vector<bool> restrained)
    : size_(lower.cols()) {
  std::vector<int> number(restrained.size(), -1), node_of;
  for (std::size_t dof = 0; dof < restrained.size(); ++dof) {
    if (restrained[dof]) continue;
    number[dof] = static_cast<int>(free_.size());
    free_.push_back(static_cast<int>(dof));
    node_of.push_back(static_cast<int>(dof / 3));
  }
  // DOFs keep their order, so columns are filled in ascending rows.
  const auto n = static_cast<Eigen::Index>(free_.size());
  assert(n > 0);
  SparseMatrix K(n, n);
  Eigen::VectorXi counts(n);
  for (Eigen::Index c = 0; c < n; ++c) {
    counts[c] = lower.outerIndexPtr()[free_[c] + 1] - lower.outerIndexPtr()[free_[c]];
  }
  K.reserve(counts);
  for (Eigen::Index c = 0; c < n; ++c) {
    for (SparseMatrix::InnerIterator entry(lower, free_[c]); entry; ++entry) {
      if (number[entry.row()] >= 0) K.insert(number[entry.row()], c) = entry.value();
    }
  }
  K.makeCompressed();
  // Nodes numbered without gaps.
  int last = -1, node = -1;
  for (int& of : node_of) {
    if (of != last) ++node;
    last = of;
    of = node;
  }
  factor_ = std::make_unique<Factorisation>(K, node_of);
  if (!factor_->positive_definite()) throw std::domain_error("the solid can move freely");
}

Eigen::MatrixXd SolidSolver::solve(const Eigen::MatrixXd& loads) const {
  Eigen::MatrixXd reduced(static_cast<Eigen::Index>(free_.size()), loads.cols());
  for (Eigen::Index k = 0; k < reduced.rows(); ++k) reduced.row(k) = loads.row(free_[k]);
  const Eigen::MatrixXd x = factor_->solve(reduced);
  Eigen::MatrixXd u = Eigen::MatrixXd::Zero(size_, loads.cols());
  for (Eigen::Index k = 0; k < reduced.rows(); ++k) u.row(free_[k]) = x.row(k);
  return u;
}

}  // namespace tubewright
