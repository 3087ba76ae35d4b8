#include "cases/sizing/size_errors.h"

#include "tests/cases/sizing/sized_box.h"
#include "tests/catch.h"
#include "tests/wording_form.h"

namespace tubewright::size_errors_test {

using namespace tubewright::testing;

namespace {

Wordings one_of_each() {
  return {
      {"nothing_to_size", nothing_to_size()},
      {"nothing_to_size_by", nothing_to_size_by()},
      {"no_size_of_shape", no_size_of_shape("posts", Shape::round_tube)},
      {"group_of_two_shapes", group_of_two_shapes("posts", Shape::round_tube, Shape::square_tube)},
      {"tube_in_two_groups", tube_in_two_groups("rail", "left", "right")},
      {"images_in_two_groups", images_in_two_groups("leg_l", "leg_r")},
      {"size_without_price", size_without_price(Shape::flat_bar)},
      {"size_without_bending", size_without_bending("posts", "leg")},
      {"limit_of_nothing", limit_of_nothing()}};
}

template <class Answer>
void check_refused(const Result<Answer>& outcome, const Diagnostic& expected,
                   const SourceLocation& place) {
  REQUIRE_FALSE(outcome);
  const Diagnostics& errors = *outcome.error();
  INFO(text_of(errors));
  REQUIRE(errors.size() == 1);
  CHECK(errors[0].message == expected.message);
  CHECK(errors[0].advice == expected.advice);
  CHECK(errors[0].severity == Severity::error);
  CHECK(errors[0].place.line == place.line);
  CHECK(errors[0].place.column == place.column);
}

/// By what finds the groups, and by the study that asks it.
void check_no_groups(const Frame& f, const Diagnostic& expected, const SourceLocation& place,
                     bool cheapest = false) {
  check_refused(size_groups(f, cheapest), expected, place);
  SizeOptions options;
  options.cheapest = cheapest;
  check_refused(size_study(f, options), expected, place);
}

Member& member_of(Frame& f, const std::string& name) {
  return f.members[static_cast<size_t>(member_named(f, name))];
}

constexpr SourceLocation no_place{};
constexpr SourceLocation group_place{77, 5};

/// With `posts`, one round tube and as many square ones as are named beside it.
Frame with_round_post(std::vector<std::string> beside) {
  Frame f = box_with_stock();
  SectionEntry round = f.sections.front();
  round.name = "round";
  round.shape = Shape::round_tube;
  f.sections.push_back(round);
  member_of(f, "rb0-rt0").section = "round";
  beside.emplace_back("rb0-rt0");
  f.groups = {{"posts", std::move(beside), group_place}};
  return f;
}

/// With `sills` of given properties, of which the stock has one size with an area only.
Frame with_area_only() {
  Frame f = box_with_stock();
  SectionEntry given = f.sections.front();
  given.name = "given";
  given.shape = Shape::properties;
  given.given.A = 2e-4;
  given.given.Iy = given.given.Iz = given.given.It = 2e-8;
  given.given.Wy = given.given.Wz = given.given.Wt = 2e-6;
  given.given.Ay = given.given.Az = rigid;
  f.sections.push_back(given);
  for (const char* name : {"lb0-lb1", "rb0-rb1"}) member_of(f, name).section = "given";
  StockSize size{Shape::properties, 0, 0, 0, {}, {}};
  size.given.A = 1e-4;
  f.stock->sizes.push_back(size);
  f.groups = {{"sills", {"lb0-lb1", "rb0-rb1"}, group_place}};
  return f;
}

}  // namespace

TEST_CASE("every wording of why sizes cannot be chosen has the form of the house") {
  check_wordings("cases/sizing/size_errors.h", one_of_each());
}

TEST_CASE("shapes are named as the file writes them") {
  CHECK_THAT(no_size_of_shape("posts", Shape::round_bar).message, ContainsSubstring("`round_bar`"));
  CHECK_THAT(group_of_two_shapes("posts", Shape::rectangular_tube, Shape::properties).message,
             ContainsSubstring("`rectangular_tube` and `properties`"));
}

TEST_CASE("where all is kept there is nothing to size") {
  Frame f = box_with_stock();
  for (const Member& m : f.members) f.keep.members.push_back(m.name);
  check_no_groups(f, nothing_to_size(), no_place);
}

TEST_CASE("where all tubes are of a shape that the list has not there is nothing to size") {
  Frame f = box_with_stock();
  f.sections.front().shape = Shape::round_tube;
  check_no_groups(f, nothing_to_size(), no_place);
}

TEST_CASE("a group needs a size of its shape, said where the group stands") {
  check_no_groups(with_round_post({}), no_size_of_shape("posts", Shape::round_tube), group_place);
}

TEST_CASE("a group of two shapes is refused where it stands, first its first tube's") {
  check_no_groups(with_round_post({"lb0-lb1"}),
                  group_of_two_shapes("posts", Shape::square_tube, Shape::round_tube), group_place);
}

TEST_CASE("pieces of a tube in two groups, or some kept, are refused where the second stands") {
  Frame f = box_with_stock();
  for (const char* name : {"lb0-lb1", "lb1-lb2"}) member_of(f, name).tube = "sill";
  const SourceLocation place = member_of(f, "lb1-lb2").place;
  f.groups = {{"front", {"lb0-lb1"}, group_place}, {"rear", {"lb1-lb2"}, group_place}};
  check_no_groups(f, tube_in_two_groups("sill", "front", "rear"), place);
  f.groups.pop_back();
  f.keep.members = {"lb1-lb2"};
  check_no_groups(f, tube_in_two_groups("sill", "front", "keep"), place);
}

TEST_CASE("images of the mirror rule in two groups are refused, without the rule they are not") {
  Frame f = box_with_stock();
  member_of(f, "lb0-lb1").name = "sill_l";
  member_of(f, "rb0-rb1").name = "sill_r";
  f.mirror = MirrorRule{"_l", "_r", {}};
  f.groups = {{"left", {"sill_l"}, group_place}, {"right", {"sill_r"}, group_place}};
  const SourceLocation place = member_of(f, "sill_l").place;
  check_no_groups(f, images_in_two_groups("sill_l", "sill_r"), place);
  f.groups.erase(f.groups.begin());
  check_no_groups(f, images_in_two_groups("sill_l", "sill_r"), place);
  f.mirror = {};
  CHECK(size_groups(f, false));
}

TEST_CASE("a size without a price is refused where cost counts only") {
  Frame f = box_with_stock();
  f.groups = {{"all", {}, group_place}};
  for (const Member& m : f.members) f.groups[0].members.push_back(m.name);
  for (StockSize& size : f.stock->sizes) size.price = 10;
  CHECK(size_groups(f, true));
  f.stock->sizes[2].price = {};
  check_no_groups(f, size_without_price(Shape::square_tube), group_place, true);
  CHECK(size_groups(f, false));
}

TEST_CASE("a size with an area only is refused for a tube that bends, not for a link") {
  Frame f = with_area_only();
  check_no_groups(f, size_without_bending("sills", "lb0-lb1"), group_place);
  member_of(f, "lb0-lb1").kind = MemberKind::link;
  check_no_groups(f, size_without_bending("sills", "rb0-rb1"), group_place);
  member_of(f, "rb0-rb1").kind = MemberKind::link;
  CHECK(size_groups(f, false));
}

TEST_CASE("a study needs cases or limits to size by, and a torsion test for a limit of torsion") {
  Frame f = box_with_stock();
  f.cases.clear();
  check_refused(size_study(f), nothing_to_size_by(), no_place);
  f.limits.mass = 10;  // which the lightest always meets
  check_refused(size_study(f), nothing_to_size_by(), no_place);
  f.limits.torsional_stiffness = 1000;
  f.torsion = {};
  check_refused(size_study(f), limit_of_nothing(), no_place);
}

}  // namespace tubewright::size_errors_test
