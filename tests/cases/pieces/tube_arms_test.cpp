#include "cases/pieces/tube_arms.h"

#include <cmath>
#include <numbers>

#include "tests/cases/small_frames.h"
#include "tests/catch.h"

namespace tubewright::tube_arms_test {

using namespace tubewright::testing;

TEST_CASE("a section's outline has the area of the section") {
  const HalfSizes flat{0.015, 0.010, false}, pipe{0.015, 0.015, true};
  CHECK_THAT(area_of(section_polygon(flat)), WithinRel(0.030 * 0.020, 1e-12));
  CHECK_THAT(area_of(section_polygon(flat, 0.001)), WithinRel(0.028 * 0.018, 1e-12));
  CHECK_THAT(area_of(section_polygon(flat, 0.1)), WithinRel(0.015 * 0.010, 1e-12));
  // 48 corners on a circle: pi r2 less 0.3 %.
  const double circle = std::numbers::pi * 0.015 * 0.015;
  CHECK_THAT(area_of(section_polygon(pipe)), WithinRel(circle, 0.003));
  CHECK(area_of(section_polygon(pipe)) < circle);
}

TEST_CASE("sizes are the same after a quarter turn, not round for square") {
  CHECK(same_size({0.015, 0.010, false}, {0.010, 0.015, false}));
  CHECK_FALSE(same_size({0.015, 0.010, false}, {0.015, 0.011, false}));
  CHECK_FALSE(same_size({0.010, 0.010, true}, {0.010, 0.010, false}));
}

TEST_CASE("every tube leaves two nodes, away from each, and runs through those between") {
  Frame f = rectangle();
  add_node(f, "M", 0.3, 0, 0);
  f.members[0].to = "M";
  f.members[0].tube = "AB";
  f.members.insert(f.members.begin() + 1, f.members[0]);
  f.members[1].name = "MB";
  f.members[1].from = "M";
  f.members[1].to = "B";
  const NumberedFrame n = build_model(f);
  const UncutTubes all = uncut_tubes(f, n);
  const std::vector<NodeTubes> nodes = tubes_at_nodes(f, n, all);
  std::size_t arms = 0, through = 0;
  for (std::size_t k = 0; k < nodes.size(); ++k) {
    arms += nodes[k].arms.size();
    through += nodes[k].through.size();
    for (const TubeArm& a : nodes[k].arms) {
      const CutTube& t = all.tube(a.tube);
      const auto far = static_cast<std::size_t>(t.nodes[a.end == 0 ? 1 : 0]);
      CHECK((n.model.nodes[k] + t.length * a.away - n.model.nodes[far]).norm() < 1e-12);
    }
  }
  CHECK(arms == 2 * all.tubes.size());
  CHECK(through == 1);
  CHECK(nodes[4].through.size() == 1);
}

TEST_CASE("angles between arms: square, in line, side by side") {
  const TubeArm x{0, 0, {1, 0, 0}}, y{1, 0, {0, 1, 0}}, back{2, 0, {-1, 0, 0}};
  CHECK_THAT(angle_between(x, y), WithinRel(std::numbers::pi / 2, 1e-12));
  CHECK_THAT(angle_between(x, back), WithinRel(std::numbers::pi, 1e-12));
  CHECK(angle_between(x, x) == 0);
}

TEST_CASE("images in a plane that mirrors the frame have one rank, links are known") {
  Frame f = rectangle();  // AB and CD are images, as are BC and DA
  add_member(f, "AC", "A", "C").kind = MemberKind::link;
  const UncutTubes all = uncut_tubes(f, build_model(f));
  CHECK(all.rank[0] == all.rank[2]);
  CHECK(all.rank[1] == all.rank[3]);
  CHECK(all.rank[0] != all.rank[1]);
  CHECK(all.link == std::vector<bool>{false, false, false, false, true});
}

}  // namespace tubewright::tube_arms_test
