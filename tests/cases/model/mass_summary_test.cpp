// Masses and centres against tables of tubes, sums by hand and integrals by the midpoint rule.
#include "cases/model/mass_summary.h"

#include <Eigen/Geometry>
#include <algorithm>
#include <random>

#include "cases/frame/built_in_materials.h"
#include "tests/cases/clad_frames.h"
#include "tests/catch.h"
#include "tests/truth.h"

namespace tubewright::mass_summary_test {

namespace {

constexpr Source ssab = seen_in("EN 10219, square hollow sections (public table of SSAB)");
constexpr Source formulas =
    rederived("EN 10219-2 properties by its formulas, evaluated independently");

}  // namespace

using testing::add_member;
using testing::add_node;
using testing::add_panel;
using testing::add_sheet;
using testing::clad_box;
using testing::empty_frame;

namespace {

/// A plane quadrilateral of 2 mm sheet, 8000 kg/m3, that is 16 kg/m2, in the plane z = 0, turned.
Frame plate(const std::vector<Eigen::Vector3d>& corners, const Eigen::Matrix3d& turn) {
  Frame f = empty_frame();
  MaterialEntry m;
  m.name = "known";
  m.properties = {200e9, 80e9, 8000, 300e6, 400e6};
  f.materials.push_back(m);
  for (std::size_t i = 0; i < 4; ++i) {
    const Eigen::Vector3d p = turn * corners[i];
    add_node(f, std::to_string(i), p.x(), p.y(), p.z());
    add_member(f, "m" + std::to_string(i), std::to_string(i), std::to_string((i + 1) % 4));
  }
  Sheet& s = add_sheet(f, "s");
  s.material = "known";
  s.thickness = 0.002;
  s.offset = 0;
  add_panel(f, "p", "s", {"0", "1", "2", "3"});
  return f;
}

const char* as_kind(MemberKind kind) {
  return kind == MemberKind::beam ? "" : kind == MemberKind::link ? " as a link" : " as a cable";
}

PanelMass mass_of(const Frame& f) { return panel_mass(f, build_model(f), 0); }

}  // namespace

// EN 10219-2, tables of square hollow sections: kg/m to the three digits printed.
TEST_CASE("a metre of tube weighs what the table says, and a spring nothing", "[truth]") {
  for (const auto& [side, wall, mass] :
       {std::tuple{0.020, 0.002, 1.05}, {0.025, 0.002, 1.36}, {0.040, 0.003, 3.30}}) {
    Frame f = empty_frame();
    f.sections[0].height = f.sections[0].width = side;
    f.sections[0].wall = wall;
    Member& m = add_member(f, "m", "a", "b");
    for (const MemberKind kind : {MemberKind::beam, MemberKind::link, MemberKind::cable}) {
      m.kind = kind;
      truth(named("tube ", 1e3 * side, " x ", 1e3 * wall, as_kind(kind), ": mass, kg/m"),
            side < 0.025 ? formulas : ssab, mass_per_length(f, m), within_abs(mass, 0.0051));
    }
    m.kind = MemberKind::spring;
    m.section.clear();
    CHECK(mass_per_length(f, m) == 0);
  }
}

// m (b^2)/12, m a^2/12 and m (a^2 + b^2)/12 of a thin rectangular plate, any handbook.
TEST_CASE("a rectangular panel has the inertia of a thin plate, turned as it is turned") {
  const double a = 0.6, b = 0.4, m = 16 * a * b;
  std::mt19937 random(1);
  std::normal_distribution<double> g;
  for (int i = 0; i < 5; ++i) {
    const Eigen::Matrix3d R =
        Eigen::Quaterniond(g(random), g(random), g(random), g(random)).normalized().matrix();
    const PanelMass p =
        mass_of(plate({{1, 2, 0}, {1 + a, 2, 0}, {1 + a, 2 + b, 0}, {1, 2 + b, 0}}, R));
    CHECK_THAT(p.mass, WithinRel(m, 1e-12));
    CHECK((p.centre - R * Eigen::Vector3d(1 + a / 2, 2 + b / 2, 0)).norm() < 1e-12);
    const Eigen::Matrix3d J = R.transpose() * p.inertia * R;
    const Eigen::Vector3d plate_inertia = m / 12 * Eigen::Vector3d(b * b, a * a, a * a + b * b);
    CHECK((J - Eigen::Matrix3d(plate_inertia.asDiagonal())).norm() < 1e-12);
  }
}

// The midpoint rule over (1 - y/h) and y/h between the parallel sides; its error falls as 1/n^2.
TEST_CASE("a trapezoidal panel has the mass, centre and inertia of many small pieces") {
  const double h = 0.5;
  const std::vector<Eigen::Vector3d> corners = {{0, 0, 0}, {0.9, 0, 0}, {0.6, h, 0}, {0.2, h, 0}};
  constexpr int n = 400;
  double mass = 0;
  Eigen::Vector3d centre = Eigen::Vector3d::Zero();
  Eigen::Matrix3d second = Eigen::Matrix3d::Zero();
  for (int i = 0; i < n; ++i) {
    const double t = (i + 0.5) / n, left = 0.2 * t, width = 0.9 - 0.3 * t - left;
    for (int j = 0; j < n; ++j) {
      const Eigen::Vector3d r(left + width * (j + 0.5) / n, h * t, 0);
      const double dm = 16 * (h / n) * (width / n);
      mass += dm;
      centre += dm * r;
      second += dm * r * r.transpose();
    }
  }
  centre /= mass;
  second -= mass * centre * centre.transpose();
  std::vector<Eigen::Vector3d> turned = corners;
  for (int first = 0; first < 4; ++first) {  // whichever corner comes first
    const PanelMass p = mass_of(plate(turned, Eigen::Matrix3d::Identity()));
    CHECK_THAT(p.mass, WithinRel(mass, 1e-5));
    CHECK((p.centre - centre).norm() < 1e-5);
    const Eigen::Matrix3d J = second.trace() * Eigen::Matrix3d::Identity() - second;
    CHECK((p.inertia - J).norm() < 1e-4 * J.norm());
    std::rotate(turned.begin(), turned.begin() + 1, turned.end());
  }
}

TEST_CASE(
    "the summary is the sum of tubes, panels and masses, and its centre their balance point") {
  Frame f = plate({{0, 0, 0}, {1, 0, 0}, {1, 1, 0}, {0, 1, 0}}, Eigen::Matrix3d::Identity());
  f.sections[0].shape = Shape::properties;
  f.sections[0].given.A = 2.5e-4;  // 2 kg/m in the known material
  f.sections[0].material = "known";
  CarriedMass m;
  m.mass = 26;
  m.at = {0.5, 0.5, 2};
  f.masses.push_back(m);
  const MassSummary s = mass_summary(f, build_model(f));
  CHECK_THAT(s.tubes, WithinRel(8.0, 1e-12));
  CHECK_THAT(s.panels, WithinRel(16.0, 1e-12));
  CHECK_THAT(s.carried, WithinRel(26.0, 1e-12));
  CHECK_THAT(s.total, WithinRel(50.0, 1e-12));
  CHECK((s.centre - Eigen::Vector3d(0.5, 0.5, 26 * 2 / 50.0)).norm() < 1e-12);
  CHECK(mass_summary(Frame{}, NumberedFrame{}).centre == Eigen::Vector3d::Zero());
}

TEST_CASE("a moved frame has its centre moved as far and weighs the same") {
  Frame f = clad_box();
  const MassSummary before = mass_summary(f, build_model(f));
  const Eigen::Vector3d shift(3, -4, 5);
  for (Node& n : f.nodes) n.at += shift;
  const MassSummary after = mass_summary(f, build_model(f));
  CHECK_THAT(after.total, WithinRel(before.total, 1e-12));
  CHECK((after.centre - before.centre - shift).norm() < 1e-12);
}

TEST_CASE("a sheet above and one below the same tubes weigh what both weigh, and balance") {
  Frame f = testing::clad_ladder();
  const NumberedFrame bare = build_model(f);
  const double one = mass_summary(f, bare).panels;
  const Material& m = find_material(f, f.sheets[0].material)->properties;
  CHECK_THAT(one, WithinRel(1.2 * 0.5 * 0.0012 * m.density, 1e-12));
  CHECK_THAT(mass_summary(f, bare).centre.z() * mass_summary(f, bare).total,
             WithinRel(-one * (0.0125 + 0.0006), 1e-9));  // the corners point down
  Sheet above = f.sheets[0];
  above.name = "above";
  above.side = SheetSide::top;
  f.sheets.push_back(above);
  for (const size_t p : {0, 1}) {
    f.panels.push_back(f.panels[p]);
    f.panels.back().name += "_above";
    f.panels.back().sheet = "above";
  }
  const MassSummary both = mass_summary(f, build_model(f));
  CHECK_THAT(both.panels, WithinRel(2 * one, 1e-12));
  CHECK_THAT(both.centre.z(), WithinAbs(0, 1e-12));
}

}  // namespace tubewright::mass_summary_test
