// The vehicle and the load cases out of checked values, in either axes.
#include <Eigen/Geometry>
#include <numbers>

#include "io/frame_file/frame_parts.h"
#include "tests/catch.h"

namespace tubewright::read_cases_test {

namespace {

struct Read {
  Frame frame;
  Diagnostics diagnostics;    ///< of the readers
  Diagnostics already_known;  ///< of the check against the table
};

Read read(const std::string& more, bool sae = false) {
  Read r;
  const auto root = parse_strict_yaml(
      "frame: Cart\nnodes: {A: [0, 0, 0]}\nmembers: {m: {from: A, to: A, section: s}}\n" + more,
      r.already_known);
  INFO(more);
  REQUIRE(root.has_value());
  const CheckedValue top = check_frame_keys(*root, r.already_known);
  REQUIRE(top.group != nullptr);
  read_vehicle(top, FileAxes{sae}, r.frame);
  read_cases(top, FileAxes{sae}, r.frame, r.diagnostics);
  return r;
}

Case one_case(const std::string& keys, bool sae = false) {
  const Read r = read("cases: {c: {" + keys + "}}\n", sae);
  CHECK(r.already_known.empty());
  REQUIRE(r.frame.cases.size() == 1);
  return r.frame.cases[0];
}

const Eigen::Matrix3d half_turn =
    Eigen::AngleAxisd(std::numbers::pi, Eigen::Vector3d::UnitX()).toRotationMatrix();

}  // namespace

TEST_CASE("loads of a static case turn with the axes of the file, all alike") {
  const std::string keys =
      "kind: static, forces: {A: [1, 2, 3]}, moments: {A: [4, 5, 6]}, line_loads: {m: [7, 8, 9]}, "
      "point_loads: {m: [{at: 0.25, force: [1, 3, 5], moment: [2, 4, 6]}]}, gravity: [0.1, 0.2, "
      "-1]";
  const Case iso = one_case(keys), sae = one_case(keys, true);
  const auto turned = [](const Eigen::Vector3d& a, const Eigen::Vector3d& b) {
    return a.norm() > 0 && (b - half_turn * a).norm() < 1e-12 * a.norm();
  };
  CHECK(iso.kind == CaseKind::fixed_supports);
  CHECK(turned(iso.forces.at(0).value, sae.forces.at(0).value));
  CHECK(turned(iso.moments.at(0).value, sae.moments.at(0).value));
  CHECK(turned(iso.line_loads.at(0).load, sae.line_loads.at(0).load));
  CHECK(turned(iso.point_loads.at(0).force, sae.point_loads.at(0).force));
  CHECK(turned(iso.point_loads.at(0).moment, sae.point_loads.at(0).moment));
  CHECK(turned(iso.gravity, sae.gravity));
  CHECK(iso.forces[0].value == Eigen::Vector3d(1, 2, 3));
  CHECK_THAT(iso.line_loads[0].load.x(), WithinRel(7000.0, 1e-14));  // N/mm
  CHECK(sae.point_loads[0].at == 0.25);  // along the member, whichever the axes
}

TEST_CASE("every part of a case says where in the file it stands") {
  const Case c =
      read(
          "cases:\n  c:\n    kind: static\n    forces:\n      A: [1, 2, 3]\n    line_loads:\n"
          "      m: [1, 2, 3]\n    point_loads:\n      m:\n        - {at: 0, force: [1, 2, 3]}\n")
          .frame.cases.at(0);
  CHECK(c.place.line == 5);
  CHECK(c.forces.at(0).place.line == 8);
  CHECK(c.line_loads.at(0).place.line == 10);
  CHECK(c.point_loads.at(0).place.line == 13);
  CHECK(c.forces.at(0).place.column == 7);
}

TEST_CASE("what happens to a vehicle is read as it was written, words and all") {
  const Case c = one_case(
      "kind: vehicle, brake: 0.6, corner: -0.3, grade: 12, bank: 30, vertical: 1.4, lift: fr, "
      "bump: {fl: 3, rr: 0}, step: {wheel: fl, height: 60, factor: 4}, nudge: {side: left, factor: "
      "2}, tow: {at: [A, B], pull: -0.4}, jack: {at: [B], share: 0.7}, tie_down: {at: [A], "
      "forward: "
      "0.9, left: 0.2}, roll_over: {at: [C], force: 3 kN, angle: 60, side: 100}, rare: true, "
      "yield_factor: 1.1, note: a remark");
  CHECK(c.kind == CaseKind::vehicle);
  CHECK(c.brake == 0.6);
  CHECK(c.corner == -0.3);
  CHECK_THAT(c.grade, WithinRel(0.12, 1e-14));
  CHECK_THAT(c.bank, WithinRel(std::numbers::pi / 6, 1e-14));
  CHECK(c.vertical == 1.4);
  CHECK(c.lift == "fr");
  REQUIRE(c.bump.size() == 2);
  CHECK(c.bump[0].wheel == "fl");
  CHECK(c.bump[0].factor == 3);
  CHECK(c.bump[1].factor == 0);
  CHECK(c.step->wheel == "fl");
  CHECK_THAT(c.step->height, WithinRel(0.06, 1e-14));
  CHECK(c.step->factor == 4);
  CHECK(c.nudge->left);
  CHECK(c.nudge->factor == 2);
  CHECK(c.tow->at == std::vector<std::string>{"A", "B"});
  CHECK(c.tow->pull == -0.4);
  CHECK(c.jack->share == 0.7);
  CHECK(c.tie_down->forward == 0.9);
  CHECK(c.tie_down->left == 0.2);
  CHECK(c.roll_over->force == 3000);
  CHECK_THAT(c.roll_over->angle, WithinRel(std::numbers::pi / 3, 1e-14));
  CHECK(c.roll_over->side == 100);
  CHECK(c.rare);
  CHECK(c.yield_factor == 1.1);
  CHECK(c.note == "a remark");
}

TEST_CASE("left and right, forward and downward are the driver's in any axes") {
  const std::string keys =
      "kind: vehicle, corner: 0.3, nudge: {side: left, factor: 2}, tie_down: {at: [A], left: 0.2}, "
      "roll_over: {at: [C], force: 3000, side: 100}";
  const Case iso = one_case(keys), sae = one_case(keys, true);
  CHECK(sae.corner == iso.corner);
  CHECK(sae.nudge->left);
  CHECK(sae.tie_down->left == iso.tie_down->left);
  CHECK(sae.roll_over->force == iso.roll_over->force);
  CHECK(sae.roll_over->side == -iso.roll_over->side);  // a component along y of the file
}

TEST_CASE("an event that is not named does not happen") {
  const Case c = one_case("kind: vehicle");
  CHECK_FALSE(c.step);
  CHECK_FALSE(c.nudge);
  CHECK_FALSE(c.tow);
  CHECK_FALSE(c.jack);
  CHECK_FALSE(c.tie_down);
  CHECK_FALSE(c.roll_over);
  CHECK(c.lift.empty());
  CHECK(c.vertical == 1);
  CHECK_FALSE(c.yield_factor);
  CHECK_FALSE(read("").frame.vehicle);
}

TEST_CASE("a load within a member needs a force or a moment, a combined case its parts") {
  const Read r = read(
      "cases:\n  s: {kind: static, point_loads: {m: [{at: 0.5}, {at: 1, force: [1, 0, 0]}]}}\n"
      "  sum: {kind: combine, of: {s: 1.5, t: -2}}\n  odd: 3\n");
  REQUIRE(r.diagnostics.size() == 1);
  CHECK_THAT(r.diagnostics[0].message, ContainsSubstring("a load on `m`"));
  CHECK(r.diagnostics[0].place.line == 5);
  REQUIRE(r.frame.cases.size() == 3);
  CHECK(r.frame.cases[0].point_loads.size() == 2);
  const Case& sum = r.frame.cases[1];
  CHECK(sum.kind == CaseKind::combine);
  REQUIRE(sum.of.size() == 2);
  CHECK(sum.of[0].name == "s");
  CHECK(sum.of[1].factor == -2);
  CHECK(r.frame.cases[2].name == "odd");  // known to whatever combines it
}

TEST_CASE("a case of a ride names it") {
  const Read r = read("cases:\n  hard: {kind: ride, ride: kerb, yield_factor: 1.2}\n");
  REQUIRE(r.diagnostics.empty());
  const Case& c = r.frame.cases[0];
  CHECK(c.kind == CaseKind::ride);
  CHECK(c.ride == "kerb");
  CHECK(c.yield_factor == 1.2);
}

TEST_CASE("a vehicle is read with its wheels in ISO axes and its shares and factors") {
  const std::string text =
      "vehicle:\n  wheels:\n    fl: {contact: [1, 2, 3], centre: [4, 5, 6], carrier: [A, B], hold: "
      "spread, brake: inboard, brake_mount: [C], axle: rear, radius: 250, tyre_rate: 80, "
      "tyre_damping: 0.4}\n  brake_front_share: SHARE\n  tyre_damping: 0.3\n"
      "  tyre_damping_ratio: 0.1\n  structural_damping: 2 %\n"
      "  roll_centre: {front: 10, rear: 20}\n  tyre_rate: 90\n  friction: 0.7\n"
      "  standard_cases: {bump: 1, step_height: 2, step: 3, nudge: 4, twist: 5, tipping: 0.6, "
      "combined: 0.7, downhill: 8}\n";
  const auto vehicle = [&](const std::string& share, bool sae) {
    std::string with_share = text;
    with_share.replace(text.find("SHARE"), 5, share);
    const Read r = read(with_share, sae);
    CHECK(r.already_known.empty());
    REQUIRE(r.frame.vehicle);
    return *r.frame.vehicle;
  };
  const Vehicle v = vehicle("60 %", true);
  const Wheel& w = v.wheels.at(0);
  CHECK((w.contact - half_turn * Eigen::Vector3d(0.001, 0.002, 0.003)).norm() < 1e-15);
  CHECK((w.centre - half_turn * Eigen::Vector3d(0.004, 0.005, 0.006)).norm() < 1e-15);
  CHECK(w.carrier == std::vector<std::string>{"A", "B"});
  CHECK(w.hold == WheelHold::spread);
  CHECK(w.brake == WheelBrake::inboard);
  CHECK(w.brake_mount == std::vector<std::string>{"C"});
  CHECK(w.axle == Axle::rear);
  CHECK_THAT(*w.radius, WithinRel(0.25, 1e-14));
  CHECK_THAT(*w.tyre_rate, WithinRel(80e3, 1e-14));
  CHECK_THAT(*w.tyre_damping, WithinRel(400.0, 1e-14));
  CHECK_THAT(*v.tyre_damping, WithinRel(300.0, 1e-14));
  CHECK(v.tyre_damping_ratio == 0.1);
  CHECK(v.structural_damping == 0.02);
  CHECK_FALSE(v.brake_ideal);
  CHECK_THAT(*v.brake_front_share, WithinRel(0.6, 1e-14));
  CHECK_FALSE(v.roll_stiffness_front_share);
  CHECK_THAT(v.roll_centre_front, WithinRel(0.01, 1e-14));  // above ground in any axes
  CHECK_THAT(v.roll_centre_rear, WithinRel(0.02, 1e-14));
  CHECK_THAT(*v.tyre_rate, WithinRel(90e3, 1e-14));
  CHECK(*v.friction == 0.7);
  CHECK(*v.standard.bump == 1);
  CHECK_THAT(*v.standard.step_height, WithinRel(0.002, 1e-14));
  CHECK(*v.standard.step == 3);
  CHECK(*v.standard.nudge == 4);
  CHECK(*v.standard.twist == 5);
  CHECK(*v.standard.tipping == 0.6);
  CHECK(*v.standard.combined == 0.7);
  CHECK_THAT(*v.standard.downhill, WithinRel(0.08, 1e-14));
  const Vehicle ideal = vehicle("ideal", false);
  CHECK(ideal.brake_ideal);
  CHECK_FALSE(ideal.brake_front_share);
}

}  // namespace tubewright::read_cases_test
