// Look-ups by name against the lists they look in.
#include "cases/frame/find_parts.h"

#include <algorithm>
#include <random>

#include "tests/cases/clad_frames.h"
#include "tests/catch.h"

namespace tubewright::find_parts_test {

using testing::add_member;
using testing::add_node;
using testing::add_sheet;
using testing::empty_frame;
using testing::rectangle;

TEST_CASE("a section or a sheet is found wherever it stands in its list") {
  Frame f = empty_frame();
  f.sections.clear();
  std::vector<int> sizes(50);
  for (int i = 0; i < 50; ++i) sizes[i] = i;
  std::shuffle(sizes.begin(), sizes.end(), std::mt19937(1));
  for (const int i : sizes) {
    SectionEntry s;
    s.name = "t" + std::to_string(i);
    s.height = i;
    f.sections.push_back(s);
    add_sheet(f, s.name).thickness = 100 + i;  // the same names, another list
  }
  for (int i = 0; i < 50; ++i) {
    CHECK(find_section(f, "t" + std::to_string(i)).height == i);
    CHECK(find_sheet(f, "t" + std::to_string(i)).thickness == 100 + i);
  }
  CHECK(&find_section(f, f.sections[7].name) == &f.sections[7]);  // the entry itself, no copy
}

TEST_CASE("the number of a node leads back to the node of that name") {
  Frame f = empty_frame();
  for (const char* name : {"nose", "a", "b_l", "b_r", "0"}) add_node(f, name, 0, 0, 0);
  const auto numbers = numbers_of_nodes(f);
  CHECK(numbers.size() == f.nodes.size());
  for (const auto& [name, number] : numbers) CHECK(f.nodes.at(number).name == name);
}

TEST_CASE("a frame has springs as soon as one member of any place in the list is a spring") {
  CHECK_FALSE(has_springs(Frame{}));
  for (std::size_t i = 0; i < rectangle().members.size(); ++i) {
    Frame f = rectangle();
    for (const MemberKind kind : {MemberKind::link, MemberKind::cable, MemberKind::beam}) {
      f.members[i].kind = kind;
      CHECK_FALSE(has_springs(f));
    }
    f.members[i].kind = MemberKind::spring;
    CHECK(has_springs(f));
  }
}

}  // namespace tubewright::find_parts_test
