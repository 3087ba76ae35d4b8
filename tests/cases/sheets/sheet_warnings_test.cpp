// The wording of what a drawing of sheet cannot show, against the form of the house.
#include "cases/sheets/sheet_warnings.h"

#include "tests/catch.h"
#include "tests/wording_form.h"

namespace tubewright::sheet_warnings_test {

namespace {

testing::Wordings one_of_each() {
  return {{"not_drawn_over_unknown_tube", not_drawn_over_unknown_tube("floor", "floor_1", "rail")},
          {"not_drawn_across_itself", not_drawn_across_itself("floor", "floor_1")},
          {"panels_drawn_apart", panels_drawn_apart("floor")},
          {"panel_warped", panel_warped("floor_1", 0.003)},
          {"sheet_on_edges", sheet_on_edges("floor", {"rail"})},
          {"no_room_for_rivets", no_room_for_rivets("floor", {"rail"})},
          {"rivets_left_out", rivets_left_out("floor", "floor_1", 3)},
          {"tubes_through_sheet", tubes_through_sheet("floor", {"post"})},
          {"pieces_lap", pieces_lap("floor", "side", {"rail"})}};
}

}  // namespace

TEST_CASE("every wording of a drawing has the form of the house") {
  testing::check_wordings("cases/sheets/sheet_warnings.h", one_of_each());
}

TEST_CASE("four names are told, the rest counted") {
  CHECK_THAT(some_of({"a", "b", "c", "d", "e", "f"}), ContainsSubstring("and 2 more"));
  CHECK_THAT(some_of({"a", "b", "c", "d"}), !ContainsSubstring("more"));
}

TEST_CASE("one rivet is left out, two are") {
  CHECK_THAT(rivets_left_out("floor", "f", 1).message, ContainsSubstring("1 rivet is left out"));
  CHECK_THAT(rivets_left_out("floor", "f", 2).message, ContainsSubstring("2 rivets are left out"));
}

}  // namespace tubewright::sheet_warnings_test
