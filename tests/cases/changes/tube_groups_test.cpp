#include "cases/changes/tube_groups.h"

#include <algorithm>

#include "tests/cases/changes/ring_box.h"
#include "tests/catch.h"

namespace tubewright::tube_groups_tests {

using namespace tubewright::testing;

namespace {

const TubeGroup& group_of(const std::vector<TubeGroup>& groups, int member) {
  const auto at = std::find_if(groups.begin(), groups.end(), [&](const TubeGroup& g) {
    return std::find(g.members.begin(), g.members.end(), member) != g.members.end();
  });
  if (at == groups.end()) FAIL("in no group");
  return *at;
}

}  // namespace

TEST_CASE("left and right are one group, tubes across the middle groups of their own") {
  const Frame f = ring_box();
  const auto groups = tube_groups(f);
  const TubeGroup& low = group_of(groups, member_named(f, "lb0-lb1"));
  CHECK(low.members == MemberSet{member_named(f, "lb0-lb1"), member_named(f, "rb0-rb1")});
  CHECK(low.name == "lb0-lb1");
  CHECK(group_of(groups, member_named(f, "rb1-rt1")).members.size() == 2);
  CHECK(group_of(groups, member_named(f, "lb1-rb1")).members.size() == 1);
  CHECK(groups.size() == 4 + 3 * 3);
}

TEST_CASE("what is of another section is no image") {
  Frame f = ring_box();
  SectionEntry other = f.sections.front();
  other.name = "other";
  f.sections.push_back(other);
  f.members[static_cast<size_t>(member_named(f, "rb0-rb1"))].section = "other";
  CHECK(group_of(tube_groups(f), member_named(f, "lb0-lb1")).members.size() == 1);
}

TEST_CASE("the pieces of a path and of its image are one group") {
  Frame f = ring_box();
  for (const char* name : {"lb0-lb1", "lb1-lb2"})
    f.members[static_cast<size_t>(member_named(f, name))].tube = "sill_l";
  for (const char* name : {"rb0-rb1", "rb1-rb2"})
    f.members[static_cast<size_t>(member_named(f, name))].tube = "sill_r";
  CHECK(group_of(tube_groups(f), member_named(f, "rb1-rb2")).members.size() == 4);
}

TEST_CASE("springs are in no group") {
  Frame f = ring_box();
  Member& spring = add_member(f, "spring", "lb0", "rt2");
  spring.kind = MemberKind::spring;
  spring.section.clear();
  spring.rate = 1e4;
  for (const TubeGroup& g : tube_groups(f)) {
    CHECK(std::find(g.members.begin(), g.members.end(), 20) == g.members.end());
  }
}

TEST_CASE("a pair of nodes has its image across the middle") {
  const Frame f = ring_box();
  CHECK(image_of(f, "lb0", "lt1") == std::pair<std::string, std::string>("rb0", "rt1"));
  CHECK(image_of(f, "lb0", "rb1") == std::pair<std::string, std::string>("rb0", "lb1"));
  Frame lopsided = empty_frame();
  add_node(lopsided, "A", 0, 0, 0);
  add_node(lopsided, "B", 1, 0.7, 0);
  add_node(lopsided, "C", 0.2, 0.3, 0.4);
  add_member(lopsided, "AB", "A", "B");
  add_member(lopsided, "BC", "B", "C");
  CHECK(image_of(lopsided, "A", "C").first.empty());
}

}  // namespace tubewright::tube_groups_tests
