// Modes of frames against closed forms (Blevins, Formulas for Natural Frequency and Mode Shape,
// from memory) and carried masses against rigid-body mechanics.
#include "cases/studies/frame_modes.h"

#include <Eigen/Geometry>
#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <random>

#include "cases/model/mass_summary.h"
#include "tests/cases/clad_frames.h"
#include "tests/cases/small_vehicles.h"
#include "tests/catch.h"
#include "tests/truth.h"

namespace tubewright::frame_modes_test {

using namespace tubewright::testing;

namespace {

constexpr Source blevins =
    from_memory("R. D. Blevins, Formulas for Natural Frequency and Mode Shape: cantilever");
constexpr Source two_inertias = rederived("sqrt(K (1/J_1 + 1/J_2))/(2 pi), by hand");

constexpr double L = 1.0, E = 210e9, pi = std::numbers::pi;

/// A shear-rigid arm along -x, fixed at its front, weak up and down.
Frame arm(double density) {
  Frame f = empty_frame();
  f.materials.push_back({"metal", {E, 81e9, density, 235e6, 360e6}, {}, Metal::steel, {}});
  SectionEntry& s = f.sections.front();
  s.shape = Shape::properties;
  s.given = {2e-4, 1e-8, 9e-8, 5e-8, 1e-6, 1e-6, 1e-6, 0, 0, rigid, rigid, {}};
  s.material = "metal";
  add_node(f, "root", 0, 0, 0);
  add_node(f, "tip", -L, 0, 0);
  add_member(f, "arm", "root", "tip");
  f.supports.push_back({"root", {true, true, true, true, true, true}, {}, {}});
  return f;
}

FrameModes modes_of(const Frame& f, int count) { return answer_of(frame_modes(f, count)); }

}  // namespace

TEST_CASE("an arm swings at the frequency of a cantilever, first the way it is weak", "[truth]") {
  // 3.516/(2 pi) sqrt(E I/(m L^4)), rotary inertia a few parts in ten thousand.
  const FrameModes m = modes_of(arm(7850), 3);
  CHECK(m.restrained);
  CHECK(m.complete);
  REQUIRE(m.modes.size() >= 3);
  const double unit = std::sqrt(E * 1e-8 / (7850 * 2e-4)) / (2 * pi * L * L);
  truth("arm, first mode the weak way, Hz", blevins, m.modes[0].frequency,
        within_rel(3.516 * unit, 2e-3));
  truth("arm, first mode the stiff way, Hz", blevins, m.modes[1].frequency,
        within_rel(3 * 3.516 * unit, 2e-3));  // nine times as stiff
  CHECK(m.modes[0].words == "first vertical bending");
  CHECK(m.modes[1].words == "first lateral bending");
  CHECK(m.modes[2].words == "second vertical bending");
  CHECK_FALSE(m.modes[0].rigid);
  // The greatest translation is 1: at the tip, straight up or down.
  CHECK_THAT(std::abs(m.modes[0].shape[6 + 2]), WithinRel(1.0, 1e-9));
  CHECK(m.modes[0].shape.size() == 6 * static_cast<Eigen::Index>(m.fine.model.nodes.size()));
}

TEST_CASE("a mass carried at the tip of a light arm swings at sqrt(3 E I/(m L^3))", "[truth]") {
  Frame f = arm(1e-3);
  add_mass(f, "lump", 5, {-L, 0, 0}, {"tip"});
  truth("light arm with 5 kg at its tip, Hz", blevins, modes_of(f, 1).modes[0].frequency,
        within_rel(std::sqrt(3 * E * 1e-8 / (5 * L * L * L)) / (2 * pi), 1e-4));
}

TEST_CASE("a free frame has six rigid motions before it bends, and limits look at the seventh") {
  Frame f = open_box();
  const FrameModes m = modes_of(f, 4);
  CHECK_FALSE(m.restrained);
  REQUIRE(m.modes.size() == 10);
  for (size_t i = 0; i < 6; ++i) {
    CHECK(m.modes[i].rigid);
    CHECK(m.modes[i].frequency == 0);
    CHECK(m.modes[i].words == "rigid-body motion");
  }
  REQUIRE(lowest_elastic(m) == &m.modes[6]);
  // Sides, top and ends are braced, the underside is open: it twists first.
  CHECK(m.modes[6].words == "first torsion");
  CHECK(m.modes[6].share > 0.5);
  CHECK(modes_pass(f, m));
  f.limits.frequency = m.modes[6].frequency;
  CHECK(modes_pass(f, m));
  f.limits.frequency = 1.001 * m.modes[6].frequency;
  CHECK_FALSE(modes_pass(f, m));
  CHECK(lowest_elastic(FrameModes{}) == nullptr);
  CHECK(modes_pass(f, FrameModes{}));
}

TEST_CASE("two inertias on a spring twist at the frequency of the closed form", "[truth]") {
  // sqrt(K (1/J_1 + 1/J_2))/(2 pi), J 6 and 5 kg m2: 100, 300, 1000 N m/deg give 7.3, 12.6, 23.1 Hz
  // (worked by hand).
  Frame f = empty_frame();
  f.materials.push_back({"weightless", {210e9, 81e9, 1e-9, 235e6, 360e6}, {}, Metal::steel, {}});
  f.sections.front().shape = Shape::properties;
  f.sections.front().given = {1e-2, 1e-3, 1e-3, 1e-3, 1e-4, 1e-4, 1e-4, 0, 0, rigid, rigid, {}};
  f.sections.front().material = "weightless";
  f.sections.push_back(f.sections.front());
  f.sections.back().name = "spine";
  for (const auto& [end, mass, x] : {std::tuple{"f", 3.0, 0.0}, {"r", 2.5, -1.0}}) {
    const std::string e = end;
    add_node(f, e + "l", x, 1, 0);
    add_node(f, e + "c", x, 0, 0);
    add_node(f, e + "r", x, -1, 0);
    for (const auto& [side, y] : {std::pair{"l", 1.0}, {"r", -1.0}}) {
      add_member(f, e + side + "c", e + "c", e + side);
      add_mass(f, e + side, mass, {x, y, 0}, {e + side});
    }
  }
  add_member(f, "spine", "rc", "fc").section = "spine";
  constexpr double degree = pi / 180;
  for (const auto& [K, Hz] : {std::pair{100.0, 7.3}, {300.0, 12.6}, {1000.0, 23.1}}) {
    f.sections.back().given.It = K / degree / 81e9;
    const FrameModes m = modes_of(f, 2);
    REQUIRE(lowest_elastic(m) != nullptr);
    CHECK(lowest_elastic(m)->words == "first torsion");
    truth(named("two inertias on a frame of ", K, " N m/deg, Hz"), two_inertias,
          lowest_elastic(m)->frequency, within_abs(Hz, 0.06));
  }
}

// Euler-Bernoulli with shear-rigid sections; rotary inertia takes some parts in a thousand of the
// higher modes: lambda^2/(2 pi) sqrt(E I/(m L^4)).
TEST_CASE("high modes of one tube come out as finely as low ones", "[truth]") {
  constexpr double A = 2e-3;  // hardly any rotary inertia
  const auto unit = [](double I) { return std::sqrt(E * I / (7850 * A)) / (2 * pi * L * L); };
  const double weak = unit(1e-8), strong = unit(9e-8);
  struct Row {
    const char* held;
    std::array<bool, 6> root, tip;
    std::vector<double> lambda;
  };
  const std::array<bool, 6> fixed = {true, true, true, true, true, true}, none = {},
                            pin = {true, true, true, true, false, false},
                            slides = {false, true, true, false, false, false};
  for (const Row& row :
       {Row{"fixed", fixed, none, {1.87510, 4.69409, 7.85476, 10.9955, 14.1372}},
        Row{"fixed at both ends", fixed, fixed, {4.73004, 7.85320, 10.9956, 14.1372, 17.2788}},
        Row{"between pins", pin, slides, {pi, 2 * pi, 3 * pi, 4 * pi, 5 * pi}}}) {
    Frame f = arm(7850);
    f.sections.front().given.A = A;
    f.sections.front().given.It = 1e-5;
    f.supports.front().restrained = row.root;
    if (row.tip != none) f.supports.push_back({"tip", row.tip, {}, {}});
    std::vector<double> expected;
    for (const double l : row.lambda) {
      expected.push_back(l * l * weak);
      expected.push_back(l * l * strong);
    }
    std::sort(expected.begin(), expected.end());
    constexpr int count = 5;
    const FrameModes m = modes_of(f, count);
    CHECK(m.complete);
    for (size_t i = 0; i < count; ++i) {
      truth(named("tube ", row.held, ", as drawn in one piece, mode ", i + 1, ", Hz"),
            from_memory("Blevins, Formulas for Natural Frequency and Mode Shape, table 8-1"),
            m.modes[i].frequency, within_rel(expected[i], 6e-3));
    }
  }
}

TEST_CASE("a tube that twists is not said to bend") {
  // G I_t small: its first mode is torsion, (1/(4 L)) sqrt(G I_t/(rho (I_y + I_z))).
  Frame f = arm(7850);
  f.sections.front().given.It = 1e-11;
  const FrameModes m = modes_of(f, 1);
  CHECK_THAT(m.modes[0].frequency,
             WithinRel(std::sqrt(81e9 * 1e-11 / (7850 * 10e-8)) / (4 * L), 5e-3));
  CHECK(m.modes[0].words == "first torsion");
}

TEST_CASE("frequencies of a free vehicle do not hang on rounding, on the load or on the count") {
  Frame f = box_vehicle();
  f.vehicle.reset();
  f.supports.clear();
  const FrameModes whole = modes_of(f, 6);
  REQUIRE(whole.complete);
  Frame nudged = f;
  for (size_t n = 0; n < nudged.nodes.size(); ++n) {
    nudged.nodes[n].at.x() += 1e-10 * static_cast<double>(n % 3);
  }
  const FrameModes again = modes_of(nudged, 6), fewer = modes_of(f, 2);
  for (size_t i = 6; i < whole.modes.size(); ++i) {
    CHECK_THAT(again.modes[i].frequency, WithinRel(whole.modes[i].frequency, 1e-6));
  }
  CHECK_THAT(fewer.modes[6].frequency, WithinRel(whole.modes[6].frequency, 2e-3));
  // Ever softer springs to the ground: what they converge to is the free frame.
  Frame soft = f;
  for (size_t corner = 0; corner < 4; ++corner) {
    const Eigen::Vector3d at = f.nodes[corner].at;
    for (int d = 0; d < 3; ++d) {
      const std::string name = "g" + std::to_string(corner) + std::to_string(d);
      const Eigen::Vector3d ground = at + Eigen::Vector3d::Unit(d);
      add_node(soft, name, ground.x(), ground.y(), ground.z());
      soft.supports.push_back({name, {true, true, true, true, true, true}, {}, {}});
      Member& spring = add_member(soft, "s" + name, soft.nodes[corner].name, name);
      spring.kind = MemberKind::spring;
      spring.section.clear();
      spring.rate = 1;  // N/m
    }
  }
  const FrameModes held = modes_of(soft, 12);
  for (size_t i = 6; i < 10; ++i) {
    CHECK_THAT(held.modes[i].frequency, WithinRel(whole.modes[i].frequency, 2e-3));
  }
  // Heavier: every mode lower, none lost.
  double last = whole.modes[6].frequency;
  for (const double factor : {3.0, 10.0, 30.0, 300.0}) {
    Frame heavy = f;
    for (CarriedMass& m : heavy.masses) m.mass *= factor;
    const FrameModes slow = modes_of(heavy, 4);
    CHECK(slow.complete);
    CHECK(slow.modes[6].frequency <= last * (1 + 1e-9));
    last = slow.modes[6].frequency;
  }
}

TEST_CASE("added masses have the energy of the rigid bodies they stand for") {
  // 2 T = m v^2 + w I w for any rigid motion, since nodes then move as the mass does.
  Frame f = box_vehicle();
  f.masses.front().inertia = {2, 3, 4};
  add_mass(f, "bag", 6, {-0.3, 0.1, 0.35}, {"fl0", "fr0", "fl1"});
  const NumberedFrame n = build_model(f);
  MassDistribution lumps = mass_distribution(f, n);
  lumps.rods.clear();
  const MassProperties body = mass_properties(n.model, lumps);
  std::mt19937 random(3);
  std::uniform_real_distribution<double> u(-1, 1);
  for (int trial = 0; trial < 5; ++trial) {
    const Eigen::Vector3d v(u(random), u(random), u(random)), w(u(random), u(random), u(random));
    double energy = 0;
    for (const AddedMass& added : added_masses(n.model, lumps)) {
      CHECK((added.M - added.M.transpose()).norm() < 1e-9 * added.M.norm());
      Eigen::VectorXd motion(6 * static_cast<Eigen::Index>(added.nodes.size()));
      for (size_t i = 0; i < added.nodes.size(); ++i) {
        const Eigen::Vector3d at = n.model.nodes[static_cast<size_t>(added.nodes[i])];
        const auto row = 6 * static_cast<Eigen::Index>(i);
        motion.segment<3>(row) = v + w.cross(at - body.centre);
        motion.segment<3>(row + 3) = w;
      }
      energy += motion.dot(added.M * motion);
    }
    CHECK_THAT(energy, WithinRel(body.mass * v.squaredNorm() + w.dot(body.inertia * w), 1e-9));
  }
}

TEST_CASE("a frame with a hinge that nothing holds has no modes but is told what is loose") {
  Frame f = arm(7850);
  f.members.front().release_from[4] = 0;
  const auto outcome = frame_modes(f, 2);
  REQUIRE(!outcome);
  CHECK_THAT(text_of(*outcome.error()), ContainsSubstring("`tip`"));
}

}  // namespace tubewright::frame_modes_test
