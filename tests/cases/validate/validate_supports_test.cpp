// Supports and carried masses: what each cannot be, direction by direction.
#include <limits>

#include "cases/validate/validate_parts.h"
#include "tests/cases/small_frames.h"
#include "tests/catch.h"

namespace tubewright::validate_supports_test {

using testing::add_node;
using testing::braced_rectangle;
using testing::text_of;

namespace {

constexpr double nan = std::numeric_limits<double>::quiet_NaN();

Diagnostics faults_of_supports(const Frame& f) {
  Diagnostics diagnostics;
  const FrameNames names = names_of(f, diagnostics);
  validate_supports(f, names, diagnostics);
  return diagnostics;
}

Diagnostics faults_of_masses(const std::vector<CarriedMass>& masses) {
  Frame f = braced_rectangle();
  add_node(f, "idle", 0, 3, 0);
  f.masses = masses;
  Diagnostics diagnostics;
  const FrameNames names = names_of(f, diagnostics);
  validate_masses(f, names, diagnostics);
  return diagnostics;
}

CarriedMass driver() {
  CarriedMass m;
  m.name = "driver";
  m.mass = 75;
  m.at = {0.3, 0.2, 0.4};
  m.on = {"A", "B", "C", "D"};
  m.inertia = {2, 3, 0};
  m.place = {31, 5};
  return m;
}

}  // namespace

TEST_CASE("a support may displace a direction exactly if it holds it, and only so far") {
  for (int d = 0; d < 6; ++d) {
    const double most = d < 3 ? 10 : 1;  // m; rad, for the theory is one of small rotations
    for (const double by : {0.001, most, -most, most + 0.01, -most - 0.01, nan}) {
      for (int held = 0; held < 6; ++held) {
        Frame f = braced_rectangle();
        SupportEntry s;
        s.node = "A";
        s.restrained[held] = true;
        s.displacement[d] = by;
        f.supports.push_back(s);
        const Diagnostics diagnostics = faults_of_supports(f);
        INFO(d << ' ' << by << ' ' << held);
        REQUIRE(diagnostics.size() == (held == d && std::abs(by) <= most ? 0u : 1u));
        if (diagnostics.empty()) continue;
        const std::string name = std::string("`") + direction_names[d] + "`";
        CHECK(diagnostics[0].message ==
              (held == d ? "support `A` has an impossible " + name
                         : "support `A` displaces " + name + " without holding it"));
      }
    }
  }
}

TEST_CASE("a support stands once, on a node that a member joins, and holds something") {
  Frame f = braced_rectangle();
  add_node(f, "idle", 0, 3, 0);
  f.supports = {{"A", {true}, {}, {21, 3}},
                {"A", {false, true}, {}, {22, 3}},
                {"idle", {true}, {}, {23, 3}},
                {"B", {}, {}, {24, 3}}};
  const Diagnostics diagnostics = faults_of_supports(f);
  REQUIRE(diagnostics.size() == 3);
  CHECK(diagnostics[0].message == "support `A` is given twice");
  CHECK(diagnostics[1].message == "`supports` names node `idle`, which no member joins");
  CHECK(diagnostics[2].message == "support `B` holds nothing");
  for (int i = 0; i < 3; ++i) CHECK(diagnostics[i].place.line == 22 + i);
}

TEST_CASE(
    "a mass has a weight, a place and moments of inertia that can be, each reported by its key") {
  CHECK(text_of(faults_of_masses({driver()})).empty());
  const auto message = [](const CarriedMass& m) {
    const Diagnostics diagnostics = faults_of_masses({m});
    REQUIRE(diagnostics.size() == 1);
    CHECK(diagnostics[0].place.line == 31);
    return diagnostics[0].message;
  };
  for (const double bad : {0.0, -75.0, 1e7, nan}) {
    CarriedMass m = driver();
    m.mass = bad;
    CHECK(message(m) == "mass `driver` has an impossible `mass`");
  }
  for (int axis = 0; axis < 3; ++axis) {
    CarriedMass far = driver(), inverse = driver();
    far.at[axis] = far.at[(axis + 1) % 3] = -1001;  // one fault, not one a coordinate
    CHECK(message(far) == "mass `driver` has an impossible `at`");
    inverse.inertia[axis] = -1e-3;
    CHECK(message(inverse) == "mass `driver` has an impossible `inertia`");
  }
}

TEST_CASE("a mass rests on one joined node or more, each named once, and has a name of its own") {
  CarriedMass m = driver();
  m.on = {"A"};
  CHECK(faults_of_masses({m}).empty());
  m.on = {"A", "idle", "X", "A"};
  const std::string text = text_of(faults_of_masses({m}));
  CHECK_THAT(text, ContainsSubstring("mass `driver` names node `idle`, which no member joins"));
  CHECK_THAT(text, ContainsSubstring("mass `driver` names node `X`, which does not exist"));
  CHECK_THAT(text, ContainsSubstring("mass `driver` names node `A` twice under `on`"));
  CHECK(faults_of_masses({m}).size() == 3);
  m.on.clear();
  CHECK_THAT(text_of(faults_of_masses({m})), ContainsSubstring("mass `driver` rests on nothing"));
  const Diagnostics twice = faults_of_masses({driver(), driver()});
  REQUIRE(twice.size() == 1);
  CHECK(twice[0].message == "mass `driver` is given twice");
}

}  // namespace tubewright::validate_supports_test
