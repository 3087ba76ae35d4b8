// Torsion test, targets, stock, life and bench test: what each of them cannot be, key by key.
#include <cmath>
#include <limits>

#include "cases/validate/validate_parts.h"
#include "tests/cases/small_frames.h"
#include "tests/catch.h"

namespace tubewright::validate_studies_test {

using testing::add_node;
using testing::braced_rectangle;
using testing::text_of;

namespace {

Diagnostics faults(const Frame& f) {
  Diagnostics diagnostics;
  const FrameNames names = names_of(f, diagnostics);
  REQUIRE(diagnostics.empty());
  validate_studies(f, names, diagnostics);
  return diagnostics;
}

constexpr std::nullopt_t none = std::nullopt;
constexpr double nan = std::numeric_limits<double>::quiet_NaN();

}  // namespace

// Twist is a difference of heights over a distance across (any handbook): it needs y_left >
// y_right.
TEST_CASE("a torsion pair is a left and a right node, a millimetre apart at least") {
  Frame f = braced_rectangle();  // C and D lie at y = 0.4, A and B at y = 0
  f.torsion = TorsionTest{{"C", "B"}, {"D", "A"}, 100, {21, 3}};
  CHECK(text_of(faults(f)).empty());
  for (const auto& [apart, sound] :
       {std::pair{0.0011, true}, {0.0009, false}, {0.0, false}, {-0.4, false}}) {
    f.nodes[2].at.y() = apart;
    const Diagnostics diagnostics = faults(f);
    CHECK(diagnostics.size() == (sound ? 0u : 1u));
    if (sound) continue;
    CHECK_THAT(diagnostics[0].message,
               ContainsSubstring("`torsion.front` needs a left and a right"));
    CHECK_THAT(diagnostics[0].message, ContainsSubstring("`C` is not to the left of `B`"));
    CHECK(diagnostics[0].place.line == 21);
  }
}

TEST_CASE("a torsion test names four different nodes that members join, and a couple above zero") {
  Frame f = braced_rectangle();
  add_node(f, "idle", 0, 3, 0);
  f.torsion = TorsionTest{{"idle", "B"}, {"D", "D"}, 100, {}};
  std::string text = text_of(faults(f));
  CHECK_THAT(text, ContainsSubstring("`torsion.front` names node `idle`, which no member joins"));
  CHECK_THAT(text, ContainsSubstring("the torsion test uses node `D` twice"));
  CHECK(faults(f).size() == 2);
  for (const double couple : {0.0, -1.0, nan}) {
    f.torsion = TorsionTest{{"C", "B"}, {"D", "A"}, couple, {}};
    CHECK_THAT(text_of(faults(f)),
               ContainsSubstring("the torsion test has an impossible `couple`"));
  }
}

TEST_CASE("every target is above zero where it is given, and reported by its own key") {
  CHECK(faults(braced_rectangle()).empty());
  const std::pair<const char*, std::optional<double> Limits::*> targets[] = {
      {"torsional_stiffness", &Limits::torsional_stiffness},
      {"mass", &Limits::mass},
      {"deflection", &Limits::deflection},
      {"frequency", &Limits::frequency}};
  for (const auto& [key, target] : targets) {
    for (const double value : {12.0, 0.0, -3.0, nan}) {
      Frame f = braced_rectangle();
      f.limits.*target = value;
      const Diagnostics diagnostics = faults(f);
      REQUIRE(diagnostics.size() == (value > 0 ? 0u : 1u));
      if (value > 0) continue;
      CHECK(diagnostics[0].message == std::string("`limits` has an impossible `") + key + "`");
    }
  }
  Frame f = braced_rectangle();
  f.limits.yield_factor = 0;
  CHECK_THAT(text_of(faults(f)), ContainsSubstring("`limits` has an impossible `yield_factor`"));
}

TEST_CASE("a bar of stock is longer than what is trimmed off both its ends") {
  for (const auto& [length, trim, sound] :
       {std::tuple{6.0, 0.02, true}, {6.0, 2.999, true}, {6.0, 3.0, false}, {0.03, 0.02, false}}) {
    Frame f = braced_rectangle();
    f.stock = Stock{};
    f.stock->length = length;
    f.stock->end_trim = trim;
    INFO(length << ' ' << trim);
    CHECK((text_of(faults(f)).find("`stock` trims its bars away") == std::string::npos) == sound);
  }
  Frame f = braced_rectangle();
  f.stock = Stock{};
  f.stock->kerf = -0.001;
  f.stock->length = 0;
  f.stock->sizes = {{Shape::square_tube, 0.02, 0.02, 0.002, 3.5}, {Shape::properties, 0, 0, 0, {}}};
  f.stock->sizes[1].given.Ay = f.stock->sizes[1].given.Az = rigid;
  const Diagnostics diagnostics = faults(f);
  REQUIRE(diagnostics.size() == 3);
  CHECK(diagnostics[0].message == "`stock` has an impossible `kerf`");
  CHECK(diagnostics[1].message == "`stock` has an impossible `length`");
  CHECK(diagnostics[2].message == "stock size 2 has an impossible `A`");
}

TEST_CASE("a stock size of given properties needs its area; what else it gives is above zero") {
  Frame f = braced_rectangle();
  f.stock = Stock{};
  StockSize size{Shape::properties, 0, 0, 0, 2.0};
  size.given.A = 1e-4;
  size.given.Ay = size.given.Az = rigid;
  f.stock->sizes = {size};
  CHECK(text_of(faults(f)).empty());
  const std::pair<const char*, double Section::*> properties[] = {
      {"A", &Section::A},   {"Iy", &Section::Iy}, {"Iz", &Section::Iz},    {"It", &Section::It},
      {"Wy", &Section::Wy}, {"Wz", &Section::Wz}, {"Wt", &Section::Wt},    {"Wply", &Section::Wply},
      {"Ay", &Section::Ay}, {"Az", &Section::Az}, {"Wplz", &Section::Wplz}};
  for (const auto& [key, property] : properties) {
    for (const double value : {-1e-8, nan, 1e30}) {
      f.stock->sizes = {size};
      f.stock->sizes[0].given.*property = value;
      const Diagnostics diagnostics = faults(f);
      REQUIRE(diagnostics.size() == 1);
      CHECK(diagnostics[0].message == std::string("stock size 1 has an impossible `") + key + "`");
    }
  }
  f.stock->sizes = {size};
  f.stock->sizes[0].price = -1;
  CHECK_THAT(text_of(faults(f)), ContainsSubstring("stock size 1 has an impossible `price`"));
}

TEST_CASE("a limit of displacement names a case and a joined node, and limits a direction") {
  Frame f = braced_rectangle();
  f.vehicle.reset();
  f.cases = {Case{}};
  f.cases[0].name = "standing";
  add_node(f, "idle", 0, 3, 0);
  f.limits.displacements = {{"standing", "A", {0.005, none, 0.01}, {11, 3}}};
  CHECK(text_of(faults(f)).empty());
  f.limits.displacements = {{"standin", "B", {none, 0.005, none}, {12, 3}},
                            {"standing", "idle", {none, 0.005, none}, {13, 3}},
                            {"standing", "C", {none, none, none}, {14, 3}},
                            {"standing", "D", {none, -1.0, nan}, {15, 3}}};
  const Diagnostics diagnostics = faults(f);
  REQUIRE(diagnostics.size() == 5);
  CHECK(diagnostics[0].message ==
        "`limits.displacement` names case `standin`, which does not exist");
  CHECK(diagnostics[0].advice == "did you mean `standing`?");
  CHECK(diagnostics[0].place.line == 12);
  CHECK_THAT(diagnostics[1].message, ContainsSubstring("node `idle`, which no member joins"));
  CHECK(diagnostics[2].message ==
        "`limits.displacement` limits node `C` in case `standing` in no direction");
  CHECK(diagnostics[3].message == "`limits.displacement`, node `D` has an impossible `y`");
  CHECK(diagnostics[4].message == "`limits.displacement`, node `D` has an impossible `z`");
}

// The standard cases of a vehicle are known once its loads are: with_load_cases() looks then.
TEST_CASE("the cases of displacement limits are not judged where a vehicle's are still to come") {
  Frame f = braced_rectangle();
  f.cases.clear();
  f.limits.displacements = {{"bump_front", "A", {0.005, none, none}, {}}};
  CHECK_THAT(text_of(faults(f)), ContainsSubstring("names case `bump_front`"));
  f.vehicle = Vehicle{};
  CHECK(text_of(faults(f)).empty());
}

TEST_CASE("a tube is in one group, or kept, or neither, and has a size") {
  Frame f = braced_rectangle();
  REQUIRE(f.members.size() >= 4);
  f.members[0].tube = f.members[1].tube = "hoop";
  const std::string first = f.members[0].name, third = f.members[2].name, last = f.members[3].name;
  f.groups = {{"hoops", {"hoop"}, {7, 1}}, {"sides", {third}, {8, 1}}};
  f.keep = {{last}, {9, 1}};
  CHECK(text_of(faults(f)).empty());

  f.groups = {{"hoops", {"hoop"}, {7, 1}}, {"sides", {third, first}, {8, 1}}};
  Diagnostics diagnostics = faults(f);
  REQUIRE(diagnostics.size() == 1);
  CHECK(diagnostics[0].message == quoted(first) + " is in group `hoops` and in group `sides`");
  CHECK(diagnostics[0].place.line == 8);

  f.groups = {{"sides", {third, third}, {}}};
  CHECK(text_of(faults(f)).find("group `sides` lists " + quoted(third) + " twice") !=
        std::string::npos);
  f.groups = {{"sides", {last}, {}}};
  CHECK_THAT(text_of(faults(f)),
             ContainsSubstring(quoted(last) + " is in group `sides` and in `keep`"));
  f.groups = {{"hoops", {"hop"}, {}}};
  CHECK_THAT(text_of(faults(f)), ContainsSubstring("group `hoops` names member `hop`"));
  CHECK_THAT(text_of(faults(f)), ContainsSubstring("did you mean `hoop`?"));
  f.groups = {{"none", {}, {}}, {"none", {third}, {}}};
  CHECK_THAT(text_of(faults(f)), ContainsSubstring("group `none` is empty"));
  CHECK(faults(f).size() == 2);
  f.groups.clear();
  f.members[3].kind = MemberKind::spring;
  CHECK_THAT(text_of(faults(f)), ContainsSubstring("a spring, which has no size"));
}

// A cycle goes between load cases or is shaken vertically, never both and never neither.
TEST_CASE("a cycle of a life is of exactly one kind, in all eight ways to give it") {
  for (int given = 0; given < 8; ++given) {
    LifeBlock block;
    if (given & 1) block.load_case = "bump";
    if (given & 2) block.from = "dip";
    if (given & 4) block.vertical = 1;
    block.cycles = 1000;
    const bool between_cases = given == 1 || given == 3, shaken = given == 4;
    for (const bool vehicle : {false, true}) {
      Frame f = braced_rectangle();
      f.life = Life{};
      f.life->spectrum.push_back(block);
      if (vehicle) f.vehicle = Vehicle{};
      const std::string text = text_of(faults(f));
      INFO(given << text);
      const bool of_one_kind = text.find("needs either `case` or `vertical`") == std::string::npos;
      CHECK(of_one_kind == (between_cases || shaken));
      CHECK(text.empty() == (between_cases || (shaken && vehicle)));
    }
  }
  Frame f = braced_rectangle();
  f.life = Life{};
  f.vehicle = Vehicle{};
  CHECK(faults(f).empty());  // a vehicle's own spectrum
  f.life->category = 0;
  CHECK_THAT(text_of(faults(f)), ContainsSubstring("`life` has an impossible `category`"));
}

TEST_CASE("a bench test weighs joined nodes down or up and reads its gauges along x, y or z") {
  for (int direction = -1; direction <= 5; ++direction) {
    Frame f = braced_rectangle();
    f.bench_test = BenchTest{{{"A", -20}, {"B", 20}}, {{"C", direction, -0.003}}};
    CHECK(faults(f).empty() == (direction >= 0 && direction <= 2));
  }
  Frame f = braced_rectangle();
  add_node(f, "idle", 0, 3, 0);
  f.bench_test = BenchTest{{{"idle", 20}, {"A", nan}}, {{"C", 2, 11.0}, {"nowhere", 2, {}}}};
  const Diagnostics diagnostics = faults(f);
  REQUIRE(diagnostics.size() == 4);
  CHECK(diagnostics[0].message == "`bench_test.weights` names node `idle`, which no member joins");
  CHECK(diagnostics[1].message == "`bench_test.weights` has an impossible `A`");
  CHECK(diagnostics[2].message == "`bench_test.readings` has an impossible `C`");
  CHECK(diagnostics[3].message == "`bench_test.gauges` names node `nowhere`, which does not exist");
}

}  // namespace tubewright::validate_studies_test
