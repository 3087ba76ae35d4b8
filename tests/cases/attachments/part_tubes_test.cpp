// Parting a tube keeps it one tube, and its loads where they were.
#include "cases/attachments/part_tubes.h"

#include "tests/cases/attachments/attachment_frames.h"

namespace tubewright::part_tubes_test {

TEST_CASE("places within a millimetre are one node") {
  TubeCuts cuts;
  CHECK(node_at(cuts, 0, 0.5, "first") == "first");
  CHECK(node_at(cuts, 0, 0.5005, "second") == "first");
  CHECK(node_at(cuts, 0, 0.502, "third") == "third");
  CHECK(node_at(cuts, 1, 0.5, "other") == "other");
  CHECK(cuts[0].size() == 2);
}

TEST_CASE("a member becomes pieces of a tube of its name, from end to end") {
  Frame f = testing::cantilever_40();
  f.members[0].release_to[4] = 0;
  f.members[0].capped = {true, true};
  part_tubes(f, {{0, {{0.25, "p"}, {0.75, "q"}}}});
  REQUIRE(f.members.size() == 3);
  CHECK(f.members[0].name == "rail.1");
  CHECK(f.members[1].from == "p");
  CHECK(f.members[1].to == "q");
  for (const Member& m : f.members) {
    CHECK(m.tube == "rail");
    CHECK(m.parted_from == 1);
  }
  CHECK(f.members[0].release_to == welded);
  CHECK(f.members[2].release_to[4] == 0);
  CHECK(f.members[0].capped == std::array<bool, 2>{true, false});
  CHECK(f.members[2].capped == std::array<bool, 2>{false, true});
}

TEST_CASE("a load on a piece of a path goes to what the piece became") {
  Frame f = testing::cantilever_40();
  f.members[0].name = "rail.1";
  f.members[0].tube = "rail";
  Case c;
  c.point_loads.push_back({"rail.1", 0.5, {0, 0, -1}, {}, {}});
  c.line_loads.push_back({"rail.1", {0, 0, -1}, {}});
  f.cases.push_back(c);
  part_tubes(f, {{0, {{0.4, "p"}}}});
  CHECK(f.members[1].name == "rail.1b");
  CHECK(f.cases[0].point_loads[0].member == "rail.1b");
  CHECK_THAT(f.cases[0].point_loads[0].at, WithinRel(1.0 / 6, 1e-12));
  CHECK(f.cases[0].line_loads.size() == 2);
}

TEST_CASE("square and rectangular tubes have flat faces") {
  SectionEntry s;
  for (const Shape shape : {Shape::square_tube, Shape::rectangular_tube}) {
    s.shape = shape;
    CHECK(has_flat_faces(s));
  }
  for (const Shape shape :
       {Shape::round_tube, Shape::round_bar, Shape::flat_bar, Shape::properties}) {
    s.shape = shape;
    CHECK_FALSE(has_flat_faces(s));
  }
}

}  // namespace tubewright::part_tubes_test
