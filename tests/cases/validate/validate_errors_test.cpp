// The wording of what makes a frame unsound, against the form of the house.
#include "cases/validate/validate_errors.h"

#include "tests/catch.h"
#include "tests/wording_form.h"

namespace tubewright::validate_errors_test {

namespace {

testing::Wordings one_of_each() {
  return {{"breaks_before_yield", breaks_before_yield("s")},
          {"shear_modulus_too_small", shear_modulus_too_small("s")},
          {"wall_too_thick", wall_too_thick("section `rail`", 0.013, 0.025)},
          {"cold_formed_corners_too_large",
           cold_formed_corners_too_large("section `rail`", 0.005, 0.02)},
          {"hot_finished_corners_too_large",
           hot_finished_corners_too_large("section `rail`", 0.005, 0.02)},
          {"no_nodes", no_nodes()},
          {"no_members", no_members()},
          {"impossible_place", impossible_place("a", "a coordinate within 1 km")},
          {"both_ends_at_one_node", both_ends_at_one_node("rail", "a")},
          {"no_length", no_length("rail", "a", "b")},
          {"spring_with_section", spring_with_section("coil")},
          {"releases_of_no_beam", releases_of_no_beam("rope", "cable")},
          {"loose_member", loose_member("rail", 0)},
          {"attachment_wider_than_face", attachment_wider_than_face("ear", 0.041, 0.040)},
          {"gusset_wider_than_face", gusset_wider_than_face("corner", 0.036, 0.034)},
          {"hole_over_the_edge", hole_over_the_edge("ear")},
          {"bolt_fills_boss", bolt_fills_boss("ear")},
          {"support_given_twice", support_given_twice("a")},
          {"support_of_nothing", support_of_nothing("a")},
          {"displaced_unheld", displaced_unheld("a", "rx")},
          {"mass_on_nothing", mass_on_nothing("load")},
          {"node_listed_twice", node_listed_twice("mass `load`", "a", "on")},
          {"rivets_overlap", rivets_overlap("floor")},
          {"offset_away_from_side", offset_away_from_side("floor")},
          {"not_four_corners", not_four_corners("floor", 5)},
          {"corner_used_twice", corner_used_twice("floor")},
          {"panel_without_area", panel_without_area("floor")},
          {"corner_not_outward", corner_not_outward("floor", "a")},
          {"panel_not_flat", panel_not_flat("floor", 0.012)},
          {"panel_has_no_top", panel_has_no_top("floor_1", "floor")},
          {"edge_without_tube", edge_without_tube("floor", "a", "b")},
          {"wheel_on_nothing", wheel_on_nothing("left")},
          {"mount_without_inboard_brake", mount_without_inboard_brake("left")},
          {"contact_above_centre", contact_above_centre("left")},
          {"node_of_two_uprights", node_of_two_uprights("a", "left", "right")},
          {"upright_supported_twice", upright_supported_twice("left", 2)},
          {"wrong_wheel_count", wrong_wheel_count(5)},
          {"wrong_wheels_of_axle", wrong_wheels_of_axle("front", 3)},
          {"axle_without_track", axle_without_track("left", "right")},
          {"axles_exchanged", axles_exchanged()},
          {"share_without_brake", share_without_brake("rear")},
          {"load_across_bar", load_across_bar("c", "rope")},
          {"vehicle_case_without_vehicle", vehicle_case_without_vehicle("c")},
          {"step_higher_than_wheel", step_higher_than_wheel("c", "left", 0.2)},
          {"braking_without_brakes", braking_without_brakes("c")},
          {"handling_mixed", handling_mixed("c")},
          {"combination_of_nothing", combination_of_nothing("c")},
          {"ride_combined", ride_combined("c", "r")},
          {"ride_in_spectrum", ride_in_spectrum("r")},
          {"static_combined_with_vehicle", static_combined_with_vehicle("c")},
          {"combination_too_deep", combination_too_deep("c", 8)},
          {"combinations_in_circle", combinations_in_circle({"a", "b"})},
          {"torsion_node_used_twice", torsion_node_used_twice("a")},
          {"torsion_pair_exchanged", torsion_pair_exchanged("front", "a", "b")},
          {"life_without_spectrum", life_without_spectrum()},
          {"cycle_of_both_or_neither", cycle_of_both_or_neither()},
          {"shaken_without_vehicle", shaken_without_vehicle()},
          {"stock_trimmed_away", stock_trimmed_away()},
          {"no_direction_limited", no_direction_limited("c", "a")},
          {"member_listed_twice", member_listed_twice("group `rails`", "m")},
          {"member_in_two_lists", member_in_two_lists("m", "group `rails`", "`keep`")},
          {"size_of_spring", size_of_spring("`keep`", "s")},
          {"group_of_nothing", group_of_nothing("rails")},
          {"gauge_without_direction", gauge_without_direction("a")}};
}

}  // namespace

TEST_CASE("every wording of an unsound frame has the form of the house") {
  testing::check_wordings("cases/validate/validate_errors.h", one_of_each());
}

TEST_CASE("a circle is told from its first case back to it, the middle of a long one left out") {
  CHECK_THAT(combinations_in_circle({"a"}).message, ContainsSubstring(": `a` -> `a`"));
  CHECK_THAT(combinations_in_circle({"a", "b"}).message, ContainsSubstring(": `a` -> `b` -> `a`"));
  std::vector<std::string> circle;
  for (int i = 0; i < 10; ++i) circle.push_back(std::to_string(i));
  CHECK_THAT(combinations_in_circle(circle).message, !ContainsSubstring("..."));
  circle.emplace_back("10");
  CHECK(combinations_in_circle(circle).message ==
        "combinations go in a circle: `0` -> ... -> `2` -> `3` -> `4` -> `5` -> `6` -> `7` -> `8` "
        "-> `9` -> `10` -> `0`");
}

TEST_CASE("a loose member is told how it moves and what would hold it") {
  CHECK(loose_member("rail", 3).message ==
        "member `rail` is loose: its releases let it spin about its own axis");
  CHECK(loose_member("rail", 3).advice == "keep `Mx` at one end");
  // Swinging in x-y moves the ends along y and turns them about z.
  for (const int d : {1, 5}) {
    CHECK_THAT(loose_member("rail", d).message, ContainsSubstring("x-y plane"));
  }
  CHECK_THAT(loose_member("rail", 1).advice, ContainsSubstring("`Fy` and `Mz`"));
  CHECK_THAT(loose_member("rail", 2).advice, ContainsSubstring("`Fz` and `My`"));
}

TEST_CASE("rounded corners are told by the standard that they come from") {
  CHECK(cold_formed_corners_too_large("section `rail`", 0.005, 0.02).advice ==
        "cold-formed corners of a 5 mm wall need a side of at least 20 mm (EN 10219-2), or say "
        "`corners: sharp`");
  CHECK_THAT(hot_finished_corners_too_large("section `rail`", 0.005, 0.02).advice,
             ContainsSubstring("EN 10210-2"));
}

}  // namespace tubewright::validate_errors_test
