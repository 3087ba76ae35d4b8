#include "cases/sizing/size_groups.h"

#include <algorithm>

#include "cases/frame/built_in_materials.h"
#include "cases/frame/find_parts.h"
#include "cases/frame/section_of.h"
#include "tests/cases/sizing/sized_box.h"
#include "tests/catch.h"

namespace tubewright::size_groups_tests {

using namespace tubewright::testing;

namespace {

std::vector<std::string> members_of(const Frame& f, const SizedTubes& group) {
  std::vector<std::string> names;
  for (const int m : group.members) names.push_back(f.members[static_cast<size_t>(m)].name);
  return names;
}

using Names = std::vector<std::string>;

/// The members of the group that has this one; empty: none has.
Names together_with(const Frame& f, const std::vector<SizedTubes>& groups,
                    const std::string& member) {
  for (const SizedTubes& group : groups) {
    Names names = members_of(f, group);
    if (std::find(names.begin(), names.end(), member) != names.end()) return names;
  }
  return {};
}

Member& member_of(Frame& f, const std::string& name) {
  return f.members[static_cast<size_t>(member_named(f, name))];
}

/// Two rails from x = 0 to 1 m and 2 m, each a path of two pieces, a bar between their middles,
/// which the mirror rule made: endings `_l` and `_r`.
Frame mirrored_rails() {
  Frame f = empty_frame();
  for (const auto& [side, y] : {std::pair{"_l", 0.3}, {"_r", -0.3}}) {
    const std::string s = side;
    for (int i = 0; i < 3; ++i) add_node(f, "n" + std::to_string(i) + s, i, y, 0);
    for (int i = 0; i < 2; ++i) {
      const std::string at = std::to_string(i), next = std::to_string(i + 1);
      add_member(f, "rail." + at + s, "n" + at + s, "n" + next + s).tube = "rail" + s;
    }
    add_node(f, "foot" + s, 1, y, -0.5);
    add_member(f, "leg" + s, "n1" + s, "foot" + s);
  }
  add_member(f, "cross", "n1_l", "n1_r");
  f.mirror = MirrorRule{"_l", "_r", {5, 3}};
  f.stock = Stock{};
  f.stock->sizes = {square_size(0.020, 0.002), square_size(0.030, 0.002)};
  return f;
}

}  // namespace

TEST_CASE("left and right go together without being told, named by the first of them") {
  const Frame f = box_with_stock();
  const SizeGroups sized = answer_of(size_groups(f, false));
  CHECK(sized.groups.size() == 4 + 3 * 3);
  CHECK(sized.without_size.empty());
  CHECK(sized.groups.front().name == "lb0-lb1");
  CHECK(members_of(f, sized.groups.front()) == Names{"lb0-lb1", "rb0-rb1"});
  size_t members = 0;
  for (const SizedTubes& group : sized.groups) {
    members += group.members.size();
    CHECK(std::is_sorted(group.members.begin(), group.members.end()));
    CHECK(group.now.name == "tube");
  }
  CHECK(members == f.members.size());
}

TEST_CASE("the file's groups come first and as named, the others by what is left of them") {
  Frame f = box_with_stock();
  f.groups = {{"posts", {"lt1-lb1", "rb0-rt0"}, {}}, {"sill", {"lb0-lb1"}, {}}};
  const SizeGroups sized = answer_of(size_groups(f, false));
  CHECK(sized.groups[0].name == "posts");
  CHECK(members_of(f, sized.groups[0]) == Names{"rb0-rt0", "lt1-lb1"});
  CHECK(sized.groups[1].name == "sill");
  CHECK(members_of(f, sized.groups[1]) == Names{"lb0-lb1"});
  CHECK(together_with(f, sized.groups, "rb0-rb1") == Names{"rb0-rb1"});
  CHECK(together_with(f, sized.groups, "rb2-rt2") == Names{"rb2-rt2", "lt2-lb2"});
}

TEST_CASE("what the file keeps is in no group") {
  Frame f = box_with_stock();
  f.keep.members = {"lb0-lb1", "lb1-rb1"};
  const SizeGroups sized = answer_of(size_groups(f, false));
  CHECK(together_with(f, sized.groups, "lb0-lb1").empty());
  CHECK(together_with(f, sized.groups, "lb1-rb1").empty());
  CHECK(together_with(f, sized.groups, "rb0-rb1") == Names{"rb0-rb1"});
}

TEST_CASE("springs have no size and kept paths keep all their pieces") {
  Frame f = mirrored_rails();
  Member& spring = add_member(f, "spring", "n0_l", "n2_r");
  spring.kind = MemberKind::spring;
  spring.section.clear();
  spring.rate = 1e4;
  f.keep.members = {"rail_l"};
  const SizeGroups sized = answer_of(size_groups(f, false));
  for (const char* name : {"spring", "rail.0_l", "rail.1_l", "rail.0_r", "rail.1_r"}) {
    CHECK(together_with(f, sized.groups, name).empty());
  }
  CHECK(sized.groups.size() == 2);
}

TEST_CASE("a path is one tube, alone and in a group that names it") {
  Frame f = mirrored_rails();
  const Names rails{"rail.0_l", "rail.1_l", "rail.0_r", "rail.1_r"};
  CHECK(together_with(f, groups_of(f), "rail.1_r") == rails);
  CHECK(groups_of(f).size() == 3);
  f.mirror = {};
  f.groups = {{"left", {"rail_l"}, {}}};
  CHECK(together_with(f, groups_of(f), "rail.0_l") == Names{"rail.0_l", "rail.1_l"});
  CHECK(together_with(f, groups_of(f), "rail.0_r") == Names{"rail.0_r", "rail.1_r"});
}

TEST_CASE("images that the mirror rule makes go into the group of what they are images of") {
  Frame f = mirrored_rails();
  f.groups = {{"legs and all", {"cross", "leg_l"}, {}}};
  CHECK(together_with(f, groups_of(f), "leg_r") == Names{"leg_l", "leg_r", "cross"});
  f.groups = {{"rails", {"rail_l"}, {}}};
  CHECK(together_with(f, groups_of(f), "rail.1_r").size() == 4);
}

TEST_CASE("sizes are in the order of the group's mass, which is that of its tubes") {
  Frame f = box_with_stock();
  std::reverse(f.stock->sizes.begin(), f.stock->sizes.end());
  f.stock->sizes.push_back({Shape::round_tube, 0.022, 0.022, 0.0015, {}, {}});
  const std::vector<SizedTubes> groups = groups_of(f);
  const double density = find_material(f, "S235")->properties.density;
  for (const SizedTubes& group : groups) {
    REQUIRE(group.sizes.size() == 4);
    CHECK(group.costs.empty());
    CHECK(std::is_sorted(group.masses.begin(), group.masses.end()));
    double length = 0;
    for (const int m : group.members) {
      const Member& member = f.members[static_cast<size_t>(m)];
      Eigen::Vector3d from = Eigen::Vector3d::Zero(), to = from;
      for (const Node& n : f.nodes) {
        if (n.name == member.from) from = n.at;
        if (n.name == member.to) to = n.at;
      }
      length += (to - from).norm();
    }
    for (size_t j = 0; j < 4; ++j) {
      SectionEntry made = f.sections.front();
      made.height = made.width = group.stock[j].height;
      made.wall = group.stock[j].wall;
      CHECK(group.sizes[j].height == made.height);
      CHECK(group.sizes[j].wall == made.wall);
      const double area = section_of(made, find_material(f, "S235")->properties).A;
      CHECK_THAT(group.masses[j], WithinRel(area * density * length, 1e-9));
    }
  }
}

TEST_CASE("the cheapest first where cost is asked for, at the stock's price a length") {
  Frame f = mirrored_rails();
  f.stock->length = 6;
  f.stock->sizes = {square_size(0.020, 0.002, 30), square_size(0.030, 0.002, 12),
                    square_size(0.025, 0.002, 18)};
  const auto walls = [](const SizedTubes& group) {
    std::vector<double> sides;
    for (const StockSize& size : group.stock) sides.push_back(size.height);
    return sides;
  };
  const SizedTubes by_mass = answer_of(size_groups(f, false)).groups.front();
  const SizedTubes by_cost = answer_of(size_groups(f, true)).groups.front();
  CHECK(walls(by_mass) == std::vector<double>{0.020, 0.025, 0.030});
  CHECK(walls(by_cost) == std::vector<double>{0.030, 0.025, 0.020});
  REQUIRE(by_mass.members.size() == 4);  // 4 m of rails
  const double by_metre[] = {2, 3, 5};
  for (size_t j = 0; j < 3; ++j) {
    CHECK_THAT(by_cost.costs[j], WithinRel(4 * by_metre[j], 1e-9));
    CHECK_THAT(by_mass.costs[j], WithinRel(4 * by_metre[2 - j], 1e-9));
  }
}

TEST_CASE("tubes of a shape that the list has not keep their size and are told of") {
  Frame f = box_with_stock();
  SectionEntry round = f.sections.front();
  round.name = "round";
  round.shape = Shape::round_tube;
  f.sections.push_back(round);
  member_of(f, "lb1-rb1").section = "round";
  const SizeGroups sized = answer_of(size_groups(f, false));
  CHECK(sized.without_size == Names{"lb1-rb1"});
  CHECK(together_with(f, sized.groups, "lb1-rb1").empty());
  CHECK(sized.groups.size() == 12);
}

TEST_CASE("without a list of its own a file's sizes are the common ones and those it has") {
  Frame f = ring_box();
  f.sections.front().height = f.sections.front().width = 0.0253;
  SectionEntry other = f.sections.front();
  other.name = "other";
  other.height = other.width = 0.0268;
  f.sections.push_back(other);
  member_of(f, "lb0-lb1").section = "other";
  f.groups = {{"sill", {"lb0-lb1", "lb1-lb2"}, {}}};
  const SizedTubes sill = groups_of(f).front();
  const auto has = [&](double side) {
    return std::any_of(sill.stock.begin(), sill.stock.end(),
                       [&](const StockSize& size) { return size.height == side; });
  };
  CHECK(has(0.0253));
  CHECK(has(0.0268));
  CHECK(has(0.030));
  CHECK(sill.sizes.size() > 10);
}

TEST_CASE("in the sizes of a choice each group has its own, and what is held stays") {
  Random random(41);
  Frame f = box_with_stock();
  f.keep.members = {"lb1-rb1"};
  const std::vector<SizedTubes> groups = groups_of(f);
  Choice choice = random_choice(random, masses_of(groups));
  choice[3] = -1;
  const Frame drawn = in_sizes(f, groups, choice);
  for (size_t g = 0; g < groups.size(); ++g) {
    for (const int m : groups[g].members) {
      const SectionEntry& own = find_section(drawn, drawn.members[static_cast<size_t>(m)].section);
      const double side = choice[g] < 0 ? f.sections.front().height
                                        : groups[g].stock[static_cast<size_t>(choice[g])].height;
      CHECK(own.height == side);
      CHECK(own.material == "S235");
    }
  }
  CHECK(drawn.members[static_cast<size_t>(member_named(f, "lb1-rb1"))].section == "tube");
}

}  // namespace tubewright::size_groups_tests
