// Shear panels: the flow that statics give, the flexibility, and frames with sheets on them.
//
// Reference numbers are in N and mm. Where nothing else is said the sheet has E 70 000, nu 0.33,
// G = E/(2 (1 + nu)) = 26 316 and is 1.2 thick; the tube is 25 x 25 x 1.6 steel, A = 149.8,
// I = 13 731, J = 20 501 (thin-walled), E = 210 000.
#include "solver/elements/shear_panel.h"

#include <Eigen/Cholesky>
#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>
#include <random>
#include <string>

#include "solver/model/section_shapes.h"
#include "tests/solver/model_builder.h"
#include "tests/truth.h"

namespace tubewright::shear_panel_test {

using namespace tubewright::test;

namespace {

constexpr Source garvey = rederived(
    "moments about each corner (S. J. Garvey, Aircraft Engineering 23, 1951, re-derived)");
constexpr Source pure_shear = rederived("rectangle in pure shear, closed form");
constexpr Source slip_formula = rederived(
    "1/(G t)_eff = 1/(G t) + (2 p/k_f)(1/a + 1/b), as c2.1 + c2.3 of stressed-skin design");
constexpr Source rays =
    rederived("closed form of the field of straight rays (as Garvey's, from memory), quadrature");
constexpr Source with_edges = rederived("A/(G t) + sum r2 L3/(12 E A), by hand");
constexpr Source shells = rederived("plane-stress finite elements on hinged tubes");
constexpr Source bredt = from_memory("R. Bredt's formulas, any textbook; worked by hand");
constexpr Source with_hoops = rederived("Bredt with the stretch of the end hoops, by hand");
constexpr Source one_diagonal = rederived("A = t L3/(2 (1 + nu) a b), energy by hand");

using Corners = std::array<Eigen::Vector3d, 4>;

constexpr double nu = 0.33, G_al = 70000 / (2 * (1 + nu)), sheet = 1.2;
constexpr double E_steel = 210000, G_steel = 81000;
const Section tube_mm = properties(149.8, 13731, 13731, 20501);

Corners flat(double x1, double y1, double x2, double y2, double x3, double y3, double x4,
             double y4) {
  return {Eigen::Vector3d(x1, y1, 0), {x2, y2, 0}, {x3, y3, 0}, {x4, y4, 0}};
}

Corners rectangle(double a, double b) { return flat(0, 0, a, 0, a, b, 0, b); }
const Corners trapezoid = flat(0, 0, 600, 0, 500, 400, 100, 400);
const Corners general_quad = flat(0, 0, 600, 50, 520, 450, 60, 380);

Corners parallelogram(double a, double b, double degrees) {
  const double s = b * std::tan(degrees * M_PI / 180);
  return flat(0, 0, a, 0, a + s, b, s, b);
}

void check_ratios(const char* panel, const Corners& corners, const std::array<double, 4>& expected,
                  double step) {
  const PanelGeometry g = panel_geometry(corners);
  for (int k = 0; k < 4; ++k)
    truth(named(panel, ": flow ratio of edge ", k + 1), garvey, g.flow_ratio[k],
          within_abs(expected[k], step));
}

/// A panel without a model, for panel_flexibility.
double flexibility(const Corners& corners, double Gt, double joint, double kept = 1) {
  Panel p;
  p.thickness = 1;
  p.G = Gt;
  p.joint = joint;
  p.secant_ratio = kept;
  return panel_flexibility(panel_geometry(corners), p);
}

/// Panels on members of their own, made piece by piece.
struct Clad : ModelBuilder {
  int stuff = 0;    ///< section of the members
  double EA = 1e6;  ///< of bars

  enum class Kind { beams, bars, mixed };

  /// Members from `from` to `to`, in `pieces`; mixed: bars and beams by turns, every third
  /// reversed.
  std::vector<EdgePiece> edge(int from, int to, int pieces = 1, Kind kind = Kind::beams) {
    std::vector<EdgePiece> list;
    const Eigen::Vector3d p = model.nodes[from], q = model.nodes[to];
    int last = from;
    for (int i = 1; i <= pieces; ++i) {
      const Eigen::Vector3d at = p + (q - p) * i / pieces;
      const int next = i == pieces ? to : node(at.x(), at.y(), at.z());
      const bool reversed = kind == Kind::mixed && i % 3 == 1;
      const bool is_bar = kind == Kind::bars || (kind == Kind::mixed && i % 2 == 0);
      const int a = reversed ? next : last, b = reversed ? last : next;
      list.push_back({!is_bar, is_bar ? bar(a, b, EA) : beam(a, b, stuff, 0.3 * i)});
      last = next;
    }
    return list;
  }

  int panel(const std::array<int, 4>& corners, const std::array<std::vector<EdgePiece>, 4>& edges,
            double t = sheet, double G = G_al) {
    Panel p;
    p.corners = corners;
    p.edges = edges;
    p.thickness = t;
    p.G = G;
    model.panels.push_back(p);
    return static_cast<int>(model.panels.size()) - 1;
  }

  int whole(const Corners& corners, int pieces = 1, Kind kind = Kind::beams) {
    std::array<int, 4> n;
    for (int k = 0; k < 4; ++k) n[k] = node(corners[k].x(), corners[k].y(), corners[k].z());
    std::array<std::vector<EdgePiece>, 4> edges;
    for (int k = 0; k < 4; ++k) edges[k] = edge(n[k], n[(k + 1) % 4], pieces, kind);
    return panel(n, edges);
  }
};

Section times(const Section& s, double axial, double bending) {
  return properties(s.A * axial, s.Iy * bending, s.Iz * bending, s.It * bending);
}

/// Displacements of a group's nodes under u = t + w x position.
Eigen::VectorXd rigid_motion(const Model& model, const std::vector<int>& nodes,
                             const Eigen::Vector3d& t, const Eigen::Vector3d& w) {
  Eigen::VectorXd u(6 * static_cast<Eigen::Index>(nodes.size()));
  for (size_t i = 0; i < nodes.size(); ++i) {
    u.segment<6>(6 * static_cast<Eigen::Index>(i)) << t + w.cross(model.nodes[nodes[i]]), w;
  }
  return u;
}

/// A convex quadrilateral, 0.3 to 0.9 m across, anywhere, warped by at most `warp` of its size.
Corners random_quad(std::mt19937& random, double warp) {
  std::uniform_real_distribution<double> u(-1, 1);
  std::normal_distribution<double> n;
  const Eigen::Matrix3d R = Eigen::Quaterniond(n(random), n(random), n(random), n(random))
                                .normalized()
                                .toRotationMatrix();
  const Eigen::Vector3d shift(u(random), u(random), u(random));
  Corners c;
  for (int k = 0; k < 4; ++k) {
    // On an ellipse, a quarter turn apart give or take 30 degrees: always convex.
    const double angle = (k + u(random) / 3) * M_PI / 2;
    c[k] = R * Eigen::Vector3d(0.45 * std::cos(angle), 0.25 * std::sin(angle),
                               0.5 * warp * u(random)) +
           shift;
  }
  return c;
}

/// Force and moment about the origin of loads on members and nodes, and the size of their parts.
struct Resultant {
  Eigen::Vector3d force = Eigen::Vector3d::Zero(), moment = Eigen::Vector3d::Zero();
  double size = 0;
};

Resultant resultant(const Model& model, const std::vector<EdgeLoad>& loads) {
  std::vector<BeamActions> beams(model.beams.size());
  Eigen::VectorXd nodal = Eigen::VectorXd::Zero(dof_count(model));
  add_edge_loads(model, loads, beams, nodal);
  Resultant r;
  const auto add = [&](const Eigen::Vector3d& at, const Eigen::Vector3d& F,
                       const Eigen::Vector3d& M) {
    r.force += F;
    r.moment += M + at.cross(F);
    r.size = std::max(r.size, F.norm());
  };
  for (size_t i = 0; i < beams.size(); ++i) {
    const Eigen::Vector3d& p = model.nodes[model.beams[i].from];
    const Eigen::Vector3d& q = model.nodes[model.beams[i].to];
    const double L = (q - p).norm();
    add((p + q) / 2, L * beams[i].line, L * beams[i].couple);
  }
  for (size_t n = 0; n < model.nodes.size(); ++n) {
    const auto at = static_cast<Eigen::Index>(6 * n);
    add(model.nodes[n], nodal.segment<3>(at), nodal.segment<3>(at + 3));
  }
  return r;
}

// ---- A box frame of two bays, welded, clad on its floor, in one sheet, one side and one end; SI
// units.

struct Options {
  double joint = 2e8;     ///< N/m per metre: rivets of 10 kN/mm at 50 mm
  double carry_over = 1;  ///< of the floor, one sheet over both bays; 0: a sheet a bay
  double offset = 0.013;
  int pieces = 1;
  bool clad = true;
  bool bars = false;     ///< links along two edges of the floor instead of tubes
  bool springs = false;  ///< flexible joints at the ends of the tubes
  Eigen::Matrix3d turn = Eigen::Matrix3d::Identity();
  Eigen::Vector3d shift = Eigen::Vector3d::Zero();
};

struct Box : Clad {
  int first_inner = 0;  ///< nodes from here on cut edges

  explicit Box(const Options& o = {}) {
    EA = 210e9 * 1.5e-4;
    stuff = section(hollow_rectangle(0.025, 0.025, 0.0016, cold_formed_corners(0.0016), 0.3), 210e9,
                    81e9);
    // Floor and side are flat but no rectangles; node 4 i + 2 j + k.
    const double skew[3] = {0.03, -0.05, 0.04};
    for (int i = 0; i < 3; ++i) {
      for (int j = 0; j < 2; ++j) {
        for (int k = 0; k < 2; ++k) {
          const Eigen::Vector3d p(0.6 * i + (j + k) * skew[i], 0.45 * j + 0.02 * i * j,
                                  0.35 * k + 0.03 * i * k);
          model.nodes.emplace_back(o.turn * p + o.shift);
        }
      }
    }
    first_inner = 12;
    std::map<std::pair<int, int>, std::vector<EdgePiece>> edges;
    const auto join = [&](int a, int b) {
      const bool link = o.bars && ((a == 0 && b == 4) || (a == 4 && b == 6));
      edges[{a, b}] = edge(a, b, o.pieces, link ? Kind::bars : Kind::beams);
      if (!o.springs || link) return;
      // Alike about both cross axes, so that the members' roll does not matter.
      model.beams[edges[{a, b}].front().index].connection_from = {2e7, 5e6, 5e6, 3e3, 2e3, 2e3};
      model.beams[edges[{a, b}].back().index].connection_to = {rigid, rigid, rigid, 4e3, 1e4, 1e4};
    };
    for (int i = 0; i < 3; ++i) {
      const int n = 4 * i;
      join(n, n + 1);
      join(n, n + 2);
      join(n + 1, n + 3);
      join(n + 2, n + 3);
      if (i == 2) continue;
      for (int c = 0; c < 4; ++c) join(n + c, n + 4 + c);
    }
    const auto clad = [&](const std::array<int, 4>& c, double t) {
      std::array<std::vector<EdgePiece>, 4> e;
      for (int k = 0; k < 4; ++k) e[k] = edges.at(std::minmax(c[k], c[(k + 1) % 4]));
      Panel& p = model.panels[panel(c, e, t, 26.3e9)];
      p.joint = o.joint;
      p.offset = o.offset;
      p.carry_over = o.carry_over;
    };
    if (o.clad) {
      clad({0, 4, 6, 2}, 0.0012);
      clad({4, 8, 10, 6}, 0.0012);
      clad({1, 5, 4, 0}, 0.0009);
      clad({8, 9, 11, 10}, 0.0015);
      if (o.carry_over > 0) model.panels[0].piece = model.panels[1].piece = 7;
    }
    for (const int n : {0, 1, 2}) fix(n);
  }

  Actions loaded(unsigned seed, const Eigen::Matrix3d& turn = Eigen::Matrix3d::Identity()) const {
    std::mt19937 random(seed);
    std::uniform_real_distribution<double> u(-1, 1);
    const auto vector = [&](double size) -> Eigen::Vector3d {
      const double a = u(random), b = u(random), c = u(random);
      return size * (turn * Eigen::Vector3d(a, b, c));
    };
    Actions a = actions();
    for (int n = 3; n < 12; ++n) {
      a.nodal.segment<3>(6 * n) = vector(500);
      a.nodal.segment<3>(6 * n + 3) = vector(30);
    }
    return a;
  }
};

void check_balance(const StaticSolution& s) {
  CHECK(s.residual.force < 1e-10);
  CHECK(s.residual.moment < 1e-10);
  CHECK(s.equilibrium.force < 1e-10);
  CHECK(s.equilibrium.moment < 1e-10);
}

}  // namespace

TEST_CASE("flow ratios of a rectangle, a trapezoid and a general quadrilateral", "[truth]") {
  // Derived: moments about each corner, S. J. Garvey's ratios (1951). Printed to four places.
  check_ratios("rectangle", rectangle(600, 400), {1, 1, 1, 1}, 1e-12);
  check_ratios("parallelogram", parallelogram(600, 400, 20), {1, 1, 1, 1}, 1e-12);
  check_ratios("trapezoid", trapezoid, {0.6667, 1, 1.5, 1}, 0.00005);
  check_ratios("general quadrilateral", general_quad, {0.7676, 0.9109, 1.3028, 1.0978}, 0.00005);
  truth("general quadrilateral: area, mm2", garvey, panel_geometry(general_quad).area,
        within_rel(207300, 1e-12));
}

TEST_CASE("flexibility and stiffness of a rectangle in pure shear", "[truth]") {
  // Derived: phi = A/(G t) = 7.600 mm3/N, K11 = G t a/(4 b) = 11 842 N/mm, gamma = 1e-3 stores
  // 3789.5 N mm at 31.58 N/mm. The tubes are 1e9 times stiffer, so that they give nothing.
  truth("600 x 400 x 1.2: flexibility A/(G t), mm3/N", pure_shear,
        flexibility(rectangle(600, 400), G_al * sheet, rigid), within_abs(7.600, 0.0005));
  Clad f;
  f.stuff = f.section(times(tube_mm, 1e9, 1e9), E_steel, G_steel);
  f.whole(rectangle(600, 400));
  const std::vector<PanelGroup> groups = panel_groups(f.model);
  REQUIRE(groups.size() == 1);
  const Eigen::MatrixXd K = group_stiffness(groups[0]);
  truth("600 x 400 x 1.2: stiffness K11, N/mm", pure_shear, K(0, 0), within_abs(11842, 0.5));
  Eigen::VectorXd u = Eigen::VectorXd::Zero(24);
  const double gamma = 1e-3;
  for (const int n : {2, 3}) u[6 * n + x] = gamma * 400;
  truth("600 x 400 x 1.2 at gamma 0.001: energy, N mm", pure_shear, u.dot(K * u) / 2,
        within_abs(3789.5, 0.05));
  const Eigen::VectorXd flows = group_flows(groups[0], u, Eigen::VectorXd::Zero(1));
  truth("600 x 400 x 1.2 at gamma 0.001: flow, N/mm", pure_shear, flows[0],
        within_abs(-31.58, 0.005));  // opens corners 2 and 4
}

TEST_CASE("slip of the joint softens a sheet as the formula for rectangles has it", "[truth]") {
  struct Row {
    double a, b, t, pitch, rivet, whole, left;
  };
  // Derived: 1/(G t)_eff = 1/(G t) + (2 p/k_f)(1/a + 1/b); the same as the components c2.1 + c2.3
  // of stressed-skin design. N/mm, whole numbers printed.
  for (const Row& row :
       {Row{600, 400, 1.2, 50, 3300, 31579, 6332}, Row{600, 400, 1.2, 50, 10000, 31579, 13636},
        Row{600, 400, 1.2, 50, 30000, 31579, 21951}, Row{600, 400, 1.2, 100, 10000, 31579, 8696},
        Row{900, 600, 1.0, 50, 10000, 26316, 15203}, Row{500, 500, 1.5, 25, 30000, 39474, 31250}}) {
    const std::string riveted = named(row.a, " x ", row.b, " x ", row.t, ", rivets of ", row.rivet,
                                      " N/mm at ", row.pitch, " mm");
    const double Gt = G_al * row.t, area = row.a * row.b;
    const Corners c = rectangle(row.a, row.b);
    truth(named(riveted, ": G t, N/mm"), pure_shear, area / flexibility(c, Gt, rigid),
          within_abs(row.whole, 0.51));
    truth(named(riveted, ": G t left by the slip, N/mm"), slip_formula,
          area / flexibility(c, Gt, row.rivet / row.pitch), within_abs(row.left, 0.51));
  }
}

TEST_CASE("share of the sheet's stiffness that bonds and rivets keep", "[truth]") {
  // Derived, 600 x 400 x 1.2: structural epoxy 10 260 N/mm2 keeps 0.975, ... elastic polyurethane
  // 10.0 and 6.7 keep 0.037 and 0.025, rivets of 10 kN/mm at 25 and 50 mm 0.603 and 0.432.
  const std::array<std::array<double, 2>, 9> rows = {{{10260, 0.975},
                                                      {7253, 0.965},
                                                      {3922, 0.937},
                                                      {1439, 0.845},
                                                      {453, 0.633},
                                                      {10.0, 0.037},
                                                      {20.0 / 3, 0.025},
                                                      {400, 0.603},
                                                      {200, 0.432}}};
  for (const auto& [joint, share] : rows) {
    const Corners c = rectangle(600, 400);
    const double ratio = flexibility(c, G_al * sheet, rigid) / flexibility(c, G_al * sheet, joint);
    truth(named("600 x 400 x 1.2, joint of ", joint, " N/mm2: share of G t kept"), slip_formula,
          ratio, within_abs(share, 0.00051));
  }
}

TEST_CASE("a buckled sheet loses stiffness of its own, not of its joint") {
  const Corners c = general_quad;
  const double Gt = G_al * sheet, whole = flexibility(c, Gt, rigid);
  const double slip = flexibility(c, Gt, 200) - whole;
  CHECK_THAT(flexibility(c, Gt, 200, 0.7), WithinRel(whole / 0.7 + slip, 1e-12));
}

TEST_CASE("joint slip of a general quadrilateral goes with the square of each edge's flow") {
  // Derived: sum r_k^2 L_k/kappa.
  const PanelGeometry g = panel_geometry(general_quad);
  double sum = 0;
  const std::array<double, 4> r = {0.7676, 0.9109, 1.3028, 1.0978};  // as printed above
  for (int k = 0; k < 4; ++k) {
    sum += r[k] * r[k] * (general_quad[(k + 1) % 4] - general_quad[k]).norm() / 200;
  }
  const double phi = flexibility(general_quad, G_al * sheet, 200);
  CHECK_THAT(phi - g.area / (G_al * sheet), WithinRel(sum, 1e-4));
}

TEST_CASE("the field of straight rays: closed forms for parallelograms and trapezoids", "[truth]") {
  // Derived; the expressions agree with Garvey's (from memory): parallelogram at angle a:
  // 1 + 2 tan^2 a/(1 + nu); trapezoid: 1 + 2/(3 (1 + nu)) (tan^2 a1 + tan a1 tan a2 + tan^2 a2).
  CHECK_THAT(ray_field_ratio(rectangle(600, 400), nu), WithinRel(1, 1e-10));
  truth("parallelogram of 20 degrees: flexibility over A/(G t)", rays,
        ray_field_ratio(parallelogram(600, 400, 20), nu), within_abs(1.19921, 0.000005));
  truth("trapezoid: flexibility over A/(G t)", rays, ray_field_ratio(trapezoid, nu),
        within_abs(1.03133, 0.000005));
  const Corners right = flat(0, 0, 600, 0, 300, 500, 0, 500);
  truth("right trapezoid: flexibility over A/(G t)", rays, ray_field_ratio(right, nu),
        within_abs(1.18045, 0.000005));
  truth("general quadrilateral: flexibility over A/(G t)", rays, ray_field_ratio(general_quad, nu),
        within_abs(1.03618, 0.000005));
  for (const double degrees : {-35.0, -10.0, 5.0, 30.0}) {
    const double tangent = std::tan(degrees * M_PI / 180);
    CHECK_THAT(ray_field_ratio(parallelogram(300, 500, degrees), nu),
               WithinRel(1 + 2 * tangent * tangent / (1 + nu), 1e-9));
  }
}

TEST_CASE("the field of straight rays is never stiffer, wherever and however large the panel is") {
  std::mt19937 random(11);
  for (int i = 0; i < 40; ++i) {
    Corners c = random_quad(random, 0);
    const double ratio = ray_field_ratio(c, nu);
    CHECK(ratio >= 1 - 1e-9);
    std::rotate(c.begin(), c.begin() + 1 + i % 3, c.end());
    for (Eigen::Vector3d& p : c) p = 1000 * p + Eigen::Vector3d(5, -7, 9);
    // Five Gauss points a side leave a few 1e-6 on panels as skew and tapered as these.
    CHECK_THAT(ray_field_ratio(c, nu), WithinRel(ratio, 1e-4));
  }
}

TEST_CASE("what the edge tubes give way adds to a panel and couples it to its neighbour",
          "[truth]") {
  // Derived: phi + sum r^2 L^3/(12 E A) = 7.600 + 2 (0.572 + 0.170) = 9.084; two panels in a strip
  // share a tube of 400: -0.170. (The sum is of rounded parts, hence 0.001.)
  Clad one;
  one.stuff = one.section(tube_mm, E_steel, G_steel);
  one.whole(rectangle(600, 400));
  truth("600 x 400 x 1.2 on tubes 25 x 1.6: flexibility, mm3/N", with_edges,
        panel_groups(one.model)[0].F(0, 0), within_abs(9.084, 0.001));

  Clad two;
  two.stuff = two.section(tube_mm, E_steel, G_steel);
  for (const double at : {0.0, 600.0, 1200.0}) {
    two.node(at, 0, 0);
    two.node(at, 400, 0);
  }
  const auto shared = two.edge(2, 3);
  two.panel({0, 2, 3, 1}, {two.edge(0, 2), shared, two.edge(3, 1), two.edge(1, 0)});
  two.panel({2, 4, 5, 3}, {two.edge(2, 4), two.edge(4, 5), two.edge(5, 3), shared});
  const std::vector<PanelGroup> groups = panel_groups(two.model);
  REQUIRE(groups.size() == 1);
  REQUIRE(groups[0].panels == std::vector<int>{0, 1});
  const Eigen::MatrixXd& F = groups[0].F;
  for (int i = 0; i < 2; ++i) CHECK_THAT(F(i, i), WithinAbs(9.084, 0.001));
  for (int i = 0; i < 2; ++i)
    truth(named("two panels in a strip: coupling ", i + 1, ", mm3/N"), with_edges, F(i, 1 - i),
          within_abs(-0.170, 0.0005));
  // As finite elements have it (derived, plane stress on hinged tubes): 8.935 and -0.135; stress
  // assumed, hence softer, by up to 2 %.
  truth("two panels in a strip: flexibility, mm3/N", shells, F(0, 0), not_below(8.935, 1.02));
}

TEST_CASE("an edge tube free to slide at one end gives way four times as much") {
  // A rod under an even load along it: L^3/(12 E A) held at both ends, L^3/(3 E A) at one (any
  // textbook); springs c at both ends add L^2/(2 c).
  const auto added = [](const EndConnection& from, const EndConnection& to) {
    Clad f;
    f.stuff = f.section(tube_mm, E_steel, G_steel);
    f.whole(rectangle(600, 400));
    f.model.beams[0].connection_from = from;
    f.model.beams[0].connection_to = to;
    return panel_groups(f.model)[0].F(0, 0);
  };
  const double L = 600, EA = E_steel * tube_mm.A, held = added(welded, welded);
  EndConnection slides = welded, spring = welded;
  slides[0] = 0;
  spring[0] = 1e5;
  CHECK_THAT(added(welded, slides) - held, WithinRel(L * L * L / EA * (1.0 / 3 - 1.0 / 12), 1e-9));
  CHECK_THAT(added(slides, welded) - held, WithinRel(L * L * L / EA * (1.0 / 3 - 1.0 / 12), 1e-9));
  CHECK_THAT(added(spring, spring) - held, WithinRel(L * L / (2 * 1e5), 1e-9));
}

TEST_CASE("a sheet off the axes pushes its members where it lies") {
  // Corners anticlockwise in x and y: the normal is z. A positive flow runs along +x on the
  // sheet's first edge, so along -x on the member, 20 mm above its axis: z cross -x is a couple -y.
  // A pull draws the first edge inward (+y): couple -x.
  Clad f;
  f.stuff = f.section(tube_mm, E_steel, G_steel);
  f.whole(rectangle(600, 400));
  f.model.panels[0].offset = 20;
  const EdgeLoad flow = edge_loads(f.model, f.model.panels[0], 3, 0)[0];
  CHECK((flow.line - Eigen::Vector3d(-3, 0, 0)).norm() < 1e-12);
  CHECK((flow.couple - Eigen::Vector3d(0, -60, 0)).norm() < 1e-12);
  const EdgeLoad pull = edge_loads(f.model, f.model.panels[0], 0, 5)[0];
  CHECK((pull.line - Eigen::Vector3d(0, 5, 0)).norm() < 1e-12);
  CHECK((pull.couple - Eigen::Vector3d(-100, 0, 0)).norm() < 1e-12);
}

TEST_CASE("in a group too large to keep whole the coupling is bounded from the soft side",
          "[truth]") {
  // Strip of equal panels, 260 and 5 long: 7.600 + 2 (0.572 + 0.170), and beside it the rows' other
  // entries, 0.170 for each neighbour, never less than the full matrix (Gershgorin's circles).
  const auto strip = [](int panels) {
    Clad f;
    f.stuff = f.section(tube_mm, E_steel, G_steel);
    for (int i = 0; i <= panels; ++i) {
      f.node(600 * i, 0, 0);
      f.node(600 * i, 400, 0);
    }
    auto last = f.edge(0, 1);
    for (int i = 0; i < panels; ++i) {
      const int n = 2 * i;
      const auto next = f.edge(n + 2, n + 3);
      f.panel({n, n + 2, n + 3, n + 1}, {f.edge(n, n + 2), next, f.edge(n + 3, n + 1), last});
      last = next;
    }
    return panel_groups(f.model);
  };
  const auto small = strip(5), large = strip(260);
  REQUIRE(small.size() == 1);
  REQUIRE(large.size() == 1);
  const Eigen::MatrixXd &F = small[0].F, &D = large[0].F;
  truth("strip of five panels: coupling, mm3/N", with_edges, F(2, 3), within_abs(-0.170, 0.0005));
  CHECK(D.isDiagonal(0));
  CHECK_THAT(D(0, 0), WithinAbs(F(0, 0) + 0.170, 0.0005));
  CHECK_THAT(D(130, 130), WithinAbs(F(2, 2) + 2 * 0.170, 0.001));
}

TEST_CASE("bars as edges give way as tubes do") {
  Clad f;
  f.EA = E_steel * tube_mm.A;
  f.whole(rectangle(600, 400), 1, Clad::Kind::bars);
  CHECK_THAT(panel_groups(f.model)[0].F(0, 0), WithinAbs(9.084, 0.001));
}

TEST_CASE("a panel's forces on its members balance, and no rigid motion makes it flow") {
  const unsigned seed = GENERATE(range(1u, 41u));
  std::mt19937 random(seed);
  const double warp = seed % 2 == 0 ? 0.02 : 0;
  const int pieces = 1 + static_cast<int>(seed % 4);
  const auto kind = static_cast<Clad::Kind>(seed % 3);
  Clad f;
  f.stuff =
      f.section(hollow_rectangle(0.03, 0.02, 0.002, cold_formed_corners(0.002), 0.3), 210e9, 81e9);
  f.EA = 3e7;
  f.whole(random_quad(random, warp), pieces, kind);
  f.model.panels[0].offset = seed % 5 == 0 ? 0 : 0.02;
  f.model.panels[0].joint = 2e8;
  INFO("seed " << seed);

  const Resultant r = resultant(f.model, edge_loads(f.model, f.model.panels[0], 1000, 0));
  CHECK(r.size > 10);
  CHECK(r.force.norm() < 1e-12 * r.size);
  CHECK(r.moment.norm() < 1e-11 * r.size);  // metres: lever arms of up to 3

  const std::vector<PanelGroup> groups = panel_groups(f.model);
  REQUIRE(groups.size() == 1);
  const PanelGroup& group = groups[0];
  const double size = group.B.cwiseAbs().maxCoeff();
  std::uniform_real_distribution<double> u(-1, 1);
  for (int i = 0; i < 6; ++i) {
    Eigen::Vector3d t = Eigen::Vector3d::Zero(), w = t;
    (i < 3 ? t : w)[i % 3] = 1;
    const Eigen::VectorXd motion = rigid_motion(f.model, group.nodes, t, w);
    CHECK(std::abs(group.B.col(0).dot(motion)) < 1e-11 * size);
  }
  Eigen::VectorXd shear = Eigen::VectorXd::Zero(group.B.rows());
  for (Eigen::Index i = 0; i < shear.size(); ++i) shear[i] = u(random);
  const Eigen::VectorXd force = group_stiffness(group) * shear;
  CHECK(force.norm() > 0);
  CHECK(shear.dot(force) > 0);
}

TEST_CASE("the even pull of a buckled sheet balances on beams, at an offset too") {
  const unsigned seed = GENERATE(range(1u, 13u));
  std::mt19937 random(seed);
  Clad f;
  f.stuff = f.section(tube_mm, E_steel, G_steel);
  f.whole(random_quad(random, seed % 2 == 0 ? 0.02 : 0), 1 + static_cast<int>(seed % 3));
  f.model.panels[0].offset = 0.02;
  const Resultant r = resultant(f.model, edge_loads(f.model, f.model.panels[0], 300, 1000));
  INFO("seed " << seed);
  CHECK(r.size > 10);
  CHECK(r.force.norm() < 1e-12 * r.size);
  CHECK(r.moment.norm() < 1e-11 * r.size);
}

TEST_CASE("the pull balances on links as well, and draws the edges inward") {
  std::mt19937 random(5);
  Clad f;
  f.whole(random_quad(random, 0), 2, Clad::Kind::bars);
  const Model& m = f.model;
  const std::vector<EdgeLoad> loads = edge_loads(m, m.panels[0], 0, 1000);
  const Resultant r = resultant(m, loads);
  CHECK(r.force.norm() < 1e-12 * r.size);
  CHECK(r.moment.norm() < 1e-11 * r.size);
  Eigen::Vector3d middle = Eigen::Vector3d::Zero();
  for (const int c : m.panels[0].corners) middle += m.nodes[c] / 4;
  for (const EdgeLoad& load : loads) {
    const Bar& bar = m.bars[load.piece.index];
    CHECK(load.line.dot(middle - (m.nodes[bar.from] + m.nodes[bar.to]) / 2) > 0);
    CHECK_THAT(load.line.norm(), WithinRel(1000, 1e-12));
  }
}

TEST_CASE("joints, supports and the whole frame balance with sheets, pulls and settlements") {
  const bool bars = GENERATE(false, true);
  const double offset = GENERATE(0.0, 0.013);
  const int pieces = GENERATE(1, 3);
  if (bars && pieces > 1) return;  // a chain of links would fold
  Options o;
  o.offset = offset;
  o.pieces = pieces;
  o.bars = bars;
  const Box f(o);
  Actions a = f.loaded(3);
  a.tension_fields = {900, 0, -200, 1500};
  a.prescribed.segment<3>(6 * 1) << 1e-3, -5e-4, 2e-4;
  a.prescribed[6 * 2 + rx] = 2e-3;
  INFO("links " << bars << ", offset " << offset << ", pieces " << pieces);
  const StaticSolution s = f.solve(a);
  check_balance(s);
  CHECK(*std::max_element(s.panel_flows.begin(), s.panel_flows.end()) > 100);
}

TEST_CASE("cutting edge tubes in several pieces changes nothing") {
  // The flexibility is exact for members under uniform loads, so a joint in the middle of a tube
  // only divides the same answer otherwise.
  const double offset = GENERATE(0.0, 0.013);
  Options whole, cut;
  whole.offset = cut.offset = offset;
  const int pieces = GENERATE(2, 3);
  cut.pieces = pieces;
  whole.springs = cut.springs = GENERATE(false, true);
  const Box f(whole), g(cut);
  Actions a = f.loaded(5), b = g.loaded(5);
  a.tension_fields = b.tension_fields = {700, 0, 300, 0};
  const StaticSolution p = f.solve(a), q = g.solve(b);
  INFO("offset " << offset << ", pieces " << pieces << ", springs " << cut.springs);
  check_balance(p);
  check_balance(q);
  const double size = p.displacements.lpNorm<Eigen::Infinity>();
  CHECK((p.displacements - q.displacements.head(p.displacements.size())).norm() < 1e-8 * size);
  for (size_t i = 0; i < 4; ++i) {
    CHECK_THAT(q.panel_flows[i], WithinRel(p.panel_flows[i], 1e-7));
  }
}

TEST_CASE("a load along a clad tube acts on the sheet too: cut in pieces or not, the same") {
  Options whole, cut;
  whole.offset = cut.offset = 0.013;
  whole.springs = cut.springs = GENERATE(false, true);
  cut.pieces = 2;
  const Box f(whole), g(cut);
  Actions a = no_actions(f.model), b = no_actions(g.model);
  const Eigen::Vector3d line(900, -200, 400), couple(3, 5, -2), force(800, 300, -500),
      moment(9, -4, 6);
  const auto& long_piece = f.model.panels[0].edges[0];
  const auto& short_pieces = g.model.panels[0].edges[0];
  REQUIRE(long_piece.size() == 1);
  REQUIRE(short_pieces.size() == 2);
  a.beams[static_cast<size_t>(long_piece[0].index)] = {line, {{0.25, force, moment}}, couple};
  for (const EdgePiece& piece : short_pieces) {
    b.beams[static_cast<size_t>(piece.index)] = {line, {}, couple};
  }
  b.beams[static_cast<size_t>(short_pieces[0].index)].points.push_back({0.5, force, moment});
  const StaticSolution p = f.solve(a), q = g.solve(b);
  check_balance(p);
  check_balance(q);
  CHECK((p.displacements - q.displacements.head(p.displacements.size())).norm() <
        1e-8 * p.displacements.norm());
  for (size_t i = 0; i < 4; ++i) {
    CHECK_THAT(q.panel_flows[i], WithinRel(p.panel_flows[i], 1e-7));
  }

  // Betti: its work on the displacements of joint loads, and theirs on its own.
  const Actions joints = f.loaded(2);
  const StaticSolution r = f.solve(joints);
  const BeamState& beam = r.beams[static_cast<size_t>(long_piece[0].index)];
  double work = force.dot(beam_displacement(beam, 0.25).displacement) +
                moment.dot(beam_displacement(beam, 0.25).rotation);
  constexpr int pieces = 64;  // Simpson on polynomials of the fourth degree at most
  for (int i = 0; i <= 2 * pieces; ++i) {
    const double weight = (i == 0 || i == 2 * pieces) ? 1 : (i % 2 == 1 ? 4 : 2);
    const BeamDisplacement u = beam_displacement(beam, i / (2.0 * pieces));
    work += weight / (6 * pieces) * beam.element.L *
            (line.dot(u.displacement) + couple.dot(u.rotation));
  }
  CHECK_THAT(joints.nodal.dot(p.displacements), WithinRel(work, 1e-7));
}

TEST_CASE("a reversed edge tube changes nothing") {
  const Box f;
  Box g;
  for (size_t i = 0; i < g.model.beams.size(); i += 2) {
    std::swap(g.model.beams[i].from, g.model.beams[i].to);
  }
  const StaticSolution p = f.solve(f.loaded(5)), q = g.solve(g.loaded(5));
  CHECK((p.displacements - q.displacements).norm() < 1e-9 * p.displacements.norm());
}

TEST_CASE("the corner that a panel starts from, and its sense, change nothing") {
  const Box f;
  Box g;
  for (Panel& p : g.model.panels) {
    std::rotate(p.corners.begin(), p.corners.begin() + 1, p.corners.end());
    std::rotate(p.edges.begin(), p.edges.begin() + 1, p.edges.end());
  }
  Panel& p = g.model.panels[1];
  std::swap(p.corners[1], p.corners[3]);
  std::reverse(p.edges.begin(), p.edges.end());
  p.offset = -p.offset;  // seen from the other side
  const StaticSolution a = f.solve(f.loaded(5)), b = g.solve(g.loaded(5));
  CHECK((a.displacements - b.displacements).norm() < 1e-9 * a.displacements.norm());
  for (size_t i = 0; i < 4; ++i) {
    CHECK_THAT(std::abs(b.panel_flows[i]), WithinRel(std::abs(a.panel_flows[i]), 1e-8));
  }
}

TEST_CASE("a frame never gets softer when a joint, a sheet or its buckled share gets stiffer") {
  // Compliance: the work of the loads; positive semi-definite additions to K can only lower it.
  const unsigned seed = GENERATE(1u, 2u, 3u);
  Options o;
  o.clad = false;
  const Box bare(o);
  const Actions loads = bare.loaded(seed);
  double before = loads.nodal.dot(bare.solve(loads).displacements);
  o.clad = true;
  const double bare_work = before;
  for (const double joint : {1e4, 1e6, 1e7, 1e8, 1e9, 1e10, rigid}) {
    o.joint = joint;
    const Box f(o);
    const double work = loads.nodal.dot(f.solve(f.loaded(seed)).displacements);
    INFO("joint " << joint);
    CHECK(work <= before * (1 + 1e-10));
    before = work;
  }
  CHECK(before < 0.9 * bare_work);  // and does get stiffer in all
  Box kept(o);
  double work_before = bare_work;
  for (const double share : {0.1, 0.5, 0.8, 1.0}) {
    kept.model.panels[0].secant_ratio = kept.model.panels[1].secant_ratio = share;
    const double work = loads.nodal.dot(kept.solve(kept.loaded(seed)).displacements);
    CHECK(work <= work_before * (1 + 1e-10));
    work_before = work;
  }
}

TEST_CASE("a joint as soft as nothing leaves the bare frame") {
  Options o;
  o.clad = false;
  const Box bare(o);
  o.clad = true;
  o.joint = 1e-3;  // N/m per metre, against 1e8
  const Box f(o);
  const StaticSolution a = bare.solve(bare.loaded(4)), b = f.solve(f.loaded(4));
  CHECK((a.displacements - b.displacements).norm() < 1e-8 * a.displacements.norm());
}

TEST_CASE("work of one load case on another's displacements is the same both ways, with sheets") {
  const Box f;
  const Actions a = f.loaded(1), b = f.loaded(2);
  const StaticSolution p = f.solve(a), q = f.solve(b);
  CHECK_THAT(a.nodal.dot(q.displacements), WithinRel(b.nodal.dot(p.displacements), 1e-9));
}

TEST_CASE("turning and shifting a clad frame turns its answer") {
  const unsigned seed = GENERATE(1u, 2u, 3u);
  std::mt19937 random(100 + seed);
  std::normal_distribution<double> n;
  Options o;
  o.turn = Eigen::Quaterniond(n(random), n(random), n(random), n(random))
               .normalized()
               .toRotationMatrix();
  o.shift = {3, -5, 7};
  const Box plain, turned(o);
  Actions a = plain.loaded(seed), b = turned.loaded(seed, o.turn);
  a.tension_fields = b.tension_fields = {700, 0, 300, -100};
  const StaticSolution p = plain.solve(a), q = turned.solve(b);
  double worst = 0;
  for (Eigen::Index i = 0; i < p.displacements.size(); i += 3) {
    worst = std::max(
        worst, (o.turn * p.displacements.segment<3>(i) - q.displacements.segment<3>(i)).norm());
  }
  CHECK(worst < 1e-8 * p.displacements.norm());
  for (size_t i = 0; i < 4; ++i) {
    CHECK_THAT(q.panel_flows[i], WithinRel(p.panel_flows[i], 1e-7));
  }
}

TEST_CASE("the work of the loads is twice the energy of members, links and sheets (Clapeyron)") {
  const bool bars = GENERATE(false, true);
  Options o;
  o.bars = bars;
  o.carry_over = GENERATE(0.0, 0.4, 1.0);
  o.pieces = bars ? 1 : GENERATE(1, 3);
  const Box f(o);
  const Actions a = f.loaded(6);
  const StaticSolution s = f.solve(a);
  double members = 0, links = 0, sheets = 0;
  for (const BeamState& beam : s.beams) {  // forces linear between nodes: Simpson is exact
    const double L = beam.element.L;
    const Section& c = beam.element.section;
    for (const auto& [where, weight] : {std::pair{0.0, 1.0}, {0.5, 4.0}, {1.0, 1.0}}) {
      const SectionForces F = section_forces(beam, where);
      members +=
          weight * L / 12 *
          (F.N * F.N / (210e9 * c.A) + F.My * F.My / (210e9 * c.Iy) + F.Mz * F.Mz / (210e9 * c.Iz) +
           F.T * F.T / (81e9 * c.It) + F.Vy * F.Vy / (81e9 * c.Ay) + F.Vz * F.Vz / (81e9 * c.Az));
    }
  }
  for (size_t i = 0; i < s.bar_forces.size(); ++i) {
    const Bar& bar = f.model.bars[i];
    const Eigen::Vector3d along = f.model.nodes[bar.to] - f.model.nodes[bar.from];
    const double swing = s.bar_lines[i].dot(along);  // N runs linearly about its mean
    links += (s.bar_forces[i] * s.bar_forces[i] + swing * swing / 12) / (2 * bar.stiffness);
  }
  for (const double energy : panel_energies(f.model, s.panel_flows)) {
    CHECK(energy > 0);
    sheets += energy;
  }
  CHECK(sheets > 0.01 * members);
  CHECK((links > 0) == bars);
  CHECK_THAT(a.nodal.dot(s.displacements) / 2, WithinRel(members + links + sheets, 1e-9));
}

TEST_CASE("one diagonal of 704.8 mm2 in a pin-jointed square of links stores the sheet's energy",
          "[truth]") {
  // Derived: A = t L^3/(2 (1 + nu) a b), L = 721.1; 3789.47 N mm at gamma = 1e-3 both ways.
  const double a = 600, b = 400, gamma = 1e-3, L = std::hypot(a, b);
  const double A = sheet * L * L * L / (2 * (1 + nu) * a * b);
  CHECK_THAT(L, WithinAbs(721.1, 0.05));
  truth("diagonal as stiff as 600 x 400 x 1.2: area, mm2", one_diagonal, A,
        within_abs(704.8, 0.05));
  const auto energy = [&](bool diagonal) {
    Clad f;
    f.EA = 1e15;  // of the frame, against 5e7 of the diagonal
    f.whole(rectangle(a, b), 1, Clad::Kind::bars);
    if (diagonal) {
      f.model.panels.clear();
      f.bar(0, 2, 70000 * A);
    }
    f.keep_plane_xy();
    for (int n = 0; n < 4; ++n) f.hold(n, {x, y, rz});
    Actions actions = f.actions();
    for (const int n : {2, 3}) actions.prescribed[6 * n + x] = gamma * b;
    const StaticSolution s = f.solve(actions);
    return s.reactions.dot(s.displacements) / 2;
  };
  truth("600 x 400 with that diagonal at gamma 0.001: energy, N mm", one_diagonal, energy(true),
        within_abs(3789.47, 0.01));
  CHECK_THAT(energy(false), WithinRel(energy(true), 1e-6));
}

namespace {

/// A closed box of sheets, w by h by L, in bays, on tubes along all edges and rings; N and mm.
struct TorqueTube : Clad {
  double w = 700, h = 350, L = 1800;
  std::vector<std::array<int, 4>> rings;

  TorqueTube(const Section& tube, int bays, double joint, bool roof = true) {
    stuff = section(tube, E_steel, G_steel);
    for (int i = 0; i <= bays; ++i) {
      const double at = L * i / bays;
      rings.push_back({node(at, 0, 0), node(at, w, 0), node(at, w, h), node(at, 0, h)});
    }
    std::vector<std::array<std::vector<EdgePiece>, 4>> hoops;
    for (const auto& r : rings) {
      hoops.emplace_back();
      for (int k = 0; k < 4; ++k) hoops.back()[k] = edge(r[k], r[(k + 1) % 4]);
    }
    for (const size_t end : {size_t{0}, rings.size() - 1}) panel(rings[end], hoops[end]);
    for (size_t i = 0; i + 1 < rings.size(); ++i) {
      const auto &r = rings[i], &s = rings[i + 1];
      std::array<std::vector<EdgePiece>, 4> along;
      for (int k = 0; k < 4; ++k) along[k] = edge(r[k], s[k]);
      for (int k = 0; k < 4; ++k) {
        const int l = (k + 1) % 4;
        if (!roof && k == 2) continue;
        panel({r[k], s[k], s[l], r[l]}, {along[k], hoops[i + 1][k], along[l], hoops[i][k]});
      }
    }
    for (Panel& p : model.panels) p.joint = joint;
    hold(rings[0][0], {x, y, z});  // six conditions: the ends may warp
    hold(rings[0][1], {x, z});
    hold(rings[0][3], {x});
  }

  /// Torque `T` as shear flow round both ends, opposite; the work it does.
  Actions torque(double T) const {
    const double q = T / (2 * w * h);
    Actions a = actions();
    for (const double sign : {-1.0, 1.0}) {
      const auto& r = sign < 0 ? rings.front() : rings.back();
      for (int k = 0; k < 4; ++k) {
        const Eigen::Vector3d side = model.nodes[r[(k + 1) % 4]] - model.nodes[r[k]];
        for (const int end : {k, (k + 1) % 4}) {
          a.nodal.segment<3>(6 * r[end]) += sign * q / 2 * side;
        }
      }
    }
    return a;
  }

  /// T^2 over the work of the torque, N mm/rad.
  double torsional_stiffness() const {
    const double T = 1e6;
    const Actions a = torque(T);
    return T * T / a.nodal.dot(solve(a).displacements);
  }
};

constexpr double to_Nm_per_degree = 1e-3 * M_PI / 180;

}  // namespace

TEST_CASE("a closed box of sheets twists as Bredt's formula has it", "[truth]") {
  // R. Bredt's formulas (from memory, any textbook): q = T/(2 A) = 2.041 N/mm per kN m,
  // K = 4 A^2/(L sum(s/(G t))) = 35 009 N m/deg for 350 x 700 x 1800, four walls of 1.2.
  // Tubes stiff along and soft in bending, as the formula has them: 1e5 and 1e-3 times.
  const int bays = GENERATE(1, 3, 4);
  INFO(bays << " bays");
  TorqueTube f(times(tube_mm, 1e5, 1e-3), bays, rigid);
  truth(named("box 350 x 700 x 1800 in ", bays, " bays: torsional stiffness, N m/deg"), bredt,
        f.torsional_stiffness() * to_Nm_per_degree, within_rel(35009, 2e-4));
  const StaticSolution s = f.solve(f.torque(1e6));
  CHECK(s.residual.force < 1e-8);  // stiffnesses 1e8 apart cost digits
  CHECK(s.equilibrium.moment < 1e-8);
  for (size_t i = 2; i < s.panel_flows.size(); ++i) {
    CHECK_THAT(std::abs(s.panel_flows[i]), WithinAbs(2.041, 0.0006));
  }
  truth(named("box 350 x 700 x 1800 in ", bays, " bays: flow at 1 kN m, N/mm"), bredt,
        std::abs(s.panel_flows.back()), within_abs(2.041, 0.0006));
}

TEST_CASE("slip of the joints softens a closed box by what it softens each wall") {
  // Bredt again, every wall with 1/(G t)_eff of the slip formula (derived).
  const double joint = 200;
  const int bays = 3;
  const TorqueTube f(times(tube_mm, 1e5, 1e-3), bays, joint);
  double sum = 0;
  for (const double s : {f.w, f.h, f.w, f.h}) {
    sum += s * (1 / (G_al * sheet) + 2 / joint * (1 / s + bays / f.L));
  }
  const double K = 4 * std::pow(f.w * f.h, 2) / (f.L * sum);
  CHECK_THAT(f.torsional_stiffness(), WithinRel(K, 2e-4));
}

TEST_CASE("a closed box with real tubes loses what the tubes of its end hoops give way",
          "[truth]") {
  // Derived: inner tubes have equal flows on both sides, the end hoops q s^3/(12 E A): 33 853
  // against 35 009 N m/deg; a lower bound, as the end sheets and the tubes' bending help a little.
  const TorqueTube f(tube_mm, 1, rigid);
  const double in_sheets = 2 * f.L * (f.w + f.h) / (G_al * sheet);
  const double in_hoops = 4 * (std::pow(f.w, 3) + std::pow(f.h, 3)) / (12 * E_steel * tube_mm.A);
  const double K = 4 * std::pow(f.w * f.h, 2) / (in_sheets + in_hoops);
  CHECK_THAT(K * to_Nm_per_degree, WithinAbs(33853, 2));
  truth("box with real tubes: torsional stiffness, N m/deg", with_hoops,
        f.torsional_stiffness() * to_Nm_per_degree, not_below(K * to_Nm_per_degree, 1.01));
}

TEST_CASE("without its roof a box of sheets has lost nearly all its torsional stiffness") {
  // Barton & Fieldhouse, Automotive Chassis Engineering: with the top not present no panel can
  // carry the torque. Here: 428 of 34 100 N m/deg, all of it by bending of the tubes.
  const TorqueTube closed(tube_mm, 3, rigid), open(tube_mm, 3, rigid, false);
  CHECK(open.torsional_stiffness() < 0.02 * closed.torsional_stiffness());
}

TEST_CASE("a sheet hardly stiffens a flat ladder in torsion") {
  // Derived: x 1.0. A sheet in the plane of the tubes' axes resists nothing that moves out of that
  // plane; half a tube's height below it, it does a little, by way of the tubes' twist.
  const auto stiffness = [&](bool clad, double offset) {
    Clad f;
    f.stuff = f.section(tube_mm, E_steel, G_steel);
    const double bay = 600, width = 700;
    for (int i = 0; i < 4; ++i) {
      f.node(bay * i, 0, 0);
      f.node(bay * i, width, 0);
    }
    std::vector<std::vector<EdgePiece>> cross;
    for (int i = 0; i < 4; ++i) cross.push_back(f.edge(2 * i, 2 * i + 1));
    for (int i = 0; i < 3; ++i) {
      const auto low = f.edge(2 * i, 2 * i + 2), up = f.edge(2 * i + 1, 2 * i + 3);
      if (!clad) continue;
      f.panel({2 * i, 2 * i + 2, 2 * i + 3, 2 * i + 1}, {low, cross[i + 1], up, cross[i]});
      f.model.panels.back().offset = offset;
    }
    f.pin(0);
    f.hold(1, {x, z});
    f.hold(6, {z});
    Actions load = f.actions();
    at(load, 7, z) = 100;
    return 100 / moved(f.solve(load), 7, z);
  };
  const double bare = stiffness(false, 0);
  CHECK_THAT(stiffness(true, 0), WithinRel(bare, 1e-9));
  const double below = stiffness(true, -13.1);
  CHECK(below > bare);
  CHECK(below < 1.02 * bare);
}

}  // namespace tubewright::shear_panel_test
