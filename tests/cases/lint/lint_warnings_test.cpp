// The wording of doubts about a frame, against the form of the house.
#include "cases/lint/lint_warnings.h"

#include "tests/catch.h"
#include "tests/wording_form.h"

namespace tubewright::lint_warnings_test {

namespace {

testing::Wordings one_of_each() {
  return {{"last_of_many", last_of_many({"a", "b"})},
          {"unused_node", unused_node("a")},
          {"unused_section", unused_section("rail")},
          {"no_yield_strength", no_yield_strength("mine", "rail")},
          {"members_side_by_side", members_side_by_side("p", "q")},
          {"nodes_nearly_coincide", nodes_nearly_coincide("a", "b", 0.002)},
          {"node_lies_on_member", node_lies_on_member("m", "rail", "a", "b")},
          {"node_touches_member", node_touches_member("m", "rail", "a", "b")},
          {"members_cross", members_cross("p", "q")},
          {"bay_not_braced", bay_not_braced({"a", "b", "c", "d"})},
          {"tube_narrow_on_face", tube_narrow_on_face("brace", 2, 0.02, "rail", 0.04)},
          {"open_end_under_tube", open_end_under_tube("rail", "a", "cross")},
          {"bend_is_tight", bend_is_tight("hoop", "a", 0.05, 0.075)},
          {"bend_across_corners", bend_across_corners("hoop", "a", 0.2)},
          {"no_die_for_bend", no_die_for_bend("hoop", "a", 0.09, 0.1)},
          {"tube_stands_on_bend", tube_stands_on_bend("brace", "hoop", "a")},
          {"rivets_too_close", rivets_too_close("floor", 0.008, 0.004)},
          {"rivets_too_far_apart", rivets_too_far_apart("floor", 0.1, 0.05)},
          {"rivet_size_outside_rules", rivet_size_outside_rules("floor", 0.002)},
          {"rivets_too_stiff", rivets_too_stiff("floor", 1e9, 2e7)},
          {"rivets_near_edge", rivets_near_edge("floor", "rail", 0.006, 0.004)},
          {"sheet_left_in_the_axes", sheet_left_in_the_axes("floor", "rail", 2)},
          {"sheet_on_unknown_tubes", sheet_on_unknown_tubes("floor")},
          {"panels_on_opposite_sides", panels_on_opposite_sides("floor", "p1", "p2", "rail")},
          {"sheet_inside_tubes", sheet_inside_tubes("floor", "rail", 0, 0.005, 0.0131)},
          {"sheet_clear_of_tubes", sheet_clear_of_tubes("floor", "rail", 1, 0.005, 0.0131)},
          {"sheet_on_unlike_tubes", sheet_on_unlike_tubes("floor", "rail", 0.02, "cross", 0.01)},
          {"panel_on_link", panel_on_link("floor", "link")},
          {"panel_skewed", panel_skewed("floor", 0.2)}};
}

}  // namespace

TEST_CASE("every wording of a doubt has the form of the house") {
  testing::check_wordings("cases/lint/lint_warnings.h", one_of_each());
}

TEST_CASE("doubts tell lengths in mm, rivets in diameters and kN/mm, shares in percent") {
  CHECK_THAT(nodes_nearly_coincide("a", "b", 0.002).message, ContainsSubstring("2 mm apart"));
  CHECK_THAT(rivets_too_close("floor", 0.01, 0.004).message, ContainsSubstring("2.5 diameters"));
  CHECK_THAT(rivets_too_stiff("floor", 1e9, 2e7).message, ContainsSubstring("1000.0 kN/mm"));
  CHECK_THAT(rivets_too_stiff("floor", 1e9, 2e7).advice, ContainsSubstring("20 kN/mm"));
  CHECK_THAT(panel_skewed("floor", 0.2).advice, ContainsSubstring("20 % softer"));
}

TEST_CASE("a rivet nearer to the edge than 1.5 diameters breaks a rule, one beyond a habit") {
  CHECK_THAT(rivets_near_edge("floor", "rail", 0.0059, 0.004).advice, ContainsSubstring("EN 1993"));
  CHECK_THAT(rivets_near_edge("floor", "rail", 0.0061, 0.004).advice,
             ContainsSubstring("better practice"));
}

}  // namespace tubewright::lint_warnings_test
