// A corner of two square tubes with a gusset: the plate meshed by six-node triangles in plane
// stress (quadratic, three integration points), the tubes as Timoshenko beams with a node at each
// node of the plate's edge, joined to it rigidly along the face and by the face's stiffness off it.
// A tenth of each leg at the corner is left free, as a plate is cut away over the weld there.
#pragma once

#include <Eigen/Dense>
#include <array>
#include <cmath>
#include <vector>

namespace tubewright::testing {

/// N and mm. The second tube is held at its far end, the first loaded at its own.
struct GussetCorner {
  double side = 40, wall = 3;
  double first_leg = 60, second_leg = 60;
  double thickness = 4;
  double angle = 1.5707963267948966;
  double reach = 400;                       ///< of both tubes from the corner
  std::array<double, 2> face = {1e8, 1e8};  ///< stiffness of each face under a push off it, N/mm
  double E = 210e3, nu = 0.3;
};

/// How far its end moves under a force of 1 across it, or turns under a moment of 1.
struct CornerAnswer {
  double moves = 0;
  double resultant = 0;  ///< of what the plate puts on the first tube
};

class GussetMesh {
 public:
  GussetMesh(const GussetCorner& corner, int steps, bool with_plate)
      : c_(corner), steps_(2 * steps), plate_(with_plate) {
    e_ = {Eigen::Vector2d(1, 0), Eigen::Vector2d(std::cos(c_.angle), std::sin(c_.angle))};
    n_ = {Eigen::Vector2d(0, 1), Eigen::Vector2d(std::sin(c_.angle), -std::cos(c_.angle))};
    Eigen::Matrix2d normals;
    normals << n_[0].transpose(), n_[1].transpose();
    inner_ = normals.inverse() * Eigen::Vector2d(c_.side / 2, c_.side / 2);
    node_ = take(3);
    for (const std::size_t k : {0U, 1U}) lay_tube(k);
    if (plate_) lay_plate();
  }

  CornerAnswer push() const { return answer(1); }
  CornerAnswer turn() const { return answer(2); }

 private:
  struct Piece {
    std::vector<int> dofs;
    Eigen::MatrixXd K;
  };

  int take(int count) {
    const int first = dofs_;
    dofs_ += count;
    return first;
  }

  double leg(std::size_t k) const { return k == 0 ? c_.first_leg : c_.second_leg; }

  void lay_tube(std::size_t k) {
    const double start = inner_.dot(e_[k]);
    std::vector<double> at = {0};
    std::vector<int> nodes = {node_};
    for (int i = 0; i <= steps_; ++i) at.push_back(start + leg(k) * i / steps_);
    at.push_back(c_.reach);
    while (nodes.size() < at.size()) nodes.push_back(take(3));
    for (std::size_t i = 0; i + 1 < at.size(); ++i) {
      add_beam(nodes[i], nodes[i + 1], e_[k], at[i + 1] - at[i]);
    }
    edge_[k].assign(nodes.begin() + 1, nodes.end() - 1);
    end_[k] = nodes.back();
  }

  void add_beam(int from, int to, const Eigen::Vector2d& along, double L) {
    const double inside = c_.side - 2 * c_.wall, E = c_.E, G = E / (2 * (1 + c_.nu));
    const double A = c_.side * c_.side - inside * inside;
    const double I = (std::pow(c_.side, 4) - std::pow(inside, 4)) / 12;
    constexpr double sheared = 0.44;  // of the area, thin square tube
    const double f = 12 * E * I / (G * sheared * A * L * L), q = E * I / (L * L * L) / (1 + f);
    Eigen::Matrix<double, 6, 6> K = Eigen::Matrix<double, 6, 6>::Zero();
    K(0, 0) = K(3, 3) = E * A / L;
    K(0, 3) = K(3, 0) = -E * A / L;
    Eigen::Matrix4d bent;
    bent << 12, 6 * L, -12, 6 * L, 6 * L, (4 + f) * L * L, -6 * L, (2 - f) * L * L, -12, -6 * L, 12,
        -6 * L, 6 * L, (2 - f) * L * L, -6 * L, (4 + f) * L * L;
    const int across[] = {1, 2, 4, 5};
    for (int i = 0; i < 4; ++i)
      for (int j = 0; j < 4; ++j) K(across[i], across[j]) += q * bent(i, j);
    Eigen::Matrix<double, 6, 6> T = Eigen::Matrix<double, 6, 6>::Zero();
    for (const int o : {0, 3}) {
      T.block<2, 2>(o, o) << along.x(), along.y(), -along.y(), along.x();
      T(o + 2, o + 2) = 1;
    }
    pieces_.push_back({{from, from + 1, from + 2, to, to + 1, to + 2}, T.transpose() * K * T});
  }

  Eigen::Vector2d place(int i, int j) const {
    return inner_ + e_[0] * (c_.first_leg * i / steps_) + e_[1] * (c_.second_leg * j / steps_);
  }

  void lay_plate() {
    const std::size_t row = static_cast<std::size_t>(steps_) + 1;
    at_.assign(row * row, -1);
    for (int i = 0; i <= steps_; ++i)
      for (int j = 0; i + j <= steps_; ++j) at_[index(i, j)] = take(2);
    for (int i = 0; i < steps_; i += 2) {
      for (int j = 0; i + j < steps_; j += 2) {
        add_triangle({{{i + 2, j}, {i, j + 2}, {i, j}}});
        if (i + j + 2 < steps_) add_triangle({{{i, j + 2}, {i + 2, j}, {i + 2, j + 2}}});
      }
    }
    constexpr double cut_away = 0.1;
    for (int i = 0; i <= steps_; ++i) {
      if (i < cut_away * steps_) continue;
      weld(0, edge_[0][static_cast<std::size_t>(i)], at_[index(i, 0)]);
      weld(1, edge_[1][static_cast<std::size_t>(i)], at_[index(0, i)]);
    }
  }

  std::size_t index(int i, int j) const {
    const std::size_t row = static_cast<std::size_t>(steps_) + 1;
    return static_cast<std::size_t>(i) * row + static_cast<std::size_t>(j);
  }

  void add_triangle(const std::array<std::array<int, 2>, 3>& corners) {
    std::array<std::array<int, 2>, 6> nodes{};
    for (std::size_t k = 0; k < 3; ++k) {
      nodes[k] = corners[k];
      const auto &a = corners[k], &b = corners[(k + 1) % 3];
      nodes[3 + k] = {(a[0] + b[0]) / 2, (a[1] + b[1]) / 2};
    }
    Eigen::Matrix<double, 6, 2> X;
    std::vector<int> dofs;
    for (std::size_t k = 0; k < 6; ++k) {
      X.row(static_cast<Eigen::Index>(k)) = place(nodes[k][0], nodes[k][1]).transpose();
      const int dof = at_[index(nodes[k][0], nodes[k][1])];
      dofs.insert(dofs.end(), {dof, dof + 1});
    }
    Eigen::Matrix3d D;
    D << 1, c_.nu, 0, c_.nu, 1, 0, 0, 0, (1 - c_.nu) / 2;
    D *= c_.E / (1 - c_.nu * c_.nu);
    Eigen::Matrix<double, 12, 12> K = Eigen::Matrix<double, 12, 12>::Zero();
    for (const auto& [p, q] :
         {std::pair{1.0 / 6, 1.0 / 6}, {2.0 / 3, 1.0 / 6}, {1.0 / 6, 2.0 / 3}}) {
      const double r = 1 - p - q;
      Eigen::Matrix<double, 6, 2> dN;
      dN << 4 * p - 1, 0, 0, 4 * q - 1, 1 - 4 * r, 1 - 4 * r, 4 * q, 4 * p, -4 * q, 4 * (r - q),
          4 * (r - p), -4 * p;
      const Eigen::Matrix2d J = dN.transpose() * X;
      const Eigen::Matrix<double, 6, 2> d = dN * J.inverse().transpose();
      Eigen::Matrix<double, 3, 12> B = Eigen::Matrix<double, 3, 12>::Zero();
      for (int k = 0; k < 6; ++k) {
        B(0, 2 * k) = B(2, 2 * k + 1) = d(k, 0);
        B(1, 2 * k + 1) = B(2, 2 * k) = d(k, 1);
      }
      K += B.transpose() * D * B * (std::abs(J.determinant()) / 6 * c_.thickness);
    }
    pieces_.push_back({dofs, K});
  }

  /// A node of the plate's edge to the beam's node behind it.
  void weld(std::size_t k, int beam, int plate) {
    constexpr double rigid = 1e8;
    const Eigen::Vector2d off = n_[k] * (c_.side / 2);
    Eigen::Matrix<double, 2, 5> apart = Eigen::Matrix<double, 2, 5>::Zero();
    apart.leftCols<2>().setIdentity();
    apart.block<2, 2>(0, 2) = -Eigen::Matrix2d::Identity();
    apart.col(4) = Eigen::Vector2d(off.y(), -off.x());
    constexpr double welded = 0.9;
    const double share = c_.face[k] >= rigid ? 1 : 1 / (steps_ * welded);
    const Eigen::Matrix2d spring =
        rigid * e_[k] * e_[k].transpose() + c_.face[k] * share * n_[k] * n_[k].transpose();
    pieces_.push_back(
        {{plate, plate + 1, beam, beam + 1, beam + 2}, apart.transpose() * spring * apart});
    if (k == 0) on_first_.push_back(pieces_.size() - 1);
  }

  CornerAnswer answer(int component) const {
    Eigen::MatrixXd K = Eigen::MatrixXd::Zero(dofs_, dofs_);
    for (const Piece& p : pieces_) {
      for (std::size_t i = 0; i < p.dofs.size(); ++i)
        for (std::size_t j = 0; j < p.dofs.size(); ++j)
          K(p.dofs[i], p.dofs[j]) +=
              p.K(static_cast<Eigen::Index>(i), static_cast<Eigen::Index>(j));
    }
    for (int d = 0; d < 3; ++d) {  // held
      K.row(end_[1] + d).setZero();
      K.col(end_[1] + d).setZero();
      K(end_[1] + d, end_[1] + d) = 1;
    }
    Eigen::VectorXd load = Eigen::VectorXd::Zero(dofs_);
    load[end_[0] + component] = 1;
    const Eigen::VectorXd u = K.ldlt().solve(load);
    CornerAnswer a;
    a.moves = u[end_[0] + component];
    Eigen::Vector2d sum = Eigen::Vector2d::Zero();
    for (const std::size_t p : on_first_) {
      Eigen::VectorXd own(5);
      for (std::size_t i = 0; i < 5; ++i) own[static_cast<Eigen::Index>(i)] = u[pieces_[p].dofs[i]];
      sum += (pieces_[p].K * own).head<2>();
    }
    a.resultant = sum.norm();
    return a;
  }

  GussetCorner c_;
  int steps_;
  bool plate_;
  int dofs_ = 0, node_ = 0;
  std::array<Eigen::Vector2d, 2> e_, n_;
  Eigen::Vector2d inner_;
  std::array<std::vector<int>, 2> edge_;
  std::array<int, 2> end_{};
  std::vector<int> at_;
  std::vector<Piece> pieces_;
  std::vector<std::size_t> on_first_;
};

}  // namespace tubewright::testing
