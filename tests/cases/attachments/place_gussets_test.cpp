// Where a gusset stands, and what is told of one that cannot stand there.
#include "cases/attachments/place_gussets.h"

#include "cases/frame/mirror.h"
#include "tests/cases/attachments/gusset_frames.h"

namespace tubewright::place_gussets_test {

using testing::expanded;
using testing::gusset_frame;

namespace {

std::string faults(Frame f) { return testing::text_of(expand_attachments(f)); }

Eigen::Vector3d place(const Frame& f, const std::string& node) {
  for (const Node& n : f.nodes)
    if (n.name == node) return n.at;
  FAIL("no node " + node);
  return {};
}

}  // namespace

TEST_CASE("a gusset parts both tubes where its legs end") {
  const Frame f = expanded(gusset_frame({}));
  // Half the other tube, 20 mm, and the leg of 60 mm.
  CHECK((place(f, "g.1") - Eigen::Vector3d(0.080, 0, 0)).norm() < 1e-12);
  CHECK((place(f, "g.2") - Eigen::Vector3d(0, 0, 0.080)).norm() < 1e-12);
  REQUIRE(f.members.size() == 4);
  CHECK(f.members[0].to == "g.1");
  CHECK(f.members[2].tube == "post");
  CHECK(f.gussets[0].material == "S235");
}

TEST_CASE("of a tube that runs on, its piece says on which side the gusset stands") {
  Frame f = gusset_frame({});
  testing::add_node(f, "C", -0.4, 0, 0);
  f.members[0].name = "rail.2";
  f.members[0].tube = "rail";
  testing::add_member(f, "rail.1", "C", "M").tube = "rail";
  f.gussets[0].legs[0].tube = "rail";
  CHECK_THAT(faults(f),
             ContainsSubstring("`rail` runs on there | name the piece, `rail.2` or `rail.1`"));
  f.gussets[0].legs[0].tube = "rail.1";
  f = expanded(f);
  CHECK((place(f, "g.1") - Eigen::Vector3d(-0.080, 0, 0)).norm() < 1e-12);
}

TEST_CASE("mirror copies a gusset between the images of its tubes") {
  Frame f = gusset_frame({});
  f.nodes[1] = {"A_l", {0, 0.4, 0}, {}};
  f.members[0].name = "rail.1";
  f.members[0].tube = "rail";
  f.members[0].from = "A_l";
  f.members[0].to = "M";
  testing::add_member(f, "rail.2", "M", "A_r").tube = "rail";
  f.gussets[0].name = "g_l";
  f.gussets[0].legs[0].tube = "rail.1";
  f.mirror = MirrorRule{"_l", "_r", {}};
  REQUIRE(expand_mirror(f).empty());
  REQUIRE(f.gussets.size() == 2);
  CHECK(f.gussets[1].legs[0].tube == "rail.2");
  f = expanded(f);
  CHECK((place(f, "g_r.1") - Eigen::Vector3d(0, -0.080, 0)).norm() < 1e-12);
  CHECK(f.gussets[1].legs[1].axis_node == "g_l.2");  // one place on the post
}

TEST_CASE("a gusset that is its own image is told") {
  Frame f = gusset_frame({});
  f.gussets[0].name = "g_l";
  f.mirror = MirrorRule{"_l", "_r", {}};
  CHECK_THAT(testing::text_of(expand_mirror(f)),
             ContainsSubstring("gusset `g_l` is its own image"));
}

TEST_CASE("what cannot be is told with what was expected") {
  Frame f = gusset_frame({});
  f.gussets[0].node = "N";
  CHECK_THAT(faults(f), ContainsSubstring("gusset `g` names node `N`"));
  f = gusset_frame({});
  f.gussets[0].legs[1].tube = "pots";
  CHECK_THAT(faults(f), ContainsSubstring("did you mean `post`"));
  f = gusset_frame({});
  testing::add_member(f, "far", "A", "B");
  f.gussets[0].legs[1].tube = "far";
  CHECK_THAT(faults(f), ContainsSubstring("`far` does not end at node `M`"));
  f = gusset_frame({});
  f.sections[0].shape = Shape::round_tube;
  CHECK_THAT(faults(f), ContainsSubstring("no straight square or rectangular tube"));
  f = gusset_frame({});
  f.nodes[2].at = {-0.4, 0, 0};
  CHECK_THAT(faults(f), ContainsSubstring("has no corner to stand in"));
  f = gusset_frame({});
  f.members[0].roll = 0.5;
  CHECK_THAT(faults(f), ContainsSubstring("on an edge of `arm`"));
  f = gusset_frame({});
  f.gussets[0].legs[0].length = 0.380;
  CHECK_THAT(faults(f), ContainsSubstring("a leg of 380 mm on `arm`, which has 380 mm beyond"));
}

}  // namespace tubewright::place_gussets_test
