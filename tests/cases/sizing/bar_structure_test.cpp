#include "cases/sizing/bar_structure.h"

#include <random>

#include "cases/sizing/bar_relaxation.h"
#include "cases/sizing/size_groups.h"
#include "tests/cases/changes/ring_box.h"
#include "tests/cases/sizing/listed_trusses.h"
#include "tests/catch.h"

namespace tubewright::bar_structure_tests {

using namespace tubewright::testing;
using Catch::Matchers::WithinRel;

namespace {

std::optional<BarStructure> structure_of(const Frame& frame,
                                         const std::vector<SizedTubes>& groups) {
  return bar_structure(frame, groups, sized_stiffness(frame, groups));
}

/// Of random choices the greatest use is the worst utilisation that the frame's own checks find.
void compare_with_checks(const Frame& frame) {
  const std::vector<SizedTubes> groups = answer_of(size_groups(frame, false)).groups;
  const auto structure = structure_of(frame, groups);
  REQUIRE(structure);
  std::mt19937 random(1);
  for (int trial = 0; trial < 20; ++trial) {
    Choice choice;
    for (const SizedTubes& group : groups) {
      choice.push_back(static_cast<int>(random() % group.sizes.size()));
    }
    const Analysis analysis = answer_of(analyse(in_sizes(frame, groups, choice)));
    const double worst = worst_of_all(analysis)->utilisation;
    CHECK_THAT(greatest_use(*structure, choice).use, WithinRel(worst, 1e-9));
  }
}

}  // namespace

TEST_CASE("the greatest use of sized bars is the worst of the checks of the frame in those sizes") {
  compare_with_checks(ten_listed_bars());
  compare_with_checks(twenty_five_listed_bars());
}

TEST_CASE("the weight of sized bars is in the greatest use") {
  Frame f = twenty_five_listed_bars();
  f.cases[0].gravity = {0, -3, -1};
  compare_with_checks(f);
}

TEST_CASE("of two cases the worse counts") {
  Frame f = twenty_five_listed_bars();
  Case& second = add_case(f, "pull");
  second.forces = {{"1", {20000, 0, 30000}, {}}, {"2", {0, 40000, 0}, {}}};
  compare_with_checks(f);
}

TEST_CASE("bars that stand on beams are solved with them") {
  // A cantilever of tube, propped by a sized link at its middle and one at its end.
  Frame f = empty_frame();
  add_node(f, "wall", 0, 0, 0);
  add_node(f, "middle", 0.5, 0, 0);
  add_node(f, "end", 1, 0, 0);
  add_node(f, "low_1", 0.5, 0, -0.5);
  add_node(f, "low_2", 1, 0, -0.5);
  add_member(f, "beam_1", "wall", "middle");
  add_member(f, "beam_2", "middle", "end");
  SectionEntry rod = f.sections.front();
  rod.name = "rod";
  rod.shape = Shape::round_bar;
  rod.height = rod.width = 0.006;
  rod.wall = 0;
  f.sections.push_back(rod);
  for (const char* n : {"1", "2"}) {
    Member& prop = add_member(f, std::string("prop_") + n, std::string("low_") + n,
                              n[0] == '1' ? "middle" : "end");
    prop.kind = MemberKind::link;
    prop.section = "rod";
  }
  f.keep.members = {"beam_1", "beam_2"};
  f.supports = {{"wall", {true, true, true, true, true, true}, {}, {}},
                {"low_1", {true, true, true}, {}, {}},
                {"low_2", {true, true, true}, {}, {}}};
  Case& c = add_case(f, "load");
  c.forces = {{"end", {0, 0, -300}, {}}, {"middle", {0, 10, -200}, {}}};
  DisplacementLimit limit;
  limit.load_case = "load";
  limit.node = "end";
  limit.most[2] = 1e-5;  // so that it is the worst
  f.limits.displacements = {limit};
  compare_with_checks(f);
}

TEST_CASE("tubes that bend are no bars") {
  Frame f = ring_box();
  f.supports.clear();
  for (const char* node : {"lb0", "rb0", "rt0", "lt0"}) {
    f.supports.push_back({node, {true, true, true}, {}, {}});
  }
  const std::vector<SizedTubes> groups = answer_of(size_groups(f, false)).groups;
  CHECK_FALSE(structure_of(f, groups));
}

}  // namespace tubewright::bar_structure_tests
