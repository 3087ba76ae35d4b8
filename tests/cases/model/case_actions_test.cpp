// Load cases as actions: resultants by statics, combinations against sums over all their terms.
#include "cases/model/case_actions.h"

#include <random>

#include "tests/cases/clad_frames.h"
#include "tests/cases/resultants.h"
#include "tests/catch.h"

namespace tubewright::case_actions_test {

using testing::add_case;
using testing::add_member;
using testing::add_node;
using testing::empty_frame;
using testing::resultant;
using testing::Resultant;

namespace {

/// A bent tube `rail` of three pieces, 0.3, 0.4 and 0.5 m long, that weighs 2 kg/m.
Frame rail() {
  Frame f = empty_frame();
  MaterialEntry m;
  m.name = "known";
  m.properties = {200e9, 80e9, 8000, 300e6, 400e6};
  f.materials.push_back(m);
  f.sections[0].shape = Shape::properties;
  f.sections[0].given = {2.5e-4, 1e-8, 1e-8, 1e-8, 1e-6, 1e-6, 1e-6, 0, 0, rigid, rigid, {}};
  f.sections[0].material = "known";
  add_node(f, "a", 0, 0, 0.2);
  add_node(f, "b", 0.3, 0, 0.2);
  add_node(f, "c", 0.3, 0.4, 0.2);
  add_node(f, "d", 0.6, 0.4, 0.6);
  for (const auto& [name, from, to] :
       {std::tuple{"rail.1", "a", "b"}, {"rail.2", "b", "c"}, {"rail.3", "c", "d"}}) {
    add_member(f, name, from, to).tube = "rail";
  }
  return f;
}

Resultant of_case(const Frame& f, const std::string& name) {
  const NumberedFrame n = build_model(f);
  return resultant(n.model, case_actions(f, n, *find_case(f, name)), Eigen::Vector3d::Zero());
}

void check_equal(const Resultant& r, const Eigen::Vector3d& force, const Eigen::Vector3d& moment) {
  CHECK((r.force - force).norm() < 1e-9);
  CHECK((r.moment - moment).norm() < 1e-9);
}

}  // namespace

// Summed by hand: 2 kg/m on 0.3, 0.4 and 0.5 m at the middles of the pieces, and 5 kg carried.
TEST_CASE("a case's gravity puts the weight of tubes and masses on the frame at their centre") {
  Frame f = rail();
  f.gravity = 10;
  CarriedMass m;
  m.name = "box";
  m.mass = 5;
  m.at = {0.1, 0.1, 0.5};
  m.on = {"a", "b", "c"};
  f.masses.push_back(m);
  for (const bool links : {false, true}) {
    if (links) f.members[1].kind = MemberKind::link;
    f.cases.clear();
    add_case(f, "lean").gravity = {0.5, 0, -2};
    const Eigen::Vector3d b(5, 0, -20);
    const Eigen::Vector3d moment_of_mass = 0.6 * Eigen::Vector3d(0.15, 0, 0.2) +
                                           0.8 * Eigen::Vector3d(0.3, 0.2, 0.2) +
                                           1.0 * Eigen::Vector3d(0.45, 0.4, 0.4) + 5 * m.at;
    check_equal(of_case(f, "lean"), 7.4 * b, moment_of_mass.cross(b));
  }
}

TEST_CASE("forces and moments on nodes and line loads on a whole tube are all counted once") {
  Frame f = rail();
  Case& c = add_case(f, "push");
  c.forces = {{"b", {10, 20, 30}, {}}, {"b", {1, 0, 0}, {}}};
  c.moments = {{"d", {3, 4, 5}, {}}};
  c.line_loads = {{"rail", {0, 0, -100}, {}}, {"rail.2", {0, 50, 0}, {}}};
  const Eigen::Vector3d down(0, 0, -100), left(0, 50, 0), force(11, 20, 30);
  const Eigen::Vector3d first(0.15, 0, 0.2), second(0.3, 0.2, 0.2), third(0.45, 0.4, 0.4);
  check_equal(of_case(f, "push"), force + 1.2 * down + 0.4 * left,
              Eigen::Vector3d(0.3, 0, 0.2).cross(force) + Eigen::Vector3d(3, 4, 5) +
                  (0.3 * first + 0.4 * second + 0.5 * third).cross(down) +
                  0.4 * second.cross(left));
}

// The place at a fraction of a polyline is found by walking along it: 1.2 m in all.
TEST_CASE("a point load on a path stands at its fraction of the whole length") {
  for (const auto& [at, x, y, z] : {std::tuple{0.0, 0.0, 0.0, 0.2},
                                    {0.125, 0.15, 0.0, 0.2},
                                    {0.25, 0.3, 0.0, 0.2},
                                    {0.5, 0.3, 0.3, 0.2},
                                    {0.875, 0.51, 0.4, 0.48},
                                    {1.0, 0.6, 0.4, 0.6}}) {
    Frame f = rail();
    const Eigen::Vector3d place(x, y, z), force(70, -80, 90), moment(1, 2, 3);
    add_case(f, "hit").point_loads.push_back({"rail", at, force, moment, {}});
    INFO(at);
    check_equal(of_case(f, "hit"), force, place.cross(force) + moment);
  }
}

TEST_CASE("a combination has the sum of its parts times their factors, however it is nested") {
  std::mt19937 random(1);
  std::uniform_real_distribution<double> u(-2, 2);
  Frame f = rail();
  f.supports.push_back({"a", {true, true, true}, {0.001, -0.002, 0.003}, {}});
  std::vector<Resultant> parts;
  std::vector<std::vector<double>> factors;  // of each case the factors of the first three
  for (int i = 0; i < 12; ++i) {
    const std::string name = "c" + std::to_string(i);
    Case& c = add_case(f, name, i < 3 ? CaseKind::fixed_supports : CaseKind::combine);
    factors.emplace_back(3, 0.0);
    if (i < 3) {
      c.forces.push_back({"d", {u(random), u(random), u(random)}, {}});
      c.gravity.z() = u(random);
      c.point_loads.push_back({"rail", 0.4, {u(random), 0, 1}, {0, 0, 0}, {}});
      factors.back()[i] = 1;
      parts.push_back(of_case(f, name));
      continue;
    }
    for (int term = 0; term < 3; ++term) {
      const int of = std::uniform_int_distribution<int>(0, i - 1)(random);
      c.of.push_back({"c" + std::to_string(of), u(random), {}});
      for (int k = 0; k < 3; ++k) factors[i][k] += c.of.back().factor * factors[of][k];
    }
  }
  const NumberedFrame n = build_model(f);
  for (int i = 3; i < 12; ++i) {
    const Case& c = f.cases[i];
    Resultant sum;
    double total = 0;
    for (int k = 0; k < 3; ++k) {
      sum.force += factors[i][k] * parts[k].force;
      sum.moment += factors[i][k] * parts[k].moment;
      total += factors[i][k];
    }
    check_equal(of_case(f, c.name), sum.force, sum.moment);
    for (const auto& [name, factor] : basic_cases(f, c)) {
      CHECK_THAT(factor, WithinAbs(factors[i][name[1] - '0'], 1e-9));
    }
    const Actions a = case_actions(f, n, c);
    CHECK((a.prescribed.head<3>() - total * Eigen::Vector3d(0.001, -0.002, 0.003)).norm() < 1e-12);
  }
}

TEST_CASE("a case needs a vehicle if any part of its parts does") {
  Frame f = rail();
  add_case(f, "drive", CaseKind::vehicle);
  add_case(f, "stand");
  add_case(f, "sum", CaseKind::combine).of = {{"stand", 1, {}}, {"drive", 0.5, {}}};
  add_case(f, "tower", CaseKind::combine).of = {{"sum", 2, {}}};
  add_case(f, "still", CaseKind::combine).of = {{"stand", 3, {}}, {"stand", -1, {}}};
  for (const auto& [name, needs] : {std::pair{"drive", true},
                                    {"stand", false},
                                    {"sum", true},
                                    {"tower", true},
                                    {"still", false}}) {
    INFO(name);
    REQUIRE(find_case(f, name) != nullptr);
    CHECK(needs_vehicle(f, *find_case(f, name)) == needs);
  }
  CHECK(basic_cases(f, *find_case(f, "still")) == Factors{{"stand", 2}});
  CHECK(find_case(f, "drift") == nullptr);
}

}  // namespace tubewright::case_actions_test
