#include "io/frame_file/read_frame.h"

#include <cmath>
#include <fstream>
#include <iterator>
#include <numbers>

#include "io/yaml/render_diagnostics.h"
#include "tests/catch.h"

namespace tubewright::read_frame_test {

namespace {

constexpr double degree = std::numbers::pi / 180;

Frame frame_of(const std::string& text) {
  const FrameText file{"frame.yaml", text};
  const FrameReading reading = read_frame(file);
  INFO(render(reading.diagnostics, file));
  REQUIRE(reading.sound());
  return reading.frame;
}

/// One of good_frames/.
Frame frame_of_file(const std::string& name) {
  std::ifstream stream(TUBEWRIGHT_SOURCE_DIR "/tests/io/good_frames/" + name + ".yaml");
  REQUIRE(stream.good());
  return frame_of({std::istreambuf_iterator<char>(stream), {}});
}

/// A frame of two welded tubes in which `more` stands at the end.
std::string with(const std::string& more, const std::string& top = "") {
  return top + R"(frame: Garden trolley
sections:
  rail: {shape: square_tube, side: 25, wall: 2, material: S235}
nodes:
  A: [0, 0, 0]
  B: [500, 200, 100]
  C: [1000, -200, -100]
members:
  AB: {from: A, to: B, section: rail}
  BC: {from: B, to: C, section: rail}
)" + more;
}

void check_vector(const Eigen::Vector3d& v, double x, double y, double z) {
  CHECK_THAT(v.x(), WithinAbs(x, 1e-12));
  CHECK_THAT(v.y(), WithinAbs(y, 1e-12));
  CHECK_THAT(v.z(), WithinAbs(z, 1e-12));
}

}  // namespace

TEST_CASE("a tree that was parsed before gives the frame and the faults that its text gives") {
  Diagnostics none;
  const auto root = parse_strict_yaml(with("supports: {A: fixed, Q: fixed}\n"), none);
  REQUIRE(root);
  const FrameReading reading = read_frame(*root, "");
  CHECK_FALSE(reading.sound());
  REQUIRE(reading.diagnostics.size() == 1);
  CHECK_THAT(reading.diagnostics.front().message, ContainsSubstring("`Q`"));
  CHECK(reading.frame.nodes.size() == 3);
  CHECK(reading.frame.title == "Garden trolley");
}

TEST_CASE("a small frame is read into SI units") {
  const Frame f = frame_of(with("supports: {A: fixed}\n"));
  CHECK(f.title == "Garden trolley");
  CHECK(f.gravity == 9.80665);
  REQUIRE(f.nodes.size() == 3);
  CHECK(f.nodes[1].name == "B");
  check_vector(f.nodes[1].at, 0.5, 0.2, 0.1);
  CHECK(f.nodes[1].place.line == 6);
  CHECK(f.nodes[1].place.column == 3);
  REQUIRE(f.members.size() == 2);
  CHECK(f.members[0].kind == MemberKind::beam);
  CHECK(f.members[0].from == "A");
  CHECK(f.members[0].release_to == welded);
  REQUIRE(f.sections.size() == 1);
  CHECK(f.sections[0].shape == Shape::square_tube);
  CHECK(f.sections[0].height == 0.025);
  CHECK(f.sections[0].width == 0.025);
  CHECK(f.sections[0].wall == 0.002);
  CHECK(f.sections[0].corners == Corners::cold_formed);
  CHECK(f.sections[0].shear);
  CHECK_FALSE(f.mirror);
  CHECK_FALSE(f.vehicle);
  CHECK_FALSE(f.torsion);
  CHECK(f.limits.yield_factor == 1.5);
}

TEST_CASE("every shape of section is read") {
  const Frame f = frame_of_file("every_shape");
  REQUIRE(f.sections.size() == 5);
  CHECK(f.sections[0].height == 0.040);
  CHECK(f.sections[0].width == 0.020);
  CHECK(f.sections[0].corners == Corners::sharp);
  CHECK(f.sections[1].shape == Shape::round_tube);
  CHECK_THAT(f.sections[1].height, WithinRel(0.0269, 1e-15));
  CHECK(f.sections[1].corners == Corners::hot_finished);
  CHECK(f.sections[2].shape == Shape::round_bar);
  CHECK(f.sections[2].wall == 0);
  CHECK_FALSE(f.sections[2].shear);
  CHECK(f.sections[3].width == 0.003);
  CHECK(f.sections[3].material == "EN AW-5754-H22");
  const Section& e = f.sections[4].given;
  CHECK(f.sections[4].shape == Shape::properties);
  CHECK_THAT(e.A, WithinRel(173.7e-6, 1e-14));
  CHECK_THAT(e.Iz, WithinRel(14836e-12, 1e-14));
  CHECK_THAT(e.Wt, WithinRel(1804e-9, 1e-14));
  CHECK_THAT(e.Az, WithinRel(90e-6, 1e-14));
  CHECK(e.Ay == rigid);
  CHECK_THAT(e.Wply, WithinRel(1466e-9, 1e-14));
  CHECK(e.Wplz == 0);
}

TEST_CASE("a material takes G or Poisson's ratio and unknown strengths are NaN") {
  const Frame f = frame_of(with("", R"(materials:
  one: {E: 210000, G: 80770, density: 7850, yield: 235, ultimate: 360}
  two: {E: 70 GPa, nu: 0.25, density: 2.7 g/cm3}
  EN AW-6060: {E: 70000, G: 26923, nu: 0.3, density: 2700}
)"));
  REQUIRE(f.materials.size() == 3);
  CHECK(f.materials[0].properties.G == 80770e6);
  CHECK(f.materials[0].properties.ultimate == 360e6);
  // Isotropic elasticity: G = E/(2(1 + nu)).
  CHECK_THAT(f.materials[1].properties.G, WithinRel(28e9, 1e-14));
  CHECK_THAT(f.materials[1].properties.density, WithinRel(2700.0, 1e-14));
  CHECK(std::isnan(f.materials[1].properties.yield));
  CHECK(std::isnan(f.materials[1].properties.ultimate));
  CHECK(f.materials[2].name == "EN AW-6060");
}

TEST_CASE("members carry their kind, roll, releases and rate") {
  const Frame f = frame_of_file("every_member_kind");
  REQUIRE(f.members.size() == 6);
  CHECK_THAT(f.members[0].roll, WithinRel(30 * degree, 1e-15));
  CHECK(f.members[0].release_from == welded);
  CHECK(f.members[0].release_to == EndConnection{rigid, rigid, rigid, rigid, 0, 0});
  CHECK_THAT(f.members[1].release_from[4], WithinRel(500 / degree, 1e-15));
  CHECK_THAT(f.members[1].release_from[0], WithinRel(20e3, 1e-15));
  CHECK(f.members[1].release_from[5] == rigid);
  CHECK(f.members[2].kind == MemberKind::link);
  CHECK(f.members[3].kind == MemberKind::cable);
  CHECK(f.members[4].kind == MemberKind::spring);
  CHECK_THAT(f.members[4].rate, WithinRel(30e3, 1e-15));
  CHECK(f.members[4].section.empty());
  CHECK(f.members[5].roll == 0.5);
}

TEST_CASE("what the checks need is read: metals, lengths, throats, factors, a life") {
  const Frame f = frame_of_file("checks_and_life");
  REQUIRE(f.materials.size() == 3);
  CHECK(f.materials[0].metal == Metal::aluminium);
  CHECK_THAT(f.materials[0].heat_affected.yield, WithinRel(115e6, 1e-12));
  CHECK_THAT(f.materials[0].heat_affected.ultimate, WithinRel(175e6, 1e-12));
  CHECK(f.materials[1].metal == Metal::stainless);
  CHECK(f.materials[2].metal == Metal::other);
  CHECK(f.members[0].buckling_length == std::array<std::optional<double>, 2>{0.7, 0.7});
  CHECK_FALSE(f.members[0].weld_throat);
  CHECK(f.members[1].buckling_length == std::array<std::optional<double>, 2>{1.0, 2.0});
  CHECK_THAT(*f.members[1].weld_throat, WithinRel(0.003, 1e-12));
  for (const int piece : {2, 3}) {
    CHECK_THAT(*f.members[static_cast<size_t>(piece)].weld_throat, WithinRel(0.0025, 1e-12));
  }
  CHECK(f.cases[0].yield_factor == 1.2);
  CHECK_FALSE(f.cases[1].yield_factor);
  REQUIRE(f.life);
  CHECK_THAT(f.life->category, WithinRel(45e6, 1e-12));
  CHECK(f.life->damage_tolerant);
  CHECK_FALSE(f.life->high_consequence);
  REQUIRE(f.life->spectrum.size() == 2);
  CHECK(f.life->spectrum[0].load_case == "up");
  CHECK(f.life->spectrum[0].from == "down");
  CHECK(f.life->spectrum[1].cycles == 1e6);
}

TEST_CASE("a path becomes pieces, released at its two ends only") {
  const Frame f = frame_of_file("path");
  REQUIRE(f.members.size() == 3);
  CHECK(f.members[0].name == "rail.1");
  CHECK(f.members[2].name == "rail.3");
  CHECK(f.members[1].from == "B");
  CHECK(f.members[1].to == "C");
  for (const Member& m : f.members) {
    CHECK(m.tube == "rail");
    CHECK(m.section == "rail");
    CHECK_THAT(m.roll, WithinRel(45 * degree, 1e-15));
  }
  CHECK(f.members[0].release_from[5] == 0);
  CHECK(f.members[0].release_to == welded);
  CHECK(f.members[1].release_from == welded);
  CHECK(f.members[1].release_to == welded);
  CHECK(f.members[2].release_from == welded);
  CHECK(f.members[2].release_to[4] == 0);
}

TEST_CASE("supports hold what they name, and may displace it") {
  const Frame f = frame_of(with(R"(supports:
  A: pinned
  B: [z, rx]
  C: {z: -2.0, ry: 0.5, x: 1 in}
)"));
  REQUIRE(f.supports.size() == 3);
  CHECK(f.supports[0].restrained == std::array{true, true, true, false, false, false});
  CHECK(f.supports[1].restrained == std::array{false, false, true, true, false, false});
  CHECK(f.supports[2].restrained == std::array{true, false, true, false, true, false});
  CHECK(f.supports[2].displacement[0] == 0.0254);
  CHECK(f.supports[2].displacement[2] == -0.002);
  CHECK_THAT(f.supports[2].displacement[4], WithinRel(0.5 * degree, 1e-15));
}

TEST_CASE("static and combined cases are read") {
  const Frame f = frame_of_file("static_cases");
  REQUIRE(f.masses.size() == 1);
  CHECK(f.masses[0].mass == 20);
  CHECK(f.masses[0].on == std::vector<std::string>{"A", "B", "C"});
  check_vector(f.masses[0].at, 0.5, 0, 0.3);
  check_vector(f.masses[0].inertia, 1, 2, 3);
  REQUIRE(f.cases.size() == 3);
  const Case& hand = f.cases[0];
  CHECK(hand.kind == CaseKind::fixed_supports);
  CHECK(hand.rare);
  CHECK(hand.note == "a hand on the rail");
  check_vector(hand.forces.at(0).value, 1, -2, 3000);
  check_vector(hand.moments.at(0).value, 0, 0, 50);
  CHECK(hand.line_loads.at(0).member == "AB");
  check_vector(hand.line_loads.at(0).load, 0, 0, -250);
  REQUIRE(hand.point_loads.size() == 2);
  CHECK(hand.point_loads[0].at == 0.5);
  check_vector(hand.point_loads[0].force, 0, 0, -500);
  CHECK(hand.point_loads[1].at == 0.25);
  check_vector(hand.point_loads[1].moment, 0, 7, 0);
  check_vector(hand.gravity, 0, 0, -1);
  check_vector(f.cases[1].gravity, 0, 0, 0);
  CHECK_FALSE(f.cases[1].rare);
  CHECK(f.cases[2].kind == CaseKind::combine);
  CHECK(f.cases[2].of.at(0).name == "hand");
  CHECK(f.cases[2].of.at(0).factor == 1.5);
  CHECK(f.cases[2].of.at(1).factor == -1);
}

TEST_CASE("sheets, panels, vehicle and studies are read") {
  const Frame f = frame_of_file("pedal_quad");
  const Sheet& floor = f.sheets.at(0);
  CHECK(floor.edges == SheetEdge::clamped);
  CHECK(floor.offset == -0.0125);
  CHECK(floor.rivet->pitch == 0.04);
  CHECK_THAT(*floor.rivet->stiffness, WithinRel(5e6, 1e-15));
  CHECK(*floor.rivet->shear_strength == 850);
  CHECK(floor.bond->shear_modulus == 1000e6);
  CHECK_FALSE(floor.bond->shear_strength);
  CHECK(f.panels.at(0).corners == std::vector<std::string>{"FL", "FR", "RR", "RL"});

  REQUIRE(f.vehicle);
  const Vehicle& v = *f.vehicle;
  REQUIRE(v.wheels.size() == 4);
  CHECK(v.wheels[0].brake == WheelBrake::outboard);
  CHECK(v.wheels[0].hold == WheelHold::rigid_upright);
  CHECK(v.wheels[1].brake == WheelBrake::inboard);
  CHECK(v.wheels[2].hold == WheelHold::spread);
  CHECK(v.wheels[2].brake == WheelBrake::none);
  CHECK(v.wheels[2].axle == Axle::rear);
  check_vector(v.wheels[3].centre, -0.9, -0.45, 0.23);
  CHECK(v.brake_ideal);
  CHECK_FALSE(v.brake_front_share);
  CHECK_THAT(*v.roll_stiffness_front_share, WithinRel(0.55, 1e-15));
  CHECK(v.roll_centre_front == 0);
  CHECK(v.roll_centre_rear == 0.03);
  CHECK_THAT(*v.tyre_rate, WithinRel(120e3, 1e-15));
  CHECK(*v.friction == 0.8);

  const Case& both = f.cases.at(0);
  CHECK(both.kind == CaseKind::vehicle);
  CHECK(both.brake == 0.5);
  CHECK(both.corner == -0.4);
  CHECK_THAT(both.grade, WithinRel(0.1, 1e-15));
  CHECK(both.bump.at(0).factor == 3);
  CHECK(both.lift == "rr");
  CHECK(f.cases.at(1).step->height == 0.05);
  CHECK(f.cases.at(1).step->factor == 4.5);

  CHECK(f.torsion->front == std::array<std::string, 2>{"FL", "FR"});
  CHECK(f.torsion->couple == 100);
  CHECK_THAT(*f.limits.torsional_stiffness, WithinRel(400 / degree, 1e-15));
  CHECK(*f.limits.deflection == 0.005);
  CHECK(*f.limits.frequency == 20);
  CHECK_THAT(f.stock->length, WithinRel(6.096, 1e-14));
  CHECK(f.stock->kerf == 0.002);
  CHECK(f.stock->end_trim == 0.02);
  CHECK(f.stock->sizes.at(0).height == 0.02);
  CHECK(*f.stock->sizes.at(0).price == 12.5);
  REQUIRE(f.bench_test);
  CHECK(f.bench_test->weights.at(1) == std::pair<std::string, double>{"RR", -20});
  CHECK(f.bench_test->gauges.at(0).direction == 2);
  CHECK_THAT(*f.bench_test->gauges.at(0).reading, WithinRel(-0.00152, 1e-14));
  CHECK_FALSE(f.bench_test->gauges.at(1).reading);
}

TEST_CASE("everything that can happen to a vehicle is read, in either axes") {
  const Frame f = frame_of_file("road_events");
  CHECK(f.vehicle->wheels.at(0).brake_mount == std::vector<std::string>{"RL", "RR"});
  REQUIRE(f.cases.size() == 6);
  const Case& bank = f.cases[0];
  CHECK_THAT(bank.bank, WithinRel(10 * degree, 1e-15));
  CHECK(bank.vertical == 1.3);
  CHECK(bank.corner == 0.5);
  check_vector(bank.forces.at(0).value, 1, -2, -3);
  check_vector(bank.moments.at(0).value, 4, -5, -6);
  CHECK_FALSE(f.cases[1].nudge->left);  // the driver's right in any axes
  CHECK(f.cases[1].nudge->factor == 1.4);
  CHECK(f.cases[2].tow->at == std::vector<std::string>{"FL", "FR"});
  CHECK(f.cases[2].tow->pull == -0.5);
  CHECK_THAT(f.cases[3].jack->share, WithinRel(0.4, 1e-15));
  CHECK(f.cases[4].tie_down->forward == 0.8);
  CHECK(f.cases[4].tie_down->left == -0.5);
  CHECK(f.cases[5].roll_over->force == 2670);
  CHECK_THAT(f.cases[5].roll_over->angle, WithinRel(12 * degree, 1e-15));
  CHECK_THAT(f.cases[5].roll_over->side, WithinRel(-1330.0, 1e-15));
}

// SAE J670 has x forward, y right, z down: a half turn about x from ISO 8855.
TEST_CASE("a frame in SAE axes is turned into ISO 8855") {
  const Frame f = frame_of_file("sae_axes");
  check_vector(f.nodes[0].at, 0.1, -0.2, -0.3);
  const auto& d = f.supports[0].displacement;
  check_vector({d[0], d[1], d[2]}, 0.001, -0.002, -0.003);
  check_vector({d[3], d[4], d[5]}, 4 * degree, -5 * degree, -6 * degree);
  CHECK(f.supports[1].restrained[0]);
  check_vector(f.masses[0].at, 0.01, -0.02, -0.03);
  check_vector(f.masses[0].inertia, 1, 2, 3);
  check_vector(f.vehicle->wheels[0].contact, 0, -0.001, -0.002);
  check_vector(f.vehicle->wheels[0].centre, 0.003, -0.004, 0.5);
  const Case& c = f.cases[0];
  check_vector(c.forces[0].value, 1, -2, -3);
  check_vector(c.moments[0].value, 4, -5, -6);
  check_vector(c.line_loads[0].load, 1000, -2000, -3000);
  check_vector(c.point_loads[0].force, 1, -2, -3);
  check_vector(c.point_loads[0].moment, 4, -5, -6);
  check_vector(c.gravity, 0, -0.5, -1);
  CHECK(*f.bench_test->gauges[0].reading == -0.002);
  CHECK(*f.bench_test->gauges[1].reading == 0.003);
}

TEST_CASE("the mirror image is part of what is read") {
  const Frame f = frame_of_file("mirrored");
  REQUIRE(f.nodes.size() == 5);
  CHECK(f.members.size() == 5);
  CHECK(f.supports.size() == 2);
  check_vector(f.nodes[3].at, 0, -0.3, 0);
}

TEST_CASE("a file may be one line of braces, and carry Windows line ends or a byte order mark") {
  const std::string text = with("supports: {A: fixed}\n");
  std::string windows;
  for (const char c : text) windows += c == '\n' ? "\r\n" : std::string(1, c);
  CHECK(frame_of(windows).members.size() == 2);
  CHECK(frame_of("\xEF\xBB\xBF" + text).members.size() == 2);
  CHECK(frame_of("{frame: One line, sections: {s: {shape: round_bar, diameter: 8, material: S235}},"
                 " nodes: {A: [0, 0, 0], B: [9, 0, 0]},"
                 " members: {m: {from: A, to: B, section: s}}}")
            .members.size() == 1);
}

TEST_CASE("names may look like numbers or words of YAML") {
  const Frame f = frame_of(R"(frame: 2024
sections: {no: {shape: round_bar, diameter: 8, material: 4130}}
nodes: {1: [0, 0, 0], 010: [9, 0, 0]}
members: {yes: {from: 1, to: 010, section: no}}
)");
  CHECK(f.title == "2024");
  CHECK(f.sections[0].material == "4130");
  CHECK(f.members[0].to == "010");
}

TEST_CASE("an alias stands for the value it names") {
  const Frame f = frame_of(R"(frame: Alias
sections: {a: &s {shape: round_bar, diameter: 8, material: S235}, b: *s}
nodes: {A: [0, 0, 0], B: [9, 0, 0]}
members: {m: {from: A, to: B, section: b}}
)");
  CHECK(f.sections[1].name == "b");
  CHECK(f.sections[1].height == 0.008);
}

TEST_CASE("problems come in file order, warnings included") {
  const FrameReading reading = read_frame({"f.yaml", R"(frame: Order
sections: {a: {shape: round_bar, diameter: 8, material: S235, color: 1, wall: 2}}
nodes: {A: [0, 0, 0], B: [9, 0, 0]}
members: {m: {from: A, to: X, section: a}, n: {from: A, to: Y, section: b}}
mirror: {from: _l, to: _r}
)"});
  CHECK_FALSE(reading.sound());
  REQUIRE(reading.diagnostics.size() == 6);
  for (std::size_t i = 1; i < reading.diagnostics.size(); ++i) {
    const SourceLocation& a = reading.diagnostics[i - 1].place;
    const SourceLocation& b = reading.diagnostics[i].place;
    CHECK((a.line < b.line || (a.line == b.line && a.column <= b.column)));
  }
  CHECK_THAT(reading.diagnostics.back().message, ContainsSubstring("`mirror` copies nothing"));
}

TEST_CASE("groups, kept tubes, limits of displacement and sizes of the stock are read together") {
  const Frame f = frame_of_file("sizes");
  REQUIRE(f.groups.size() == 1);
  CHECK(f.groups[0].members == std::vector<std::string>{"ABC"});
  CHECK(f.keep.members == std::vector<std::string>{"CA"});
  REQUIRE(f.limits.displacements.size() == 2);
  CHECK_THAT(*f.limits.displacements[1].most[1], WithinRel(0.00254, 1e-14));
  REQUIRE(f.stock->sizes.size() == 3);
  CHECK_THAT(f.stock->sizes[2].given.Wplz, WithinRel(200e-9, 1e-14));
}

}  // namespace tubewright::read_frame_test
