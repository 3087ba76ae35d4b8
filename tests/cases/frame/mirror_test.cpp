#include "cases/frame/mirror.h"

#include <Eigen/Geometry>
#include <algorithm>

#include "cases/validate/validate.h"
#include "solver/elements/beam_element.h"
#include "tests/cases/small_frames.h"
#include "tests/catch.h"

namespace tubewright::mirror_test {

using testing::add_member;
using testing::add_node;
using testing::empty_frame;
using testing::text_of;

namespace {

/// The left half of a box: two nodes on the plane, three beside it, a path, a cross tube, a
/// diagonal that runs over to the other side, a turned brace, a support and a panel.
Frame half_frame() {
  Frame f = empty_frame();
  f.mirror = MirrorRule{"_l", "_r", {5, 1}};
  add_node(f, "A_l", 0, 0.3, 0.1);
  add_node(f, "B_l", 0.5, 0.4, 0.1);
  add_node(f, "C_l", 1.0, 0.3, 0.2);
  add_node(f, "nose", 1.2, 0, 0.1);
  add_node(f, "keel_l", 0.5, 0, 0.0);
  for (int i = 1; i <= 2; ++i) {
    const char* ends[] = {"A_l", "B_l", "C_l"};
    Member& m = add_member(f, "rail_l." + std::to_string(i), ends[i - 1], ends[i]);
    m.tube = "rail_l";
  }
  add_member(f, "cross_l", "B_l", "B_r");
  add_member(f, "over_l", "A_l", "C_r").roll = 0.2;
  Member& brace = add_member(f, "brace_l", "C_l", "nose");
  brace.roll = 0.3;
  brace.release_to[4] = 0;
  add_member(f, "stem_l", "keel_l", "B_l");
  add_member(f, "beam", "A_l", "A_r");
  SupportEntry s;
  s.node = "A_l";
  s.restrained = {true, true, true, true, true, true};
  s.displacement = {1e-3, 2e-3, 3e-3, 0.01, 0.02, 0.03};
  f.supports.push_back(s);
  PanelEntry side;
  side.name = "side_l";
  side.corners = {"A_l", "B_l", "C_l", "nose"};
  f.panels.push_back(side);
  PanelEntry floor;
  floor.name = "floor_l";
  floor.corners = {"A_l", "B_l", "B_r", "A_r"};
  f.panels.push_back(floor);
  return f;
}

Frame whole_frame() {
  Frame f = half_frame();
  const Diagnostics diagnostics = expand_mirror(f);
  INFO(text_of(diagnostics));
  REQUIRE(diagnostics.empty());
  return f;
}

template <typename Entry>
const Entry* named(const std::vector<Entry>& entries, const std::string& name) {
  const auto found =
      std::find_if(entries.begin(), entries.end(), [&](const Entry& e) { return e.name == name; });
  return found == entries.end() ? nullptr : &*found;
}

Eigen::Vector3d reflected(const Eigen::Vector3d& v) { return {v.x(), -v.y(), v.z()}; }

Eigen::Vector3d at(const Frame& f, const std::string& node) {
  const Node* found = named(f.nodes, node);
  REQUIRE(found != nullptr);
  return found->at;
}

}  // namespace

TEST_CASE("every node beside the plane gets an image with y negated") {
  const Frame f = whole_frame();
  for (const std::string node : {"A", "B", "C"}) {
    CHECK(at(f, node + "_r") == reflected(at(f, node + "_l")));
  }
}

TEST_CASE("a node on the plane is shared, whatever its name ends in") {
  const Frame f = whole_frame();
  CHECK(named(f.nodes, "keel_r") == nullptr);
  CHECK(f.nodes.size() == 5 + 3);
  REQUIRE(named(f.members, "stem_r") != nullptr);
  CHECK(named(f.members, "stem_r")->from == "keel_l");
  CHECK(named(f.members, "stem_r")->to == "B_r");
}

TEST_CASE("the endings are exchanged both ways inside a copied member") {
  const Frame f = whole_frame();
  const Member* over = named(f.members, "over_r");
  REQUIRE(over != nullptr);
  CHECK(over->from == "A_r");
  CHECK(over->to == "C_l");
}

TEST_CASE("the pieces of a path are copied as pieces of the mirrored path") {
  const Frame f = whole_frame();
  for (const std::string piece : {"1", "2"}) {
    const Member* m = named(f.members, "rail_r." + piece);
    REQUIRE(m != nullptr);
    CHECK(m->tube == "rail_r");
  }
}

TEST_CASE("what is its own image is not copied") {
  const Frame f = whole_frame();
  CHECK(named(f.members, "cross_r") == nullptr);
  CHECK(named(f.panels, "floor_r") == nullptr);
  CHECK(f.members.size() == 7 + 5);
}

TEST_CASE("a hoop over the plane is its own image, though none of its pieces is") {
  Frame f = empty_frame();
  f.mirror = MirrorRule{"_l", "_r", {}};
  add_node(f, "foot_l", 0, 0.3, 0);
  add_node(f, "top", 0, 0, 0.8);
  add_member(f, "hoop_l.1", "foot_l", "top").tube = "hoop_l";
  add_member(f, "hoop_l.2", "top", "foot_r").tube = "hoop_l";
  CHECK(expand_mirror(f).empty());
  CHECK(f.members.size() == 2);
}

// A reflection turns right-handed axes into left-handed ones: local x and z of the image are the
// reflected x and z, its y is minus the reflected y. That holds for any roll only if the roll
// changes its sign (law of geometry).
TEST_CASE("the section of a mirrored member is turned the mirrored way") {
  const Frame f = whole_frame();
  for (const std::string name : {"over", "brace", "stem"}) {
    const Member* left = named(f.members, name + "_l");
    const Member* right = named(f.members, name + "_r");
    REQUIRE(right != nullptr);
    const Eigen::Matrix3d l = member_axes(at(f, left->from), at(f, left->to), left->roll);
    const Eigen::Matrix3d r = member_axes(at(f, right->from), at(f, right->to), right->roll);
    INFO(name);
    CHECK((r.row(0).transpose() - reflected(l.row(0))).norm() < 1e-12);
    CHECK((r.row(1).transpose() + reflected(l.row(1))).norm() < 1e-12);
    CHECK((r.row(2).transpose() - reflected(l.row(2))).norm() < 1e-12);
    CHECK(right->release_from == left->release_from);
    CHECK(right->release_to == left->release_to);
  }
}

// A displacement is a vector; a rotation is an axial vector, so that its components in the mirror's
// plane change sign (law of mechanics).
TEST_CASE("a prescribed displacement is mirrored as a vector, a rotation as an axial vector") {
  const Frame f = whole_frame();
  REQUIRE(f.supports.size() == 2);
  CHECK(f.supports[1].node == "A_r");
  CHECK(f.supports[1].restrained == f.supports[0].restrained);
  CHECK(f.supports[1].displacement == std::array<double, 6>{1e-3, -2e-3, 3e-3, -0.01, 0.02, -0.03});
}

TEST_CASE("the normal of a mirrored panel is the mirrored normal") {
  const Frame f = whole_frame();
  const auto normal = [&](const std::string& name) -> Eigen::Vector3d {
    const PanelEntry* p = named(f.panels, name);
    REQUIRE(p != nullptr);
    return (at(f, p->corners[2]) - at(f, p->corners[0]))
        .cross(at(f, p->corners[3]) - at(f, p->corners[1]));
  };
  CHECK((normal("side_r") - reflected(normal("side_l"))).norm() < 1e-12);
}

TEST_CASE("the mirror of the mirror is the original") {
  const Frame whole = whole_frame();
  Frame other = whole;  // the right half alone, described from the other side
  other.mirror = MirrorRule{"_r", "_l", {}};
  const auto left = [](const std::string& name) { return name.ends_with("_l"); };
  std::erase_if(other.nodes, [&](const Node& n) { return left(n.name) && n.at.y() != 0; });
  std::erase_if(other.members, [&](const Member& m) {
    return (left(m.name) && m.name != "cross_l") || left(m.tube);
  });
  std::erase_if(other.supports, [&](const SupportEntry& s) { return left(s.node); });
  std::erase_if(other.panels, [&](const PanelEntry& p) { return p.name == "side_l"; });
  CHECK(expand_mirror(other).empty());

  REQUIRE(other.nodes.size() == whole.nodes.size());
  for (const Node& n : whole.nodes) CHECK(at(other, n.name) == n.at);
  REQUIRE(other.members.size() == whole.members.size());
  for (const Member& m : whole.members) {
    const Member* again = named(other.members, m.name);
    INFO(m.name);
    REQUIRE(again != nullptr);
    CHECK(again->from == m.from);
    CHECK(again->to == m.to);
    CHECK(again->roll == m.roll);
    CHECK(again->tube == m.tube);
  }
  REQUIRE(other.supports.size() == 2);
  CHECK(other.supports[1].displacement == whole.supports[0].displacement);
  CHECK(named(other.panels, "side_l")->corners == whole.panels[0].corners);
}

TEST_CASE("a frame without a mirror rule is left alone") {
  Frame f = half_frame();
  f.mirror.reset();
  CHECK(expand_mirror(f).empty());
  CHECK(f.nodes.size() == 5);
}

TEST_CASE("a node off the plane that has no image is reported once a member") {
  Frame f = empty_frame();
  f.mirror = MirrorRule{"_l", "_r", {}};
  add_node(f, "A_l", 0, 0.3, 0);
  add_node(f, "odd", 0, 0.1, 0);
  add_node(f, "B_l", 1, 0.3, 0);
  add_member(f, "rail_l.1", "A_l", "odd").tube = "rail_l";
  add_member(f, "rail_l.2", "odd", "B_l").tube = "rail_l";
  const Diagnostics diagnostics = expand_mirror(f);
  REQUIRE(diagnostics.size() == 1);
  CHECK(diagnostics[0].severity == Severity::error);
  CHECK(
      diagnostics[0].message ==
      "member `rail_l` is mirrored, but its node `odd` lies off the plane y = 0 and has no image");
  CHECK(diagnostics[0].advice == "end its name in `_l`, or put it on y = 0");
}

TEST_CASE("a node of the far side described alone is reported with the one that is missing") {
  Frame f = empty_frame();
  f.mirror = MirrorRule{"_l", "_r", {}};
  add_node(f, "A_l", 0, 0.3, 0);
  add_node(f, "B_r", 1, -0.3, 0);
  add_member(f, "over_l", "A_l", "B_r");
  const Diagnostics diagnostics = expand_mirror(f);
  REQUIRE(diagnostics.size() == 1);
  CHECK_THAT(diagnostics[0].message, ContainsSubstring("image `B_l` of its node `B_r`"));
}

TEST_CASE("what the mirror makes and the file gives as well is reported at the file's entry") {
  Frame f = half_frame();
  add_node(f, "A_r", 0, -0.3, 0.1);
  add_member(f, "brace_r", "A_l", "nose");
  SupportEntry s;
  s.node = "A_r";
  s.restrained[2] = true;
  f.supports.push_back(s);
  PanelEntry p = f.panels[0];
  p.name = "side_r";
  f.panels.push_back(p);
  const Diagnostics diagnostics = expand_mirror(f);
  INFO(text_of(diagnostics));
  REQUIRE(diagnostics.size() == 4);
  CHECK(diagnostics[0].message == "node `A_r` is given, but `mirror` makes it from `A_l`");
  CHECK(diagnostics[0].place.line == f.nodes[5].place.line);
  CHECK(diagnostics[1].message ==
        "member `brace_r` is given, but `mirror` makes it from `brace_l`");
  CHECK(diagnostics[2].message == "support `A_r` is given, but `mirror` makes it from `A_l`");
  CHECK(diagnostics[3].message == "panel `side_r` is given, but `mirror` makes it from `side_l`");
}

TEST_CASE("endings that cannot be told apart are refused") {
  for (const auto& [from, to] :
       {std::pair{"_l", "_l"}, {"", "_r"}, {"_l", ""}, {"_l", "x_l"}, {"x_l", "_l"}}) {
    Frame f = half_frame();
    f.mirror = MirrorRule{from, to, {5, 1}};
    const Diagnostics diagnostics = expand_mirror(f);
    REQUIRE(diagnostics.size() == 1);
    CHECK(diagnostics[0].severity == Severity::error);
    CHECK(diagnostics[0].place.line == 5);
    CHECK(f.nodes.size() == 5);
  }
}

TEST_CASE("a rule that nothing follows is refused by validate()") {
  Frame f = half_frame();
  f.mirror = MirrorRule{"_left", "_right", {5, 1}};
  CHECK(expand_mirror(f).empty());
  CHECK_THAT(text_of(validate(f)), ContainsSubstring("no name ends in `_left`"));
}

TEST_CASE("masses and wheels are copied to the other side, those given there are kept") {
  Frame f = half_frame();
  CarriedMass bag;
  bag.name = "bag_l";
  bag.mass = 5;
  bag.at = {0.2, 0.35, 0.3};
  bag.on = {"A_l", "B_l", "nose"};
  f.masses.push_back(bag);
  CarriedMass box = bag;
  box.name = "box_l";
  f.masses.push_back(box);
  box.name = "box_r";
  box.mass = 7;
  f.masses.push_back(box);
  f.vehicle = Vehicle{};
  Wheel wheel;
  wheel.name = "rear_l";
  wheel.contact = {0, 0.5, 0};
  wheel.centre = {0, 0.45, 0.2};
  wheel.carrier = {"A_l"};
  wheel.brake_mount = {"B_l"};
  f.vehicle->wheels.push_back(wheel);
  const Diagnostics diagnostics = expand_mirror(f);
  INFO(text_of(diagnostics));
  REQUIRE(diagnostics.empty());
  REQUIRE(f.masses.size() == 4);
  CHECK(f.masses[3].name == "bag_r");
  CHECK(f.masses[3].at == Eigen::Vector3d(0.2, -0.35, 0.3));
  CHECK(f.masses[3].on == std::vector<std::string>{"A_r", "B_r", "nose"});
  CHECK(f.masses[2].mass == 7);
  REQUIRE(f.vehicle->wheels.size() == 2);
  const Wheel& copy = f.vehicle->wheels[1];
  CHECK(copy.name == "rear_r");
  CHECK(copy.contact == Eigen::Vector3d(0, -0.5, 0));
  CHECK(copy.centre == Eigen::Vector3d(0, -0.45, 0.2));
  CHECK(copy.carrier == std::vector<std::string>{"A_r"});
  CHECK(copy.brake_mount == std::vector<std::string>{"B_r"});
}

TEST_CASE("a mass in the middle and a wheel on the plane are not doubled") {
  Frame f = half_frame();
  CarriedMass mass;
  mass.name = "keel_box_l";
  mass.at = {0.5, 0, 0};
  mass.on = {"A_l", "A_r"};
  f.masses.push_back(mass);
  f.vehicle = Vehicle{};
  Wheel wheel;
  wheel.name = "front_l";
  wheel.carrier = {"nose"};
  f.vehicle->wheels.push_back(wheel);
  expand_mirror(f);
  CHECK(f.masses.size() == 1);
  CHECK(f.vehicle->wheels.size() == 1);
}

TEST_CASE("a node that does not exist is left for validate() and named there once") {
  Frame f = empty_frame();
  f.mirror = MirrorRule{"_l", "_r", {}};
  add_node(f, "A_l", 0, 0.3, 0);
  add_node(f, "B_l", 1, 0.3, 0);
  add_member(f, "rail_l", "A_l", "B_l");
  add_member(f, "brace_l", "A_l", "C_l");
  CHECK(expand_mirror(f).empty());
  const Diagnostics diagnostics = validate(f);
  INFO(text_of(diagnostics));
  REQUIRE(diagnostics.size() == 1);
  CHECK(diagnostics[0].message == "member `brace_l` names node `C_l`, which does not exist");
}

}  // namespace tubewright::mirror_test
