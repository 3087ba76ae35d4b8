// Where a sheet lies on its tubes: half a tube and half the sheet off their axes, by geometry.
#include "cases/lint/sheet_contact.h"

#include <Eigen/Geometry>
#include <numbers>
#include <optional>
#include <set>
#include <tuple>
#include <utility>

#include "cases/lint/lint.h"
#include "tests/cases/clad_frames.h"
#include "tests/catch.h"

namespace tubewright::sheet_contact_test {

using namespace tubewright::testing;

namespace {

/// A clad ladder of 20 mm tube; its sheet, 1.2 mm, touches at 10.6 mm. Of seven tubes.
Frame ladder(std::optional<double> offset) {
  Frame f = clad_ladder();
  f.sections.front().height = f.sections.front().width = 0.020;
  f.sheets.front().offset = offset;
  return f;
}

/// Of both kinds, as lint() lists them: "message | advice".
std::string contact(const Frame& f) {
  std::string text;
  const ContactDoubts doubts = contact_doubts(f);
  for (const Diagnostics& list : {doubts.warnings, doubts.unproven}) {
    for (const Diagnostic& d : list) text += d.message + " | " + d.advice + '\n';
  }
  return text;
}

SectionEntry& add_rail_section(Frame& f, double height, double width) {
  SectionEntry s = f.sections.front();
  s.name = "rail";
  s.shape = Shape::rectangular_tube;
  s.height = height;
  s.width = width;
  f.sections.push_back(s);
  for (Member& m : f.members) {
    if (m.name.starts_with("left") || m.name.starts_with("right")) m.section = "rail";
  }
  return f.sections.back();
}

}  // namespace

TEST_CASE("a sheet within a millimetre of its tubes' outer faces is not doubted, on either side") {
  for (const double offset : {0.0106, -0.0106, 0.0097, 0.0115, -0.0115}) {
    CHECK(contact(ladder(offset)).empty());
  }
  for (const double offset : {0.0095, 0.0117, -0.0095, -0.0117}) {
    CHECK_FALSE(contact(ladder(offset)).empty());
  }
}

TEST_CASE("a sheet left in the plane of the axes is told that it need not be") {
  const std::string told = contact(ladder(0));
  CHECK_THAT(told, ContainsSubstring("sheet `floor` has `offset: 0`"));
  CHECK_THAT(told, ContainsSubstring("and 6 more | without `offset` it lies on their outer face"));
  CHECK(contact_doubts(ladder(0)).unproven.empty());
}

TEST_CASE("a sheet without offset touches its tubes, on either side") {
  for (const SheetSide side : {SheetSide::by_corners, SheetSide::top, SheetSide::bottom}) {
    Frame f = ladder(std::nullopt);
    f.sheets.front().side = side;
    CHECK(contact(f).empty());
  }
}

TEST_CASE("a sheet without offset is told of the tubes that it does not reach, piece by piece") {
  Frame f = ladder(std::nullopt);
  add_rail_section(f, 0.040, 0.020);
  const ContactDoubts doubts = contact_doubts(f);
  CHECK(doubts.warnings.size() == 1);
  CHECK(doubts.unproven.empty());
  CHECK_THAT(contact(f),
             ContainsSubstring("touch both `left1` and `l1` | they reach 20 mm and 10"));

  // 1.5 mm is more than the tolerance too; 0.8 mm is not.
  for (const auto& [height, told] : {std::pair{0.023, true}, {0.0216, false}}) {
    Frame near = ladder(std::nullopt);
    add_rail_section(near, height, 0.020);
    CHECK(contact(near).empty() != told);
  }

  // Each piece lies on tubes of its own: nothing to tell of either.
  Frame two = ladder(std::nullopt);
  add_rail_section(two, 0.040, 0.020);
  for (Member& m : two.members) m.section = "tube";
  const auto node = [&](const char* name, double y, double z) { add_node(two, name, 0, y, z); };
  node("t1", 0.25, 0.5);
  node("t2", -0.25, 0.5);
  for (const auto& [name, from, to] :
       {std::tuple{"p1", "l1_l", "t1"}, {"p2", "l1_r", "t2"}, {"p3", "t1", "t2"}}) {
    add_member(two, name, from, to);
  }
  add_panel(two, "front", "floor", {"l1_l", "l1_r", "t2", "t1"});
  CHECK(contact(two).empty());
}

TEST_CASE("a sheet without offset on tubes of no known depth is told that it stays in the axes") {
  Frame f = ladder(std::nullopt);
  f.sections.front().shape = Shape::properties;
  f.sections.front().given =
      Section{1e-4, 1e-8, 1e-8, 1e-8, 1e-6, 1e-6, 1e-6, 0, 0, rigid, rigid, {}};
  CHECK_THAT(contact(f),
             ContainsSubstring("`floor` is taken to lie in the plane of its tubes' axes"));
  f.sheets.front().offset = 0;
  CHECK(contact(f).empty());
}

TEST_CASE("how far inside, how far in the air, and the offset of the same side") {
  CHECK_THAT(contact(ladder(0.0056)), ContainsSubstring("lies 5 mm inside tube"));
  CHECK_THAT(contact(ladder(0.0156)), ContainsSubstring("hangs 5 mm clear of tube"));
  CHECK_THAT(contact(ladder(-0.0156)), ContainsSubstring("| `offset: -10.6 mm` puts it on"));
}

TEST_CASE("the offset that is told raises no doubt, whichever way the frame is turned") {
  const double eighth = std::numbers::pi / 4;
  for (const Eigen::Vector3d& axis : {Eigen::Vector3d::UnitX().eval(), Eigen::Vector3d(1, 1, 1)}) {
    for (const double turn : {eighth, 2 * eighth}) {
      for (const double offset : {0.0, 0.0106}) {
        Frame f = ladder(offset);
        const Eigen::Matrix3d rotation(Eigen::AngleAxisd(turn, axis.normalized()));
        for (Node& node : f.nodes) node.at = rotation * node.at;
        // A tube tilted against the sheet reaches between its face and its corner, 14.1 mm.
        CHECK(contact(f).empty() == (offset != 0));
      }
    }
  }
}

TEST_CASE("the side across the panel counts: 40 x 20 on edge reaches 20 mm, lying flat 10 mm") {
  Frame f = ladder(0.0106);
  SectionEntry& rail = add_rail_section(f, 0.020, 0.040);
  CHECK(contact(f).empty());
  std::swap(rail.height, rail.width);
  CHECK_THAT(contact(f),
             ContainsSubstring("no `offset` lets sheet `floor` touch both `left1` and `l1` | they "
                               "reach 20 mm and 10 mm"));
}

// 10 mm of gap over the crosses is a builder's choice of rails; 10 mm of rail in the way is not.
TEST_CASE("on tubes of unlike depths a sheet is told of once, and unproven where it cuts a tube") {
  Frame f = ladder(0);
  add_rail_section(f, 0.040, 0.020);
  for (const double offset : {0.0, 0.0106, 0.0206}) {
    f.sheets.front().offset = offset;
    const ContactDoubts doubts = contact_doubts(f);
    INFO(offset);
    CHECK(doubts.warnings.size() == (offset == 0.0106 ? 0 : 1));
    CHECK(doubts.unproven.size() == (offset == 0.0106 ? 1 : 0));
    CHECK(contact(f).find("`offset: ") == std::string::npos);  // none is right
  }
}

TEST_CASE("each sheet is told of once, by lint() as well") {
  for (const double offset : {0.0, 0.005, 0.013, 0.5}) {
    std::multiset<std::string> told;
    for (const Diagnostic& d : lint(ladder(offset))) {
      if (d.message.find("sheet `floor`") != std::string::npos) told.insert(d.message);
    }
    INFO(offset);
    CHECK(told.size() == 1);
  }
}

TEST_CASE("a sheet on tubes whose sides are not known, or that no panel is of, is not doubted") {
  Frame f = ladder(0);
  f.sections.front().shape = Shape::properties;
  Section given;
  given.A = 1e-4;
  given.Iy = given.Iz = given.It = 1e-8;
  given.Wy = given.Wz = given.Wt = 1e-6;
  f.sections.front().given = given;
  CHECK(contact(f).empty());
  f = ladder(0.0106);
  add_sheet(f, "spare");
  CHECK(contact(f).empty());
}

}  // namespace tubewright::sheet_contact_test
