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

TEST_CASE("given properties are a size of the list by their area, to a millionth") {
  SectionEntry s;
  s.shape = Shape::properties;
  s.given.A = 2e-4;
  StockSize size{Shape::properties, 0, 0, 0, 7.0};
  for (const auto& [share, same] : {std::pair{1.0, true},
                                    {1 + 9e-7, true},
                                    {1 - 9e-7, true},
                                    {1 + 2e-6, false},
                                    {0.5, false}}) {
    size.given.A = share * s.given.A;
    CHECK(is_size(s, size) == same);
  }
  size.given.A = s.given.A;
  size.shape = Shape::round_bar;
  CHECK_FALSE(is_size(s, size));
  size.shape = Shape::properties;
  Stock stock;
  stock.sizes = {size};
  CHECK(bar_price(stock, s) == 7.0);
  s.shape = Shape::square_tube;
  CHECK_FALSE(bar_price(stock, s));
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
