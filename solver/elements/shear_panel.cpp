#include "solver/elements/shear_panel.h"

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>
#include <map>

#include "solver/elements/bar_element.h"
#include "solver/elements/beam_element.h"
#include "solver/elements/beam_field.h"
#include "solver/linear_algebra/dense.h"
#include "solver/model/disjoint_sets.h"

namespace tubewright {

namespace {

// Beyond this many the coupling within a group is bounded instead of kept: its matrix is full.
constexpr size_t largest_full_group = 250;

double triangle(const Eigen::Vector3d& a, const Eigen::Vector3d& b, const Eigen::Vector3d& c,
                const Eigen::Vector3d& normal) {
  return (b - a).cross(c - a).dot(normal) / 2;
}

/// What a load along a straight bar does to its two end nodes.
void add_to_bar_ends(const Model& model, const EdgeLoad& load, Eigen::Ref<Vector6> from,
                     Eigen::Ref<Vector6> to) {
  const Bar& bar = model.bars[load.piece.index];
  const double L = (model.nodes[bar.to] - model.nodes[bar.from]).norm();
  const Eigen::Vector3d half = load.line * (L / 2);
  const Eigen::Vector3d pair = load.couple.cross(bar_direction(model, bar));
  from.head<3>() += half - pair;
  to.head<3>() += half + pair;
}

std::array<int, 2> ends_of(const Model& model, const EdgePiece& piece) {
  if (piece.is_beam) return {model.beams[piece.index].from, model.beams[piece.index].to};
  return {model.bars[piece.index].from, model.bars[piece.index].to};
}

BeamActions beam_actions(const EdgeLoad& load) { return {load.line, {}, load.couple}; }

/// A panel's share in the assembly: unit flow on one member.
struct Contribution {
  int panel = 0;
  EdgeLoad load;
};

using ByMember = std::map<EdgePiece, std::vector<Contribution>>;

/// What a member gives way to two loads along it while its joints stay.
class MemberFlexibility {
 public:
  MemberFlexibility(const Model& model, const EdgePiece& piece) : piece_(piece) {
    if (piece.is_beam) {
      beam_ = beam_element(model, model.beams[piece.index]);
      from_load_ = condense(beam_)->from_load;
      return;
    }
    const Bar& bar = model.bars[piece.index];
    along_ = bar_direction(model, bar);
    const double L = (model.nodes[bar.to] - model.nodes[bar.from]).norm();
    bar_flexibility_ = L * L / (12 * bar.stiffness);  // L^3/(12 EA)
  }

  double operator()(const EdgeLoad& a, const EdgeLoad& b) const {
    if (!piece_.is_beam) return bar_flexibility_ * a.line.dot(along_) * b.line.dot(along_);
    return with(a, beam_actions(b));
  }

  /// Of a beam, with loads of any kind.
  double with(const EdgeLoad& a, const BeamActions& any) const {
    const BeamActions own = beam_actions(a);
    return held_flexibility(beam_, own, any) +
           local_equivalent_loads(beam_, own).dot(from_load_ * local_equivalent_loads(beam_, any));
  }

 private:
  EdgePiece piece_;
  BeamElement beam_;
  Matrix12 from_load_;
  Eigen::Vector3d along_;
  double bar_flexibility_ = 0;
};

/// Sets of panels joined by members they share.
std::vector<std::vector<int>> connected(size_t panels, const ByMember& by_member) {
  DisjointSets joined(panels);
  for (const auto& [piece, list] : by_member) {
    for (const Contribution& c : list) joined.join(c.panel, list.front().panel);
  }
  std::map<int, std::vector<int>> sets;
  for (int i = 0; i < static_cast<int>(panels); ++i) sets[joined.first_of(i)].push_back(i);
  std::vector<std::vector<int>> list;
  for (auto& [first, members] : sets) list.push_back(std::move(members));
  return list;
}

/// What unit flows of all panels do to each member.
ByMember unit_flows(const Model& model) {
  ByMember by_member;
  for (int j = 0; j < static_cast<int>(model.panels.size()); ++j) {
    for (const EdgeLoad& load : edge_loads(model, model.panels[j], 1, 0)) {
      by_member[load.piece].push_back({j, load});
    }
  }
  return by_member;
}

/// The ends of the members along the panels' edges, ascending.
std::vector<int> nodes_round(const Model& model, const std::vector<int>& panels) {
  std::vector<int> nodes;
  for (const int panel : panels) {
    for (const auto& edge : model.panels[panel].edges) {
      for (const EdgePiece& piece : edge) {
        for (const int node : ends_of(model, piece)) nodes.push_back(node);
      }
    }
  }
  std::sort(nodes.begin(), nodes.end());
  nodes.erase(std::unique(nodes.begin(), nodes.end()), nodes.end());
  return nodes;
}

/// A group with what its sheets and joints give way, and nothing yet of its members.
PanelGroup group_of_sheets(const Model& model, std::vector<int> panels) {
  PanelGroup group;
  const auto n = static_cast<Eigen::Index>(panels.size());
  group.nodes = nodes_round(model, panels);
  group.B = Eigen::MatrixXd::Zero(dofs_per_node * static_cast<Eigen::Index>(group.nodes.size()), n);
  group.F = Eigen::MatrixXd::Zero(n, n);
  for (Eigen::Index i = 0; i < n; ++i) {
    const Panel& panel = model.panels[panels[i]];
    group.F(i, i) = panel_flexibility(panel_geometry(model, panel), panel);
  }
  group.panels = std::move(panels);
  return group;
}

/// What each of the loads along a member does to the joints at its ends, global axes.
std::vector<Vector12> forces_on_joints(const Model& model, const EdgePiece& piece,
                                       const std::vector<Contribution>& list) {
  std::vector<Vector12> forces(list.size(), Vector12::Zero());
  if (!piece.is_beam) {
    for (size_t i = 0; i < list.size(); ++i) {
      add_to_bar_ends(model, list[i].load, forces[i].head<6>(), forces[i].tail<6>());
    }
    return forces;
  }
  const BeamElement beam = beam_element(model, model.beams[piece.index]);
  const Matrix12 to_joints =
      rotation_12(beam.axes).transpose() * condense(beam)->from_joint.transpose();
  for (size_t i = 0; i < list.size(); ++i) {
    forces[i] = to_joints * local_equivalent_loads(beam, beam_actions(list[i].load));
  }
  return forces;
}

double length_of(const Model& model, const EdgePiece& piece) {
  const auto [from, to] = ends_of(model, piece);
  return (model.nodes[to] - model.nodes[from]).norm();
}

/// Of a load on a member: along it, from its start.
double flow_along(const Model& model, const EdgeLoad& load) {
  const auto [from, to] = ends_of(model, load.piece);
  return load.line.dot((model.nodes[to] - model.nodes[from]).normalized());
}

bool is_one_sheet(const Panel& a, const Panel& b) { return a.piece >= 0 && a.piece == b.piece; }

/// What a row gives way by per metre and flow: the geometric mean of what it is said to be on its
/// two sides, so that F stays positive definite.
double slip(const Panel& a, const Panel& b) { return 1 / std::sqrt(a.joint) / std::sqrt(b.joint); }

/// F_jl of the row under two panels of one sheet on a member.
double row_coupling(const Model& model, const Contribution& a, const Contribution& b) {
  const Panel &p = model.panels[a.panel], &q = model.panels[b.panel];
  return std::min(p.carry_over, q.carry_over) * slip(p, q) * length_of(model, a.load.piece) *
         flow_along(model, a.load) * flow_along(model, b.load);
}

/// Adds the rows of continuous sheets on one member.
void add_rows(const Model& model, const std::vector<Contribution>& list,
              const std::vector<int>& place_in, PanelGroup& group) {
  for (size_t i = 0; i < list.size(); ++i) {
    for (size_t j = 0; j < i; ++j) {
      if (!is_one_sheet(model.panels[list[i].panel], model.panels[list[j].panel])) continue;
      const double coupling = row_coupling(model, list[i], list[j]);
      group.F(place_in[list[i].panel], place_in[list[j].panel]) += coupling;
      group.F(place_in[list[j].panel], place_in[list[i].panel]) += coupling;
    }
  }
}

/// Adds a member to its group: what the panels' unit flows do to its joints and to itself.
void add_member(const Model& model, const EdgePiece& piece, const std::vector<Contribution>& list,
                const std::vector<int>& place_in, PanelGroup& group) {
  const auto row = [&](int node) {
    return dofs_per_node *
           (std::lower_bound(group.nodes.begin(), group.nodes.end(), node) - group.nodes.begin());
  };
  const std::array<int, 2> ends = ends_of(model, piece);
  const std::vector<Vector12> forces = forces_on_joints(model, piece, list);
  const MemberFlexibility flexibility(model, piece);
  for (size_t i = 0; i < list.size(); ++i) {
    const int column = place_in[list[i].panel];
    group.B.col(column).segment<6>(row(ends[0])) -= forces[i].head<6>();
    group.B.col(column).segment<6>(row(ends[1])) -= forces[i].tail<6>();
    for (const Contribution& other : list) {
      group.F(column, place_in[other.panel]) += flexibility(list[i].load, other.load);
    }
  }
  add_rows(model, list, place_in, group);
}

/// The diagonal matrix of the sums of each row's absolute values is never stiffer than F.
void bound_by_diagonal(Eigen::MatrixXd& F) {
  const Eigen::VectorXd sums = F.cwiseAbs().rowwise().sum();
  F = sums.asDiagonal();
}

// Gauss points and weights on -1..1.
constexpr std::array<double, 5> gauss_5_at = {-0.906179845938664, -0.538469310105683, 0,
                                              0.538469310105683, 0.906179845938664};
constexpr std::array<double, 5> gauss_5_weight = {
    0.236926885056189, 0.478628670499366, 0.568888888888889, 0.478628670499366, 0.236926885056189};

/// Stress field C (r1 r2' + r2 r1')/l^3, r1 and r2 from the points P and Q where opposite edges
/// meet, l the distance to the line through P and Q, in homogeneous coordinates so that parallel
/// edges are no special case. It makes the flow along an edge r_k q0; here C = 1.
struct RayField {
  std::array<Eigen::Vector2d, 4> corners;  ///< in the panel's plane, made as large as an area of 1
  Eigen::Vector3d P, Q;
  Eigen::Vector3d horizon;  ///< the line through both

  Eigen::Matrix2d operator()(const Eigen::Vector2d& at) const {
    const Eigen::Vector2d r1 = P[2] * at - P.head<2>(), r2 = Q[2] * at - Q.head<2>();
    const double l = horizon.dot(at.homogeneous());
    return (r1 * r2.transpose() + r2 * r1.transpose()) / (l * l * l);
  }
};

RayField ray_field(const std::array<Eigen::Vector3d, 4>& corners, const PanelGeometry& g) {
  RayField field;
  const Eigen::Vector3d ex = g.direction[0], ey = g.normal.cross(ex);
  Eigen::Vector3d middle = Eigen::Vector3d::Zero();
  for (const Eigen::Vector3d& c : corners) middle += c / 4;
  const double size = std::sqrt(g.area);
  std::array<Eigen::Vector2d, 4>& x = field.corners;
  for (int k = 0; k < 4; ++k) {
    const Eigen::Vector3d from_middle = (corners[k] - middle) / size;
    x[k] = {from_middle.dot(ex), from_middle.dot(ey)};
  }
  const auto line = [&](int k) -> Eigen::Vector3d {
    return x[k].homogeneous().cross(x[(k + 1) % 4].homogeneous());
  };
  field.P = line(0).cross(line(2));
  field.Q = line(1).cross(line(3));
  field.horizon = field.P.cross(field.Q);
  return field;
}

/// Along the first edge, from the shear on it.
double mean_flow(const RayField& field) {
  const auto& x = field.corners;
  const Eigen::Vector2d along = (x[1] - x[0]).normalized();
  const Eigen::Vector2d across(-along.y(), along.x());
  double flow = 0;
  for (int i = 0; i < 5; ++i) {
    const Eigen::Vector2d at = (x[0] + x[1]) / 2 + gauss_5_at[i] / 2 * (x[1] - x[0]);
    flow += gauss_5_weight[i] / 2 * along.dot(field(at) * across);
  }
  return flow;
}

/// int [(1+nu) s:s - nu (tr s)^2] dA over the panel, twice the energy times E t.
double ray_energy(const RayField& field, double nu) {
  double energy = 0;
  for (int i = 0; i < 5; ++i) {
    for (int j = 0; j < 5; ++j) {
      const double a = gauss_5_at[i], b = gauss_5_at[j];
      const std::array<double, 4> n = {(1 - a) * (1 - b) / 4, (1 + a) * (1 - b) / 4,
                                       (1 + a) * (1 + b) / 4, (1 - a) * (1 + b) / 4};
      const std::array<double, 4> da = {-(1 - b) / 4, (1 - b) / 4, (1 + b) / 4, -(1 + b) / 4};
      const std::array<double, 4> db = {-(1 - a) / 4, -(1 + a) / 4, (1 + a) / 4, (1 - a) / 4};
      Eigen::Vector2d at(0, 0), ta(0, 0), tb(0, 0);
      for (int k = 0; k < 4; ++k) {
        at += n[k] * field.corners[k];
        ta += da[k] * field.corners[k];
        tb += db[k] * field.corners[k];
      }
      const double dA = gauss_5_weight[i] * gauss_5_weight[j] * (ta.x() * tb.y() - ta.y() * tb.x());
      const Eigen::Matrix2d s = field(at);
      energy += dA * ((1 + nu) * s.squaredNorm() - nu * s.trace() * s.trace());
    }
  }
  return energy;
}

}  // namespace

PanelGeometry panel_geometry(const std::array<Eigen::Vector3d, 4>& corners) {
  PanelGeometry g;
  const Eigen::Vector3d twice_area = (corners[2] - corners[0]).cross(corners[3] - corners[1]);
  g.area = twice_area.norm() / 2;
  g.normal = twice_area.normalized();
  std::array<Eigen::Vector3d, 4> x;
  for (int k = 0; k < 4; ++k) {
    x[k] = corners[k] - (corners[k] - corners[0]).dot(g.normal) * g.normal;
  }
  for (int k = 0; k < 4; ++k) {
    const Eigen::Vector3d edge = x[(k + 1) % 4] - x[k];
    g.length[k] = edge.norm();
    g.direction[k] = edge / g.length[k];
    g.stretch[k] = g.length[k] / (corners[(k + 1) % 4] - corners[k]).norm();
  }
  const double A123 = triangle(x[0], x[1], x[2], g.normal);
  const double A124 = triangle(x[0], x[1], x[3], g.normal);
  const double A134 = triangle(x[0], x[2], x[3], g.normal);
  const double A234 = triangle(x[1], x[2], x[3], g.normal);
  g.flow_ratio = {A134 * A234, A134 * A124, A123 * A124, A123 * A234};
  // Every triangle stands twice in the product of the four: its fourth root.
  const double mean = std::sqrt(A123 * A124) * std::sqrt(A134 * A234);
  for (double& r : g.flow_ratio) r /= mean;
  return g;
}

PanelGeometry panel_geometry(const Model& model, const Panel& panel) {
  std::array<Eigen::Vector3d, 4> corners;
  for (int k = 0; k < 4; ++k) corners[k] = model.nodes[panel.corners[k]];
  return panel_geometry(corners);
}

double panel_flexibility(const PanelGeometry& g, const Panel& panel) {
  double phi = g.area / (panel.secant_ratio * panel.G * panel.thickness);
  for (int k = 0; k < 4; ++k) {
    phi += g.flow_ratio[k] * g.flow_ratio[k] * g.length[k] / panel.joint;
  }
  return phi;
}

double ray_field_ratio(const std::array<Eigen::Vector3d, 4>& corners, double nu) {
  const PanelGeometry g = panel_geometry(corners);
  const RayField field = ray_field(corners, g);
  const double q0 = mean_flow(field) / g.flow_ratio[0];
  // phi = energy/(E t q0^2), over A/(G t) with A = 1 in these units and G = E/(2 (1 + nu)).
  return ray_energy(field, nu) / (q0 * q0) / (2 * (1 + nu));
}

std::vector<EdgeLoad> edge_loads(const Model& model, const Panel& panel, double q0, double pull) {
  const PanelGeometry g = panel_geometry(model, panel);
  const auto is_bar = [](const EdgePiece& piece) { return !piece.is_beam; };
  const bool can_twist =
      std::none_of(panel.edges.begin(), panel.edges.end(), [&](const std::vector<EdgePiece>& edge) {
        return std::any_of(edge.begin(), edge.end(), is_bar);
      });
  const Eigen::Vector3d arm = panel.offset * g.normal;
  std::vector<EdgeLoad> loads;
  for (int k = 0; k < 4; ++k) {
    const Eigen::Vector3d along =
        -g.stretch[k] * flow_sense[k] * g.flow_ratio[k] * q0 * g.direction[k];
    const Eigen::Vector3d inward = g.stretch[k] * pull * g.normal.cross(g.direction[k]);
    const Eigen::Vector3d couple = arm.cross(can_twist ? Eigen::Vector3d(along + inward) : along);
    for (const EdgePiece& piece : panel.edges[k]) loads.push_back({piece, along + inward, couple});
  }
  return loads;
}

void add_edge_loads(const Model& model, const std::vector<EdgeLoad>& loads,
                    std::vector<BeamActions>& beams, Eigen::VectorXd& nodal) {
  for (const EdgeLoad& load : loads) {
    if (load.piece.is_beam) {
      beams[load.piece.index].line += load.line;
      beams[load.piece.index].couple += load.couple;
      continue;
    }
    const Bar& bar = model.bars[load.piece.index];
    add_to_bar_ends(model, load, nodal.segment<6>(dofs_per_node * bar.from),
                    nodal.segment<6>(dofs_per_node * bar.to));
  }
}

std::vector<PanelRow> panel_rows(const Model& model, int panel) {
  std::vector<PanelRow> rows;
  std::map<EdgePiece, size_t> row_on;
  const Panel& own = model.panels[panel];
  for (const EdgeLoad& load : edge_loads(model, own, 1, 0)) {
    row_on.emplace(load.piece, rows.size());
    rows.push_back({load.piece, length_of(model, load.piece), flow_along(model, load)});
  }
  const auto lies_on_a_row = [&](const Panel& other) {
    return std::any_of(other.edges.begin(), other.edges.end(), [&](const auto& edge) {
      return std::any_of(edge.begin(), edge.end(),
                         [&](const EdgePiece& piece) { return row_on.contains(piece); });
    });
  };
  for (int p = 0; p < static_cast<int>(model.panels.size()); ++p) {
    if (p == panel || !is_one_sheet(own, model.panels[p])) continue;
    if (!lies_on_a_row(model.panels[p])) continue;
    for (const EdgeLoad& load : edge_loads(model, model.panels[p], 1, 0)) {
      const auto found = row_on.find(load.piece);
      if (found == row_on.end()) continue;
      rows[found->second].other = p;
      rows[found->second].other_flow = flow_along(model, load);
    }
  }
  return rows;
}

std::vector<double> panel_energies(const Model& model, const std::vector<double>& flows) {
  std::vector<double> energies;
  for (size_t p = 0; p < model.panels.size(); ++p) {
    const Panel& panel = model.panels[p];
    const double phi = panel_flexibility(panel_geometry(model, panel), panel);
    energies.push_back(flows[p] * flows[p] * phi / 2);
  }
  for (const auto& [piece, list] : unit_flows(model)) {
    for (size_t i = 0; i < list.size(); ++i) {
      for (size_t j = 0; j < i; ++j) {
        const Contribution &a = list[i], &b = list[j];
        if (!is_one_sheet(model.panels[a.panel], model.panels[b.panel])) continue;
        // Each has its own slip already; together they have half of both and of what couples them.
        const double L = length_of(model, piece);
        const auto alone = [&](const Contribution& c) {
          const double flow = flow_along(model, c.load) * flows[c.panel];
          return flow * flow * L / (2 * model.panels[c.panel].joint);
        };
        const double coupled = row_coupling(model, a, b) * flows[a.panel] * flows[b.panel];
        const double even = (alone(b) - alone(a)) / 2;
        energies[a.panel] += coupled / 2 + even;
        energies[b.panel] += coupled / 2 - even;
      }
    }
  }
  return energies;
}

std::vector<PanelGroup> panel_groups(const Model& model) {
  const ByMember by_member = unit_flows(model);
  std::vector<PanelGroup> groups;
  std::vector<int> group_of(model.panels.size()), place_in(model.panels.size());
  for (std::vector<int>& panels : connected(model.panels.size(), by_member)) {
    for (size_t i = 0; i < panels.size(); ++i) {
      group_of[panels[i]] = static_cast<int>(groups.size());
      place_in[panels[i]] = static_cast<int>(i);
    }
    groups.push_back(group_of_sheets(model, std::move(panels)));
  }
  for (const auto& [piece, list] : by_member) {
    add_member(model, piece, list, place_in, groups[group_of[list.front().panel]]);
  }
  for (PanelGroup& group : groups) {
    if (group.panels.size() > largest_full_group) bound_by_diagonal(group.F);
  }
  return groups;
}

Eigen::MatrixXd group_stiffness(const PanelGroup& group) {
  return group.B * solve_symmetric(group.F, Eigen::MatrixXd(group.B.transpose()));
}

Eigen::VectorXd group_misfit(const Model& model, const PanelGroup& group,
                             const std::vector<BeamActions>& beams) {
  Eigen::VectorXd misfit = Eigen::VectorXd::Zero(group.F.rows());
  for (size_t i = 0; i < group.panels.size(); ++i) {
    for (const EdgeLoad& load : edge_loads(model, model.panels[group.panels[i]], 1, 0)) {
      if (!load.piece.is_beam || beams[load.piece.index].empty()) continue;
      misfit[static_cast<Eigen::Index>(i)] +=
          MemberFlexibility(model, load.piece).with(load, beams[load.piece.index]);
    }
  }
  return misfit;
}

void add_misfit_loads(const PanelGroup& group, const Eigen::VectorXd& misfit,
                      Eigen::VectorXd& loads) {
  if (misfit.isZero(0)) return;
  const Eigen::VectorXd f = group.B * solve_symmetric(group.F, misfit);
  for (size_t i = 0; i < group.nodes.size(); ++i) {
    loads.segment<6>(dofs_per_node * group.nodes[i]) +=
        f.segment<6>(dofs_per_node * static_cast<Eigen::Index>(i));
  }
}

Eigen::VectorXd group_flows(const PanelGroup& group, const Eigen::VectorXd& u,
                            const Eigen::VectorXd& misfit) {
  Eigen::VectorXd own(group.B.rows());
  for (size_t i = 0; i < group.nodes.size(); ++i) {
    own.segment<6>(dofs_per_node * static_cast<Eigen::Index>(i)) =
        u.segment<6>(dofs_per_node * group.nodes[i]);
  }
  return solve_symmetric(group.F, Eigen::VectorXd(group.B.transpose() * own - misfit));
}

}  // namespace tubewright
