#include "solver/statics/unit_stiffness.h"

#include <Eigen/Cholesky>
#include <Eigen/Geometry>
#include <cmath>

#include "solver/elements/bar_element.h"
#include "solver/elements/beam_element.h"
#include "solver/elements/shear_panel.h"
#include "solver/linear_algebra/dense.h"

namespace tubewright {

namespace {

double length_of(const Model& model, const Beam& b) {
  return (model.nodes[b.to] - model.nodes[b.from]).norm();
}

Section stocky(double L) {
  Section s;
  s.A = L;
  s.Iy = s.Iz = L * L * L / 12;
  s.It = L * L * L;
  s.Ay = s.Az = rigid;  // as before: no shear flexibility
  return s;
}

/// Rows: what deforms the beam in each column of `u`: the motion of its far end, local axes, as
/// seen from the near one.
Eigen::MatrixXd beam_deformations(const Model& model, const Beam& b, const BeamElement& e,
                                  const Eigen::MatrixXd& u) {
  Eigen::MatrixXd q(6, u.cols());
  const Eigen::Vector3d span = model.nodes[b.to] - model.nodes[b.from];
  for (Eigen::Index k = 0; k < u.cols(); ++k) {
    const auto from = u.col(k).segment<6>(dofs_per_node * b.from);
    const auto to = u.col(k).segment<6>(dofs_per_node * b.to);
    const Eigen::Vector3d turn = from.tail<3>();
    q.col(k).head<3>() = e.axes * (to.head<3>() - from.head<3>() - turn.cross(span));
    q.col(k).tail<3>() = e.axes * (to.tail<3>() - turn);
  }
  return q;
}

/// W with W'W = the stiffness of the far end while the near one is held: what releases leave
/// without stiffness is left out, where the matrix itself has rounding. All of it may be: a tube
/// that is torn off one of its nodes.
Eigen::MatrixXd without_releases(const BeamElement& e) {
  constexpr double nothing = 1e-12;  // of the greatest with both ends welded
  const EigenSystem stiff =
      symmetric_eigensystem(Eigen::MatrixXd(condense(e)->K.block<6, 6>(6, 6)));
  const double least = nothing * local_stiffness(e).diagonal().maxCoeff();
  const Eigen::VectorXd root =
      stiff.values.unaryExpr([&](double k) { return k > least ? std::sqrt(k) : 0.0; });
  return root.asDiagonal() * stiff.vectors.transpose();
}

}  // namespace

Model with_unit_stiffness(const Model& model) {
  Model unit = model;
  Material one;
  one.E = one.G = 1;
  unit.materials = {one};
  unit.sections.clear();
  for (Beam& b : unit.beams) {
    b.material = 0;
    b.section = static_cast<int>(unit.sections.size());
    unit.sections.push_back(stocky(length_of(model, b)));
    for (EndConnection* end : {&b.connection_from, &b.connection_to}) {
      for (double& spring : *end) spring = spring > 0 ? rigid : 0;
    }
    b.joint_from = b.joint_to = {};
    b.arc = {};
  }
  for (Bar& b : unit.bars) b.stiffness = b.stiffness > 0 ? 1 : 0;
  for (Panel& p : unit.panels) {
    p.thickness = p.G = p.secant_ratio = 1;
    p.joint = rigid;
  }
  return unit;
}

Eigen::MatrixXd element_energies(const Model& model, const std::vector<bool>& slack,
                                 const Eigen::MatrixXd& u) {
  Eigen::MatrixXd sum = Eigen::MatrixXd::Zero(u.cols(), u.cols());
  for (const Beam& b : model.beams) {
    const BeamElement e = beam_element(model, b);
    const Eigen::MatrixXd q = without_releases(e) * beam_deformations(model, b, e, u);
    sum += q.transpose() * q;
  }
  for (size_t i = 0; i < model.bars.size(); ++i) {
    if (slack[i]) continue;
    const Bar& bar = model.bars[i];
    const Eigen::Vector3d n = bar_direction(model, bar);
    const Eigen::RowVectorXd stretch = n.transpose() * (u.middleRows<3>(dofs_per_node * bar.to) -
                                                        u.middleRows<3>(dofs_per_node * bar.from));
    sum += bar.stiffness * stretch.transpose() * stretch;
  }
  for (const PanelGroup& group : panel_groups(model)) {
    Eigen::MatrixXd at_nodes(group.B.rows(), u.cols());
    for (size_t n = 0; n < group.nodes.size(); ++n) {
      at_nodes.middleRows<6>(dofs_per_node * static_cast<Eigen::Index>(n)) =
          u.middleRows<6>(dofs_per_node * group.nodes[n]);
    }
    const Eigen::MatrixXd work = group.B.transpose() * at_nodes;
    sum += work.transpose() * group.F.ldlt().solve(work);
  }
  return (sum + sum.transpose()) / 2;
}

}  // namespace tubewright
